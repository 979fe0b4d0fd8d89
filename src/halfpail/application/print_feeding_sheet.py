"""The sheet to carry round the beds: the same amount together, so that one scoop does many beds."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.page import Page
from halfpail.application.paper_notices import PaperNotice, paper_notices
from halfpail.application.schedule_doses import PlannedFeeding, Schedule
from halfpail.findings import Notice
from halfpail.quantities.dates import day_words
from halfpail.quantities.showing import show_mass, show_scoops, show_volume
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedingRow:
    """One dose for one bed; without a day the sheet leaves a line to write on."""

    bed: str
    dose: str
    on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CupGroup:
    """Doses of one food that are the same amount: one setting of scoop or cup for all of them."""

    of: str
    scoops: str
    measure: str
    rows: tuple[FeedingRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedingSheet(Page):
    """The words of the sheet."""

    scoop: str
    groups: tuple[CupGroup, ...]
    notices: tuple[PaperNotice, ...]


def print_feeding_sheet(
    garden: str,
    schedule: Schedule,
    scoop_l: Fraction,
    system: System,
    notices: Sequence[Notice] = (),
) -> FeedingSheet:
    """Every dose of a schedule, grouped by what is given and how much, with a level scoop [L]."""
    groups: dict[tuple[str, Fraction], list[PlannedFeeding]] = {}
    for feeding in schedule.feedings:
        groups.setdefault((feeding.of, feeding.scoops), []).append(feeding)
    foods = list(dict.fromkeys(of for of, _ in groups))
    in_order = sorted(groups, key=lambda pair: (foods.index(pair[0]), -pair[1]))
    return FeedingSheet(
        title=f"Feeding sheet: {garden}",
        scoop=show_volume(scoop_l, system),
        groups=tuple(_group(groups[pair], system) for pair in in_order),
        notices=paper_notices((*notices, *schedule.notices)),
    )


def _group(feedings: Sequence[PlannedFeeding], system: System) -> CupGroup:
    first = feedings[0]
    dated = sorted(feedings, key=lambda one: (one.on is None, one.on and one.on.toordinal()))
    return CupGroup(
        of=first.of,
        scoops=show_scoops(first.scoops),
        measure=f"{show_volume(first.volume_l, system)}, {show_mass(first.mass_kg, system)}",
        rows=tuple(_row(one) for one in dated),
    )


def _row(feeding: PlannedFeeding) -> FeedingRow:
    dose = f"{feeding.dose} of {feeding.doses}" if feeding.doses > 1 else "all at once"
    return FeedingRow(
        bed=feeding.bed, dose=dose, on="" if feeding.on is None else day_words(feeding.on)
    )
