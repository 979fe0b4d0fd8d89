"""What goes on a garden's beds for their pH, and the dates of every feeding, as plain text."""

from collections.abc import Iterator

from halfpail.application.advise_beds import BedLime, GardenLime
from halfpail.application.advise_lime import Spread
from halfpail.application.date_season import SeasonDates
from halfpail.application.word_season import dates_table
from halfpail.cli import printing
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_mass, show_rate
from halfpail.quantities.units import System

NO_CLIMATE = (
    "Without the frost dates there are no dates: write last_frost and first_frost in a [climate] "
    "table of the garden file."
)


def lime_text(lime: GardenLime) -> str:
    """Each bed with a pH: where it stands, what is spread, how often, and what to mind."""
    title = printing.heading("Lime, sulfur, calcium and magnesium, by soil test")
    if not lime.beds:
        return f"{title}\n\n{printing.paragraph('No bed has a soil pH: no lime and no sulfur.')}"
    heads = ("bed", "pH", "target", "to spread", "each time", "on the bed", "times")
    rows = [row for bed in lime.beds for row in _rows(bed, lime.system)]
    parts = [title, printing.table(heads, rows)]
    if lime.untested:
        untested = f"No pH, so nothing to be spread for it: {', '.join(lime.untested)}."
        parts.append(printing.paragraph(untested, indent="  "))
    parts.append(printing.notices(lime.notices))
    return "\n\n".join(parts)


def _rows(bed: BedLime, units: System) -> Iterator[tuple[str, ...]]:
    ph = shortest(bed.question.soil_ph, 1)
    if bed.answer is None:
        yield bed.bed, ph, "", "see below", "", "", ""
        return
    target = shortest(bed.answer.target_ph, 1)
    if not bed.answer.spreads:
        yield bed.bed, ph, target, "nothing", "", "", ""
    for number, spread in enumerate(bed.answer.spreads):
        named = ("", "", "") if number else (bed.bed, ph, target)
        yield *named, *_spread_cells(spread, units)


def _spread_cells(spread: Spread, units: System) -> tuple[str, str, str, str]:
    parts = spread.spreading.parts
    times = "once" if parts == 1 else f"{parts}, {spread.spreading.months_apart} months apart"
    rate = show_rate(spread.spreading.part_kg_per_m2, units)
    return spread.material.name, rate, show_mass(spread.part_kg, units), times


def dates_text(dates: SeasonDates | None, units: System, with_working: bool = False) -> str:
    """What to do on which day, the first day first."""
    title = printing.heading("What to do when")
    if dates is None:
        return f"{title}\n\n{printing.paragraph(NO_CLIMATE)}"
    parts = [title]
    if dates.feeds:
        table = dates_table(dates.feeds, units)
        parts.append(printing.table(table.headings, table.rows, left=3))
    else:
        parts.append(printing.paragraph("Nothing is left to be fed."))
    if dates.notices:
        parts.append(printing.notices(dates.notices))
    if with_working:
        parts.append(printing.working(dates.working))
        for bed in dates.beds:
            parts += [printing.heading(bed.name), printing.working(bed.working)]
    return "\n\n".join(parts)
