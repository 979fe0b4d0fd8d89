"""Ways to feed a garden side by side, and why a plan is as it is, in words and rows."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from halfpail.application.compare_mixes import Comparison, WayToFeed
from halfpail.application.explain_season import MoreRoom, SeasonExplanation, WhyBag
from halfpail.application.season_answer import FitAnswer, SeasonAnswer
from halfpail.application.word_mix import Table
from halfpail.application.word_season import given, rate
from halfpail.domain.bed import Fit
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_mass, show_money
from halfpail.quantities.units import System

NONE = Fraction(0)
NOTHING = "-"

_FIGURES = (
    "money",
    "misses",
    "could save",
    "short",
    "too much",
    "P2O5 over",
    "stir",
    "buy",
    "left",
)
_WAY_HEADINGS = ("way", *_FIGURES)


def ways_table(ways: tuple[WayToFeed, ...], currency: str, units: System) -> Table:
    """The ways side by side, in money, misses, phosphorus and work."""
    return Table(headings=_WAY_HEADINGS, rows=tuple(_way(way, currency, units) for way in ways))


def ways_words(comparison: Comparison, currency: str) -> Iterator[str]:
    """Which way is enough and by what rule, why not fewer mixes, and what no plan gets below."""
    least = show_money(comparison.no_better_than, currency)
    bound = (
        f"Not even a mix of its own for every bed brings money and misses together below {least}."
    )
    asked = f"You asked for {comparison.asked}." if comparison.asked else ""
    found = f"Enough: {comparison.found}. {comparison.rule}"
    said = (found, asked, comparison.why_not_fewer, comparison.supposed, bound)
    yield from (words for words in said if words)
    yield from (f"{way.name}: {way.unmet}" for way in comparison.ways if way.unmet)


def room_words(explained: SeasonExplanation, currency: str, units: System) -> tuple[str, ...]:
    """What a little more room would save, place by place."""
    few = "With mixes, rounds and bags as they are, no more room would save a cent."
    return tuple(_room(one, currency, units) for one in explained.more_room) or (few,)


def why_words(explained: SeasonExplanation, currency: str, units: System) -> tuple[str, ...]:
    """Why each bag is in the plan."""
    return tuple(_why(one, currency, units) for one in explained.bags) or ("No bag is used.",)


def left_words(explained: SeasonExplanation, units: System) -> tuple[str, ...]:
    """What is left over when the beds are fed."""
    left = tuple(f"{one.name}: {show_mass(one.left_kg, units)}" for one in explained.left_over)
    return left or ("Nothing.",)


def _way(way: WayToFeed, currency: str, units: System) -> tuple[str, ...]:
    if way.money is None or way.missed is None or way.better_possible is None:
        return (way.name, "no plan", *(NOTHING for _ in _FIGURES[1:]))
    return (
        way.name,
        show_money(way.money, currency),
        show_money(way.missed, currency),
        show_money(way.better_possible, currency),
        bed_counts(way.fits, Fit.SHORT),
        bed_counts(way.fits, Fit.TOO_MUCH),
        show_mass(way.p2o5_over_removal_kg, units) if way.p2o5_over_removal_kg else NOTHING,
        str(way.to_stir),
        str(way.bags_bought),
        show_mass(way.left_kg, units) if way.left_kg else NOTHING,
    )


def bed_counts(fits: Mapping[str, Mapping[Fit, int]], word: Fit) -> str:
    """How many beds, by nutrient."""
    counted = (f"{each[word]} of {nutrient}" for nutrient, each in fits.items() if each[word])
    return ", ".join(counted) or NOTHING


def _room(one: MoreRoom, currency: str, units: System) -> str:
    saves = f"would make the plan {show_money(one.saves, currency)} better"
    more = show_mass(one.more_kg, units)
    if not one.what:
        return f"{one.where}: another scoop of it, {more}, {saves} ({one.limit})."
    return (
        f"{one.where}: room for one more scoop, another {more} of {_plain(one.what)}, {saves} "
        f"({one.limit})."
    )


def _why(one: WhyBag, currency: str, units: System) -> str:
    share = decimal(100 * one.share, 0)
    paid = f"for {show_money(one.cost, currency)}" if one.cost else "out of the shed"
    brings = (
        f"{one.bag} brings {show_mass(one.brings_kg, units)} of {_plain(one.brings)}, {share} % "
        f"of all the beds get, {paid}."
    )
    if one.instead is None or one.instead_cost is None:
        return f"{brings} Nothing else on offer holds as much of it."
    cost = show_money(one.instead_cost, currency)
    return f"{brings} As much from {one.instead} would cost {cost}{_with_it(one, units)}."


def _plain(content: str) -> str:
    """What a bed's content is called where it does not matter how it is counted."""
    return content.split(",")[0]


def _with_it(one: WhyBag, units: System) -> str:
    if not one.more_p2o5_kg:
        return ""
    more = "more" if one.more_p2o5_kg > 0 else "less"
    return f" and bring {show_mass(abs(one.more_p2o5_kg), units)} {more} P2O5 with it"


def range_table(answer: SeasonAnswer, units: System) -> Table:
    """What each bed gets of each nutrient, and from least to most."""
    nutrients = tuple(dict.fromkeys(each.need.nutrient for bed in answer.beds for each in bed.fits))
    rows = []
    for bed in answer.beds:
        fits = {each.need.nutrient: each for each in bed.fits}
        cells = (_in_range(fits[name], units) if name in fits else NOTHING for name in nutrients)
        rows.append((bed.bed.name, *cells))
    return Table(headings=("bed", *nutrients), rows=tuple(rows))


def _in_range(fit: FitAnswer, units: System) -> str:
    least, most = rate(fit.need.least, units), rate(fit.need.most, units)
    return f"{given(fit, units)} of {least} to {most}"
