"""What is in the way of a season, in a gardener's words: quick tests, then a least conflict."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from halfpail.blending.explain import conflict
from halfpail.blending.ports import Solver
from halfpail.blending.programme import Row
from halfpail.blending.season_rows import BUDGET, SeasonRows, easiest_season
from halfpail.domain.bed import Content
from halfpail.domain.season import Ingredient, Limit, SeasonProblem
from halfpail.quantities.showing import show_mass, show_money
from halfpail.quantities.units import System

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonWords:
    """How amounts and money are said."""

    units: System = System.US
    currency: str = "USD"

    def mass(self, mass_kg: Fraction) -> str:
        """A weight [kg] in words."""
        return show_mass(mass_kg, self.units)

    def money(self, amount: Fraction) -> str:
        """A sum of money in words."""
        return show_money(amount, self.currency)


@dataclass(frozen=True, slots=True, kw_only=True)
class InTheWay:
    """One smallest conflict in words, and the limits of beds that take part in it."""

    sentences: tuple[str, ...]
    limits: tuple[Limit, ...]


def in_the_way(problem: SeasonProblem, solver: Solver, words: SeasonWords) -> InTheWay:
    """Limits, bags and money that cannot hold together even with a mix of its own for every bed.

    Nothing where they could: then it is the few mixes that are in the way.
    """
    posed = easiest_season(problem, priced=False)
    rows = conflict(posed.programme, solver)
    limits = {posed.programme.rows[row].name: limit for limit, row, _ in posed.limits}
    return InTheWay(
        sentences=tuple(_said(row, posed, problem, words) for row in rows),
        limits=tuple(limits[row.name] for row in rows if row.name in limits),
    )


def _said(row: Row, posed: SeasonRows, problem: SeasonProblem, words: SeasonWords) -> str:
    if row.name == BUDGET:
        return f"at most {words.money(problem.budget or NONE)} may be spent"
    for limit, number, _ in posed.limits:
        if posed.programme.rows[number].name == row.name:
            return _limit_words(limit, words)
    bag = next(bag for bag in problem.ingredients if bag.key == row.because)
    shed = f", {words.mass(bag.shed_kg)} in the shed" if bag.shed_kg else ""
    return f"{bag.key}: {bag.offered} on offer{shed}"


def _limit_words(limit: Limit, words: SeasonWords) -> str:
    because = f" ({limit.because})" if limit.because else ""
    parts = []
    if limit.at_least is not None:
        parts.append(f"needs at least {words.mass(limit.at_least)}")
    if limit.at_most is not None:
        parts.append(f"may get at most {words.mass(limit.at_most)}")
    return f"{limit.plot} {' and '.join(parts)} of {limit.content}{because}"


def hints_of(problem: SeasonProblem, words: SeasonWords) -> Iterator[str]:
    """What can be seen without a search: no bag holds it, the richest falls short, all do."""
    bags = [bag for bag in problem.ingredients if bag.offered > 0 or bag.shed_kg > 0]
    needs = [limit for limit in problem.limits if limit.price_per_kg is None and limit.at_least]
    for content in dict.fromkeys(limit.content for limit in needs):
        of_it = [limit for limit in needs if limit.content is content]
        if not any(bag.contents.get(content) for bag in bags):
            beds = ", ".join(limit.plot for limit in of_it)
            yield f"No bag here holds any {content}, which {beds} cannot do without."
            continue
        yield from _all_fall_short(bags, of_it, words)
        for need in of_it:
            yield from _richest_falls_short(bags, need, problem, words)


def _all_fall_short(
    bags: list[Ingredient], needs: list[Limit], words: SeasonWords
) -> Iterator[str]:
    """Everything on offer and in the shed beside all that the beds need of it."""
    content = needs[0].content
    held_kg = sum(
        (
            (bag.shed_kg + bag.offered * bag.bag_kg) * bag.contents.get(content, NONE)
            for bag in bags
        ),
        NONE,
    )
    needed_kg = sum((need.at_least or NONE for need in needs), NONE)
    if held_kg < needed_kg:
        yield (
            f"All bags here together hold {words.mass(held_kg)} of {content}; the beds need "
            f"{words.mass(needed_kg)}."
        )


def _richest_falls_short(
    bags: list[Ingredient], need: Limit, problem: SeasonProblem, words: SeasonWords
) -> Iterator[str]:
    """The bag that gives most of it for what else is limited, beside what the bed needs."""
    for cap in problem.limits:
        if cap.plot != need.plot or cap.price_per_kg is not None or cap.at_most is None:
            continue
        holding = [bag for bag in bags if bag.contents.get(need.content)]
        per_capped = _per(need.content, cap.content)
        if any(not bag.contents.get(cap.content) for bag in holding):
            continue
        richest = max(holding, key=per_capped)
        reached_kg = per_capped(richest) * cap.at_most
        if need.at_least is not None and reached_kg < need.at_least:
            yield (
                f"{need.plot}: even {richest.key}, which gives the most {need.content} for its "
                f"{cap.content}, brings only {words.mass(reached_kg)} of the "
                f"{words.mass(need.at_least)} needed before {cap.content} stops it."
            )


def _per(content: Content, capped: Content) -> Callable[[Ingredient], Fraction]:
    return lambda bag: bag.contents[content] / bag.contents[capped]
