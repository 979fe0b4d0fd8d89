"""What a bed should get, in rows and words: ranges, soil classes, credits, account."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.explain_need import class_text, figure_text, need_working
from halfpail.application.need_notices import need_notices
from halfpail.application.need_of_bed import BedNeed
from halfpail.application.word_mix import Table
from halfpail.application.work_out_need import WorkedNeed
from halfpail.domain.bed import NeedRange
from halfpail.findings import Notice
from halfpail.quantities.showing import show_area, show_mass, show_rate, show_volume
from halfpail.quantities.units import System
from halfpail.working import Working

PER = {System.US: "lb per 100 sq ft", System.METRIC: "g per m²"}


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedSheet:
    """The need of a bed as the page shows it."""

    opening: str
    ranges: Table
    classes: Table | None
    account: str
    notices: tuple[Notice, ...]
    working: Working


def need_sheet(need: BedNeed, area_m2: Fraction, system: System) -> NeedSheet:
    """The ranges of a bed with everything that went into them."""
    worked = need.worked
    return NeedSheet(
        opening=_opening(worked, area_m2, system),
        ranges=_ranges(need, area_m2, system),
        classes=_classes(worked) if worked and worked.soil and worked.soil.classes else None,
        account=_account(worked, system) if worked else "",
        notices=need_notices(worked) if worked else (),
        working=need_working(worked) if worked else (),
    )


def rate_number(rate: Fraction, system: System) -> str:
    """A rate without its unit, which stands above it."""
    return show_rate(rate, system).removesuffix(f" {PER[system]}")


def _opening(worked: WorkedNeed | None, area_m2: Fraction, system: System) -> str:
    ground = show_area(area_m2, system)
    if worked is None:
        return f"{ground}; all its ranges are typed by you."
    if worked.question.container_l is not None:
        ground = f"{show_volume(worked.question.container_l, system)} of bought mix"
    crops = ", ".join(planned.name.lower() for planned in worked.crops)
    doses = "one dose" if worked.doses == 1 else f"{worked.doses} doses"
    return f"{ground} with {crops}; nitrogen in {doses}. The ranges are in {PER[system]}."


def _ranges(need: BedNeed, area_m2: Fraction, system: System) -> Table:
    typed = {one.nutrient for one in need.needs}
    worked = need.worked.needs if need.worked else ()
    shown = (*need.needs, *(one for one in worked if one.nutrient not in typed))
    return Table(
        headings=("nutrient", "least", "aim", "most", "aim on the bed"),
        rows=tuple(tuple(_range(one, area_m2, system)) for one in shown),
    )


def _range(need: NeedRange, area_m2: Fraction, system: System) -> Iterator[str]:
    yield "usable N" if need.nutrient == "N" else need.nutrient
    for side in (need.least, need.aim, need.most):
        yield rate_number(side, system)
    if need.cap == 0:
        yield "none at all"
    else:
        yield show_mass(need.aim * area_m2, system) if need.aim else "nothing"


def _classes(worked: WorkedNeed) -> Table:
    assert worked.soil
    rows = [
        (
            str(one.figure.element),
            figure_text(one),
            class_text(one),
            str(one.figure.extractant),
            one.table.region if one.table else "",
        )
        for one in worked.soil.classes
    ]
    return Table(headings=("soil", "figure", "class", "method", "table of"), rows=tuple(rows))


def _account(worked: WorkedNeed, system: System) -> str:
    if worked.question.container_l is not None:
        return ""
    words = f"Phosphorus account: this year at most {show_rate(worked.stop_kg_per_m2, system)} "
    words += "of P2O5, bone and rock counted in full"
    if not worked.surplus_kg_per_m2:
        return f"{words}."
    return f"{words}; the surplus so far is {show_rate(worked.surplus_kg_per_m2, system)}."
