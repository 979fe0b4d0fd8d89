"""The label of a pail: what it is, what it is made of, how much to give, what to keep from it.

A mix for one's own beds is outside the label laws; given away it may not be, so the label says
whose it is, and in whose hands it stays is the reader's to decide.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from halfpail.application.chalk_sum import grade_words
from halfpail.application.keep_apart import clashes
from halfpail.application.page import Page
from halfpail.domain.guarantee import by_predominance
from halfpail.domain.label_print import label_lines, printed_grade
from halfpail.domain.mix import Mix, part_mass_kg
from halfpail.domain.stock import Bag
from halfpail.quantities.dates import day_words
from halfpail.quantities.showing import show_mass
from halfpail.quantities.units import System
from halfpail.reference.compatibility import Verdict
from halfpail.reference.label_rules import least_claims
from halfpail.reference.materials import material

OWN_USE = "For own use, not for sale."

# Our default, not published: meals draw damp and vermin, so a pail is for one season.
KEEPS_DAYS = 365

_KEEP_AWAY = {
    "children": "Keep shut, dry and away from children.",
    "pets": "Keep dogs and cats away; dig it in.",
    "dust": "Wear a dust mask.",
    "salt": "Keep off seeds, stems and leaves.",
    "caustic": "Burns eyes and skin: goggles, gloves.",
    "raw_manure": "Raw manure: 90 or 120 days before harvest.",
}


class LabelSize(StrEnum):
    """The sizes a label comes in; a sheet is six of them on the printer's paper."""

    LARGE = "4 x 3 in"
    A7 = "A7"
    SHEET = "sheet of six"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gift:
    """What the laws ask of a mix that leaves the household: who made it, and its net weight."""

    maker: str
    address: str
    net_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelWish:
    """What labels should look like and say: their size, the day the mix was made, and a gift.

    Without a day the label leaves a line to write on; without a `gift` it is for own use.
    `directions` stand in place of the amounts of a plan.
    """

    size: LabelSize = LabelSize.SHEET
    made_on: date | None = None
    directions: str = ""
    gift: Gift | None = None


FOR_OWN_USE = LabelWish()


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelQuestion:
    """A mix in its pail, how much of it to give, and how its label should be.

    `amounts` are lines such as "1 cup per 10 sq ft: Salad bed".
    """

    name: str
    mix: Mix
    system: System = System.US
    amounts: tuple[str, ...] = ()
    wish: LabelWish = FOR_OWN_USE


@dataclass(frozen=True, slots=True, kw_only=True)
class PailLabel(Page):
    """The words of the label, in the order that the laws ask for."""

    size: str
    net_weight: str
    name: str
    grade: str
    fuller: str
    analysis: tuple[tuple[str, str, bool], ...]
    derived_from: str
    give: str
    amounts: tuple[str, ...]
    made: str
    use_by: str
    keep_away: tuple[str, ...]
    whose: tuple[str, ...]


def print_pail_label(question: LabelQuestion) -> PailLabel:
    """The label of one mix; its guarantees are rounded down, and none of them is nought."""
    mix, gift, made_on = question.mix, question.wish.gift, question.wish.made_on
    directions = question.wish.directions
    least = least_claims()
    bags = [part.bag for part in mix.parts]
    return PailLabel(
        title=f"Pail label: {question.name}",
        size=question.wish.size.value,
        net_weight=f"Net weight {show_mass(gift.net_kg, question.system)}" if gift else "",
        name=question.name,
        grade=printed_grade(mix.analysis, least),
        fuller=f"as summed {grade_words(mix)}",
        analysis=tuple(
            (line.name, line.figure, line.beneath) for line in label_lines(mix.analysis, least)
        ),
        derived_from=f"Derived from: {', '.join(derived_from(mix))}.",
        give="Directions" if directions else "Give over the season",
        amounts=(directions,) if directions else question.amounts,
        made="" if made_on is None else day_words(made_on),
        use_by=_use_by(bags, made_on),
        keep_away=tuple(_keep_away(bags)),
        whose=(f"Made by: {gift.maker}, {gift.address}",) if gift else (OWN_USE,),
    )


def derived_from(mix: Mix) -> tuple[str, ...]:
    """What a mix is made of by falling weight: each bag, and in brackets what it names itself.

    How much of each source a bag holds its label does not say, so the bags are put in order, and
    the sources of a bag stay in the order of its own label.
    """
    weighed = [(_named(part.bag), part_mass_kg(part, mix.scoop_l)) for part in mix.parts]
    return by_predominance(weighed)


def _named(bag: Bag) -> str:
    names = [material(key).name.lower().partition(",")[0] for key in bag.materials]
    if not names:
        return f"{bag.name} (names no sources)"
    return names[0] if len(names) == 1 else f"{bag.name} ({', '.join(names)})"


def _use_by(bags: Sequence[Bag], made_on: date | None) -> str:
    """The last day to use a pail; lime among meals is for the same day only."""
    if any(clash.pair.verdict is Verdict.SAME_DAY for clash in clashes(bags)):
        return "the day it is made"
    if made_on is None:
        return "within a year"
    return day_words(made_on + timedelta(days=KEEPS_DAYS))


def _keep_away(bags: Sequence[Bag]) -> Iterator[str]:
    inside = {key for bag in bags for name in bag.materials for key in material(name).cautions}
    for key, words in _KEEP_AWAY.items():
        if key in inside or key in ("children", "dust"):
            yield words
