"""A season as the two models of the books, for a solver to take as they are.

Both hold whole scoops, whole rounds, whole measures and whole bags. The textbook model makes the
contents of a scoop of each mix an unknown and multiplies it with what a bed gets; the other
multiplies the share of each bag in a mix (the PQ form: Tawarmalani and Sahinidis, 2002, from
memory, not checked).
"""

from fractions import Fraction
from math import ceil

from halfpail.blending.programme import Programme
from halfpail.domain.bed import Content
from halfpail.domain.season import Ingredient, SeasonProblem
from halfpail.engine.rows import Sheet, Terms

Held = dict[tuple[str, Content], Terms]
"""What each bed gets of each content [kg], as terms."""


def textbook(problem: SeasonProblem) -> Programme:
    """Contents of a scoop of each mix times the measures of it on each bed."""
    return _Season(problem).textbook()


def by_shares(problem: SeasonProblem) -> Programme:
    """Share of each bag in each mix times the measures of it on each bed."""
    return _Season(problem).by_shares()


class _Season:
    """The rows both models have in common, and what sets each apart."""

    def __init__(self, problem: SeasonProblem) -> None:
        self.problem, self.sheet = problem, Sheet()
        self.bags = problem.ingredients
        self.mixed = [bag for bag in self.bags if bag.may_mix]
        self.measure = float(problem.measure)
        self.most = float(ceil(sum((_there(bag) / bag.scoop_kg for bag in self.bags), Fraction(0))))
        self.scoops = {
            (bag.key, k): self.sheet.column(f"{bag.key} in {k}", problem.most_scoops, whole=True)
            for bag in self.mixed
            for k in range(problem.mixes)
        }
        self.size = [
            self.sheet.column(f"scoops of {k}", problem.most_scoops, low=1.0)
            for k in range(problem.mixes)
        ]
        self.rounds = [
            self.sheet.column(f"rounds of {k}", self.most, whole=True) for k in range(problem.mixes)
        ]
        self.stirred = {at: self.sheet.column(f"stirred {at}", self.most) for at in self.scoops}
        self.given = {
            (k, plot.key): self.sheet.column(
                f"{k} on {plot.key}", self.most / self.measure, whole=True
            )
            for k in range(problem.mixes)
            for plot in problem.plots
        }
        self.straight = {
            (bag.key, plot.key): self.sheet.column(
                f"{bag.key} straight on {plot.key}", self.most / self.measure, whole=True
            )
            for bag in self.bags
            for plot in problem.plots
            if bag.may_go_straight and plot.straight_ok
        }
        self._mixes()
        self._beds()
        self._supply()

    def textbook(self) -> Programme:
        """Contents of a scoop [kg] as unknowns."""
        got: Held = {}
        for content in sorted({limit.content for limit in self.problem.limits}):
            for k in range(self.problem.mixes):
                held = [(self.scoops[bag.key, k], _holds(bag, content)) for bag in self.mixed]
                richest = max((kg for _, kg in held), default=0.0)
                per_scoop = self.sheet.column(f"{content} a scoop of {k}", richest)
                in_round = self.sheet.column(f"{content} a round of {k}")
                self.sheet.product(in_round, self.size[k], per_scoop)
                self._equal([*held, (in_round, -1.0)])
                for plot in self.problem.plots:
                    on_bed = self.sheet.column(f"{content} from {k} on {plot.key}")
                    self.sheet.product(on_bed, per_scoop, self.given[k, plot.key])
                    got.setdefault((plot.key, content), []).append((on_bed, self.measure))
        return self._done(got)

    def by_shares(self) -> Programme:
        """Shares of each bag as unknowns, with the rows that tighten them."""
        got: Held = {}
        contents = sorted({limit.content for limit in self.problem.limits})
        for k in range(self.problem.mixes):
            share = {bag.key: self.sheet.column(f"share {bag.key}", 1.0) for bag in self.mixed}
            self._equal([(c, 1.0) for c in share.values()], 1.0)
            flows: dict[str, Terms] = {bag.key: [] for bag in self.mixed}
            for bag in self.mixed:
                self.sheet.product(self.scoops[bag.key, k], share[bag.key], self.size[k])
            for plot in self.problem.plots:
                through: Terms = []
                for bag in self.mixed:
                    flow = self.sheet.column(f"{bag.key} through {k} to {plot.key}")
                    self.sheet.product(flow, share[bag.key], self.given[k, plot.key])
                    through.append((flow, 1.0))
                    flows[bag.key].append((flow, self.measure))
                    for content in contents:
                        kg = _holds(bag, content) * self.measure
                        got.setdefault((plot.key, content), []).append((flow, kg))
                self._equal([*through, (self.given[k, plot.key], -1.0)])
            for bag in self.mixed:
                there = (self.stirred[bag.key, k], -1.0)
                self.sheet.row(f"{bag.key} spread", [*flows[bag.key], there], at_most=0.0)
        return self._done(got)

    def _mixes(self) -> None:
        """Whole scoops of few bags, whole rounds, and no more given than is stirred."""
        problem, sheet = self.problem, self.sheet
        for k in range(problem.mixes):
            is_in = {
                bag.key: sheet.column(f"{bag.key} is in", 1.0, whole=True) for bag in self.mixed
            }
            for bag in self.mixed:
                scoops, held = self.scoops[bag.key, k], is_in[bag.key]
                sheet.row("few", [(scoops, 1.0), (held, -float(problem.most_scoops))], at_most=0.0)
                sheet.row("one scoop", [(scoops, 1.0), (held, -1.0)], at_least=0.0)
                sheet.product(self.stirred[bag.key, k], scoops, self.rounds[k])
            sheet.row("bags", [(c, 1.0) for c in is_in.values()], at_most=problem.most_bags)
            for pair in problem.apart:
                if pair <= is_in.keys():
                    sheet.row("apart", [(is_in[key], 1.0) for key in pair], at_most=1.0)
            in_round = [(self.scoops[bag.key, k], 1.0) for bag in self.mixed]
            self._equal([*in_round, (self.size[k], -1.0)])
            given = [(self.given[k, plot.key], self.measure) for plot in problem.plots]
            stirred = [(self.stirred[bag.key, k], -1.0) for bag in self.mixed]
            sheet.row("stirred", [*given, *stirred], at_most=0.0)

    def _beds(self) -> None:
        """No bed gets more mixes than it may."""
        for plot in self.problem.plots:
            gets = []
            for k in range(self.problem.mixes):
                gets.append((self.sheet.column(f"{plot.key} gets {k}", 1.0, whole=True), 1.0))
                most = -self.most / self.measure
                terms = [(self.given[k, plot.key], 1.0), (gets[-1][0], most)]
                self.sheet.row("gets", terms, at_most=0.0)
            self.sheet.row("few", gets, at_most=self.problem.mixes_per_plot)

    def _supply(self) -> None:
        """Whole bags, what is in the shed, and the budget."""
        spent: Terms = []
        for bag in self.bags:
            bought = self.sheet.column("bought", bag.offered, cost=float(bag.price), whole=True)
            shed = self.sheet.column("shed", float(bag.shed_kg), cost=float(bag.shed_price_per_kg))
            spent.append((bought, float(bag.price)))
            terms = [(bought, -float(bag.bag_kg)), (shed, -1.0)]
            terms += [
                (self.stirred[at], float(bag.scoop_kg)) for at in self.stirred if at[0] == bag.key
            ]
            one = self.measure * float(bag.scoop_kg)
            terms += [(column, one) for at, column in self.straight.items() if at[0] == bag.key]
            self.sheet.row("supply", terms, at_most=0.0)
        if self.problem.budget is not None:
            self.sheet.row("budget", spent, at_most=float(self.problem.budget))

    def _done(self, got: Held) -> Programme:
        """What each bed gets against its limits; a priced one may be missed."""
        for limit in self.problem.limits:
            terms = list(got.get((limit.plot, limit.content), []))
            for bag in self.bags:
                column = self.straight.get((bag.key, limit.plot))
                if column is not None:
                    terms.append((column, _holds(bag, limit.content) * self.measure))
            for sign, bound in ((1.0, limit.at_least), (-1.0, limit.at_most)):
                if bound is None:
                    continue
                scale = float(bound) or 0.01
                row = [(column, sign * kg / scale) for column, kg in terms]
                if limit.price_per_kg is not None:
                    miss = self.sheet.column("miss", cost=float(limit.price_per_kg) * scale)
                    row.append((miss, 1.0))
                self.sheet.row("limit", row, at_least=sign * float(bound) / scale)
        return self.sheet.done()

    def _equal(self, terms: Terms, to: float = 0.0) -> None:
        self.sheet.row("equal", terms, at_least=to, at_most=to)


def _there(bag: Ingredient) -> Fraction:
    return bag.offered * bag.bag_kg + bag.shed_kg


def _holds(bag: Ingredient, content: Content) -> float:
    return float(bag.scoop_kg * bag.contents.get(content, 0))
