"""What can be asked of a season beyond the plan, as plain text: ways, reasons, others, repairs."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from halfpail.application.compare_mixes import Comparison, WayToFeed
from halfpail.application.explain_season import MoreRoom, SeasonExplanation, WhyBag
from halfpail.application.group_doses import GroupedDoses
from halfpail.application.keep_plan import Kept, KeptSeason
from halfpail.application.mend_season import Mending
from halfpail.application.other_plans import OtherPlans
from halfpail.application.season_answer import FitAnswer, SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.cli import printing
from halfpail.cli.season_report import given, rate, rate_unit
from halfpail.domain.bed import Fit
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_mass, show_money, show_scoops
from halfpail.quantities.units import System

NONE = Fraction(0)
NOTHING = "-"


def comparison_text(comparison: Comparison, currency: str, units: System) -> str:
    """The ways side by side, which is enough, and why not fewer mixes."""
    rows = [_way(way, currency, units) for way in comparison.ways]
    found = f"Enough: {comparison.found}. {comparison.rule}"
    least = show_money(comparison.no_better_than, currency)
    bound = (
        f"Not even a mix of its own for every bed brings money and misses together below {least}."
    )
    asked = f"You asked for {comparison.asked}." if comparison.asked else ""
    said = (found, asked, comparison.why_not_fewer, comparison.supposed, bound)
    unmet = [f"{way.name}: {way.unmet}" for way in comparison.ways if way.unmet]
    return _section(
        "One mix, or more", printing.table(_WAY_HEADINGS, rows), _paragraphs((*said, *unmet))
    )


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


def _way(way: WayToFeed, currency: str, units: System) -> tuple[str, ...]:
    if way.money is None or way.missed is None or way.better_possible is None:
        return (way.name, "no plan", *(NOTHING for _ in _FIGURES[1:]))
    return (
        way.name,
        show_money(way.money, currency),
        show_money(way.missed, currency),
        show_money(way.better_possible, currency),
        _beds(way.fits, Fit.SHORT),
        _beds(way.fits, Fit.TOO_MUCH),
        show_mass(way.p2o5_over_removal_kg, units) if way.p2o5_over_removal_kg else NOTHING,
        str(way.to_stir),
        str(way.bags_bought),
        show_mass(way.left_kg, units) if way.left_kg else NOTHING,
    )


def _beds(fits: Mapping[str, Mapping[Fit, int]], word: Fit) -> str:
    """How many beds, by nutrient."""
    counted = (f"{each[word]} of {nutrient}" for nutrient, each in fits.items() if each[word])
    return ", ".join(counted) or NOTHING


def explanation_text(explained: SeasonExplanation, answer: SeasonAnswer, units: System) -> str:
    """What more room would save, why each bag is in, the beds beside their ranges, left-overs."""
    currency = answer.currency
    room = [_room(one, currency, units) for one in explained.more_room]
    bags = [_why(one, currency, units) for one in explained.bags]
    left = [f"{one.name}: {show_mass(one.left_kg, units)}" for one in explained.left_over]
    few = "With mixes, rounds and bags as they are, no more room would save a cent."
    return "\n\n".join(
        (
            _section("What a little more room would save", _bullets(room or [few])),
            _section("Why each bag is in", _bullets(bags or ["No bag is used."])),
            _section(f"Each bed beside its range, {rate_unit(units)}", _range_table(answer, units)),
            _section("What is left over", _bullets(left or ["Nothing."])),
        )
    )


def _range_table(answer: SeasonAnswer, units: System) -> str:
    """What each bed gets of each nutrient, and from least to most."""
    nutrients = tuple(dict.fromkeys(each.need.nutrient for bed in answer.beds for each in bed.fits))
    rows = []
    for bed in answer.beds:
        fits = {each.need.nutrient: each for each in bed.fits}
        cells = (_in_range(fits[name], units) if name in fits else NOTHING for name in nutrients)
        rows.append((bed.bed.name, *cells))
    return printing.table(("bed", *nutrients), rows)


def _in_range(fit: FitAnswer, units: System) -> str:
    least, most = rate(fit.need.least, units), rate(fit.need.most, units)
    return f"{given(fit, units)} of {least} to {most}"


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


def others_text(others: OtherPlans, currency: str, units: System) -> str:
    """The best plan and others for nearly the same, each with what it is best at."""
    rows = [
        (
            plan.figures.name,
            ", ".join(plan.named) or NOTHING,
            show_money(plan.worse_money, currency) if plan.worse_money else NOTHING,
            show_money(plan.figures.money or NONE, currency),
            _beds(plan.figures.fits, Fit.SHORT),
            show_mass(plan.figures.p2o5_over_removal_kg, units)
            if plan.figures.p2o5_over_removal_kg
            else NOTHING,
            str(plan.figures.to_stir),
        )
        for plan in others.plans
    ]
    headings = ("plan", "best at", "worse by", "money", "short", "P2O5 over", "stir")
    bags = [f"{plan.figures.name}: {', '.join(plan.bags)}." for plan in others.plans]
    within = show_money(others.within_money, currency)
    return _section(
        "Other plans",
        printing.table(headings, rows, left=2),
        _paragraphs((f"All within {within} of the best, misses counted in.", *bags)),
    )


def mending_text(mending: Mending, currency: str) -> str:
    """What is in the way, and what would help, each repair with what the season then comes to."""
    parts = [_bullets(mending.hints)] if mending.hints else []
    if mending.in_the_way:
        parts += ["  These cannot all hold together:", _bullets(mending.in_the_way)]
    repairs = [
        f"{repair.sentence} Then {show_money(repair.plan.money, currency)} in money and "
        f"{show_money(repair.plan.missed, currency)} in misses."
        for repair in mending.repairs
    ]
    if repairs:
        parts += ["  Any one of these would help; each was tried:", _bullets(repairs)]
    return _section("What is in the way, and what would help", *parts)


def kept_text(kept: KeptSeason, currency: str) -> str:
    """What became of the old plan."""
    saved = show_money(kept.saved_money, currency)
    enough = show_money(kept.saves_enough_money, currency)
    if kept.kept is Kept.BROKEN:
        return _section("The old plan", _bullets((f"{kept.kept}:", *kept.because)))
    said = f"{kept.kept}: a new one saves {saved}, misses counted in; {enough} is asked of it."
    return _section("The old plan", _paragraphs((said.capitalize(),)))


def grouped_text(grouped: GroupedDoses, currency: str) -> str:
    """The few sizes of each mix and bag, and what that costs."""
    sizes = [
        f"{mix_name(food) if isinstance(food, int) else food}: "
        + ", ".join(show_scoops(scoops) for scoops in each)
        for food, each in grouped.sizes.items()
    ]
    worse = show_money(grouped.worse_money, currency)
    said = f"That is {worse} worse than an amount of its own for every bed, misses counted in."
    return _section("Amounts in a few sizes", _bullets(sizes), _paragraphs((said,)))


def _section(title: str, *parts: str) -> str:
    return "\n".join((printing.heading(title), "", *(part for part in parts if part)))


def _paragraphs(lines: Iterable[str]) -> str:
    return "\n".join(printing.paragraph(line, indent="  ") for line in lines if line)


def _bullets(lines: Iterable[str]) -> str:
    def hung() -> Iterator[str]:
        for line in lines:
            yield printing.paragraph(line, indent="  * ")

    return "\n".join(hung())
