"""What a recipe has to keep to, one function per family of demands or rows.

The first half states demands on scoops exactly, the second half puts a problem in scoops into
the programme language. Shares stand for kg of a nutrient in a kg of a bag.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from halfpail.blending.programme import Column, Programme, Row
from halfpail.blending.scoops import Demand, ScoopProblem

Figures = tuple[Fraction, ...]


def grade_band(
    nutrient: str, percent: Fraction, tolerance: Fraction, share: Figures, mass: Figures
) -> tuple[Demand, Demand]:
    """A grade: percent - tolerance <= 100 sum(share mass scoops) / sum(mass scoops) <= the same +.

    Args:
        nutrient: its name on a label.
        percent: the wished number of the grade [percent].
        tolerance: how far it may be off either side [percent].
        share: of the nutrient in each bag [kg/kg].
        mass: of a scoop of each bag [kg].
    """
    low, high = percent - tolerance, percent + tolerance
    return (
        Demand(
            name=f"least {nutrient}",
            nutrient=nutrient,
            because=f"at least {_plain(low)} % {nutrient}",
            per_scoop=tuple((low - 100 * s) * m for s, m in zip(share, mass, strict=True)),
        ),
        Demand(
            name=f"most {nutrient}",
            nutrient=nutrient,
            because=f"at most {_plain(high)} % {nutrient}",
            per_scoop=tuple((100 * s - high) * m for s, m in zip(share, mass, strict=True)),
        ),
    )


def ratio_least(nutrient: str, low: Fraction, content: Figures, nitrogen: Figures) -> Demand:
    """A least ratio: low * sum(nitrogen * scoops) <= sum(content * scoops).

    Args:
        nutrient: its name on a label.
        low: the least of it for each kg of nitrogen [kg/kg].
        content: of a scoop of each bag [kg].
        nitrogen: of a scoop of each bag [kg].
    """
    return Demand(
        name=f"least {nutrient}",
        nutrient=nutrient,
        because=f"at least {_plain(low)} {nutrient} for each 1 of N",
        per_scoop=tuple(low * n - c for c, n in zip(content, nitrogen, strict=True)),
    )


def ratio_most(nutrient: str, high: Fraction, content: Figures, nitrogen: Figures) -> Demand:
    """A most ratio: sum(content * scoops) <= high * sum(nitrogen * scoops).

    Args:
        nutrient: its name on a label.
        high: the most of it for each kg of nitrogen [kg/kg].
        content: of a scoop of each bag [kg].
        nitrogen: of a scoop of each bag [kg].
    """
    return Demand(
        name=f"most {nutrient}",
        nutrient=nutrient,
        because=f"at most {_plain(high)} {nutrient} for each 1 of N",
        per_scoop=tuple(c - high * n for c, n in zip(content, nitrogen, strict=True)),
    )


def misses_of_grade(percent: Fraction, share: Figures, mass: Figures) -> Figures:
    """Off a grade: sum((100 * share - percent) * mass * scoops), the distance times the weight."""
    return tuple((100 * s - percent) * m for s, m in zip(share, mass, strict=True))


def misses_of_ratio(aim: Fraction, content: Figures, nitrogen: Figures) -> Figures:
    """Off a ratio: sum((content - aim * nitrogen) * scoops), the distance times the nitrogen."""
    return tuple(c - aim * n for c, n in zip(content, nitrogen, strict=True))


def as_programme(problem: ScoopProblem, objective: Sequence[Fraction] = ()) -> Programme:
    """The problem as rows over scoops and over which bags are open.

    The first columns are the scoops of each bag, the next ones say of each bag whether it is
    open. Costs are those of `objective` per scoop.
    """
    bags = len(problem.bags)
    costs = [float(figure) for figure in scaled(objective)] or [0.0] * bags
    scoops = (
        Column(name=f"scoops of {bag}", high=problem.most_scoops, cost=cost, whole=True)
        for bag, cost in zip(problem.bags, costs, strict=True)
    )
    open_bags = (Column(name=f"{bag} is open", high=1, whole=True) for bag in problem.bags)
    rows = (
        *demand_rows(problem),
        *opened_rows(problem),
        *something_rows(problem),
        few_scoops(problem),
        few_bags(problem),
        *apart_rows(problem),
    )
    return Programme(columns=(*scoops, *open_bags), rows=rows)


def demand_rows(problem: ScoopProblem) -> Iterator[Row]:
    """Each demand: sum(per_scoop * scoops) <= 0 for each demand, its largest figure being 1."""
    for demand in problem.demands:
        terms = tuple((at, float(f)) for at, f in enumerate(scaled(demand.per_scoop)) if f)
        yield Row(name=demand.name, terms=terms, at_most=0, because=demand.because)


def opened_rows(problem: ScoopProblem) -> Iterator[Row]:
    """For each bag, scoops <= most scoops * open: a bag gives scoops only when it is opened."""
    bags = len(problem.bags)
    for at, bag in enumerate(problem.bags):
        yield Row(
            name=f"{bag} opened", terms=((at, 1.0), (bags + at, -problem.most_scoops)), at_most=0
        )


def something_rows(problem: ScoopProblem) -> Iterator[Row]:
    """Some mix, and some nitrogen if it counts: sum(per * scoops) >= the least per there is."""
    for per in (problem.cost_per, problem.miss_per):
        figures = scaled(per)
        terms = tuple((at, float(figure)) for at, figure in enumerate(figures) if figure)
        least = min((figure for figure in figures if figure), default=Fraction(1))
        yield Row(name="something", terms=terms, at_least=float(least))


def few_scoops(problem: ScoopProblem) -> Row:
    """One limit: sum(scoops) <= most scoops."""
    return Row(
        name="most scoops",
        terms=tuple((at, 1.0) for at in range(len(problem.bags))),
        at_most=problem.most_scoops,
        because=f"at most {problem.most_scoops} scoops",
    )


def few_bags(problem: ScoopProblem) -> Row:
    """One limit: sum(open) <= most bags."""
    bags = len(problem.bags)
    return Row(
        name="most bags",
        terms=tuple((bags + at, 1.0) for at in range(bags)),
        at_most=problem.most_bags,
        because=f"at most {problem.most_bags} bags",
    )


def apart_rows(problem: ScoopProblem) -> Iterator[Row]:
    """Each pair that may not share a mix: open(one) + open(other) <= 1."""
    number = {bag: len(problem.bags) + at for at, bag in enumerate(problem.bags)}
    for one, other in sorted(sorted(pair) for pair in problem.apart):
        yield Row(
            name=f"{one} apart from {other}",
            terms=((number[one], 1.0), (number[other], 1.0)),
            at_most=1,
            because=f"{one} and {other} may not share a mix",
        )


def scaled(figures: Sequence[Fraction]) -> list[Fraction]:
    """Figures divided by the largest size among them, so that solvers see numbers near 1.

    >>> scaled((Fraction(3), Fraction(-4)))
    [Fraction(3, 4), Fraction(-1, 1)]
    """
    largest = max(map(abs, figures), default=Fraction(0)) or Fraction(1)
    return [figure / largest for figure in figures]


def _plain(figure: Fraction) -> str:
    return f"{float(figure):.4g}"
