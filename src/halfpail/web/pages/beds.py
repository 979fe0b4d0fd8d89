"""What the page of all beds shows: size, crops, and what each should get."""

from dataclasses import dataclass

from halfpail.application.garden_entry import BedEntry
from halfpail.application.kept import Kept
from halfpail.domain.bed import NeedRange
from halfpail.quantities.showing import show_area
from halfpail.web.at_hand import bed_need
from halfpail.web.home import Home
from halfpail.web.look import Look
from halfpail.web.pages.bed_need import PER, rate_number

SHOWN = ("N", "P2O5", "K2O")


@dataclass(frozen=True, slots=True, kw_only=True)
class BedRow:
    """A bed in cells."""

    kept: Kept[BedEntry]
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BedsPage:
    """Every bed, and the bin."""

    headings: tuple[str, ...]
    rows: tuple[BedRow, ...]
    per: str
    bin: tuple[Kept[BedEntry], ...]


def beds_page(home: Home, look: Look) -> BedsPage:
    """The beds of a garden as they were added."""
    return BedsPage(
        headings=("bed", "size", "crops", "usable N", "P2O5", "K2O", "soil test"),
        rows=tuple(_row(kept, look) for kept in home.shelf.beds.all()),
        per=PER[look.system],
        bin=home.shelf.beds.bin(),
    )


def _row(kept: Kept[BedEntry], look: Look) -> BedRow:
    bed = kept.value
    crops = ", ".join(crop.crop for crop in bed.crops) or bed.crop or "no crop yet"
    need = bed_need(bed, look.system)
    ranges = {one.nutrient: one for one in need.needs} if need else {}
    aims = (_aim(ranges[one], look) if one in ranges else "" for one in SHOWN)
    test = "yes" if bed.soil_test else "none yet"
    cells = (show_area(bed.area_m2, look.system), crops, *aims, test)
    return BedRow(kept=kept, cells=cells)


def _aim(need: NeedRange, look: Look) -> str:
    return "none at all" if need.cap == 0 else rate_number(need.aim, look.system)
