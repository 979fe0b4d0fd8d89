"""The page of a need: ranges, classes, credits, harvest, phosphorus account, other ways."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from halfpail.application.compare_needs import Comparison
from halfpail.application.explain_need import (
    class_text,
    figure_text,
    need_working,
    soil_p_next_year,
)
from halfpail.application.need_notices import need_notices
from halfpail.application.need_of_bed import BedNeed
from halfpail.application.work_out_need import WorkedNeed
from halfpail.cli import printing
from halfpail.domain.bed import NeedRange
from halfpail.domain.soil_test import Element
from halfpail.findings import Notice
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_area, show_mass, show_rate, show_volume
from halfpail.quantities.units import System

NamedNeed = tuple[str, BedNeed]


def garden_text(needs: Sequence[NamedNeed], units: System) -> str:
    """The needs of all beds, one a line, and what to mind of each."""
    heads = ("bed", "usable N", "P2O5", "K2O", "soil P", "soil K")
    rows = [_garden_row(name, need, units) for name, need in needs]
    parts = [
        printing.heading(f"What the beds should get in a season: aim, {_per(units)}"),
        printing.table(heads, rows),
        _part("Mind", printing.notices(_gathered(needs))),
    ]
    return "\n\n".join(parts)


def _gathered(needs: Sequence[NamedNeed]) -> list[Notice]:
    """Each notice once, with the beds it is for."""
    beds: dict[Notice, list[str]] = {}
    for name, need in needs:
        for notice in need_notices(need.worked) if need.worked else ():
            beds.setdefault(notice, []).append(name)
    return [
        replace(notice, sentence=f"{', '.join(names)}: {notice.sentence}")
        for notice, names in beds.items()
    ]


def _garden_row(name: str, need: BedNeed, units: System) -> tuple[str, ...]:
    ranges = {one.nutrient: one for one in need.needs}
    whole_m2 = None
    if need.worked and need.worked.question.container_l is not None:
        whole_m2 = need.worked.question.area_m2
    aims = (_aim(ranges.get(one), whole_m2, units) for one in ("N", "P2O5", "K2O"))
    soil = need.worked.soil if need.worked else None
    classes = (soil.class_of(element) if soil else None for element in (Element.P, Element.K))
    return (name, *aims, *(str(found or "-") for found in classes))


def _aim(need: NeedRange | None, whole_m2: Fraction | None, units: System) -> str:
    """An aim as a rate; of a container, whose ground is nothing to go by, as a weight."""
    if need is None:
        return "-"
    if need.cap == 0:
        return "none"
    return _number(need.aim, units) if whole_m2 is None else _mass(need.aim * whole_m2, units)


def _per(units: System) -> str:
    return show_rate(Fraction(1), units).partition(" ")[2]


def bed_text(name: str, need: BedNeed, units: System, working: bool) -> str:
    """Everything about the need of one bed."""
    return "\n\n".join(_bed_parts(name, need, units, working))


def _bed_parts(name: str, need: BedNeed, units: System, working: bool) -> Iterator[str]:
    worked = need.worked
    yield printing.heading(f"What {name} should get in a season", "=")
    if worked is None:
        yield "  All ranges are typed by you."
        return
    yield printing.paragraph(_ground_line(worked, units), indent="  ")
    yield _ranges(need, worked, units)
    if worked.soil and worked.soil.classes:
        yield _classes(worked)
    if worked.credits:
        rows = [(one.name, _number(one.rate_kg_per_m2, units)) for one in worked.credits]
        yield _part("Nitrogen that comes of itself", printing.table(("from", _per(units)), rows))
    if worked.question.container_l is None:
        yield _harvest(worked, units)
        yield _account(worked, units)
    if worked.comparisons:
        yield _part("Other ways to these numbers, to compare", _others(worked.comparisons, units))
    if found := need_notices(worked):
        yield _part("Mind", printing.notices(found))
    if working:
        yield _part("Working", printing.working(need_working(worked)))


def _part(title: str, text: str) -> str:
    return f"{printing.heading(title)}\n{text}"


def _ground_line(worked: WorkedNeed, units: System) -> str:
    question = worked.question
    crops = ", ".join(_crop_words(worked))
    ground = show_area(question.area_m2, units)
    if question.container_l is not None:
        ground = f"{show_volume(question.container_l, units)} of bought mix"
    doses = "one dose" if worked.doses == 1 else f"{worked.doses} doses"
    return f"{ground} with {crops}; nitrogen in {doses}."


def _crop_words(worked: WorkedNeed) -> Iterator[str]:
    for planned in worked.crops:
        share = planned.plan.share
        part = "" if share == 1 else f" on {shortest(100 * share, 0)} %"
        later = "" if planned.plan.succession == 1 else f" as crop {planned.plan.succession}"
        yield f"{planned.name.lower()}{part}{later}"


def _ranges(need: BedNeed, worked: WorkedNeed, units: System) -> str:
    typed = {one.nutrient for one in need.needs}
    shown = (*need.needs, *(one for one in worked.needs if one.nutrient not in typed))
    area_m2 = worked.question.area_m2
    if worked.question.container_l is not None:
        rows = [_whole_row(one, area_m2, units) for one in shown]
        text = printing.table(("nutrient", "least", "aim", "most", ""), rows)
        return _part("Ranges for all of the mix; N is usable N", text)
    heads = ("nutrient", "least", "aim", "most", "aim on the bed", "")
    rows = [_range_row(one, area_m2, units) for one in shown]
    return _part(f"Ranges, {_per(units)}; N is usable N", printing.table(heads, rows))


def _range_row(need: NeedRange, area_m2: Fraction, units: System) -> tuple[str, ...]:
    sides = (_number(side, units) for side in (need.least, need.aim, need.most))
    return (need.nutrient, *sides, _mass(need.aim * area_m2, units), _limit_word(need, units))


def _whole_row(need: NeedRange, area_m2: Fraction, units: System) -> tuple[str, ...]:
    sides = (_mass(side * area_m2, units) for side in (need.least, need.aim, need.most))
    return (need.nutrient, *sides, "none at all" if need.cap == 0 else "")


def _limit_word(need: NeedRange, units: System) -> str:
    if need.cap == 0:
        return "none at all"
    stops = need.cap > need.most and need.nutrient == "P2O5"
    return f"stops at {_number(need.cap, units)}" if stops else ""


def _number(rate: Fraction, units: System) -> str:
    """A rate without its unit, which stands above it."""
    return show_rate(rate, units).removesuffix(f" {_per(units)}")


def _mass(mass_kg: Fraction, units: System) -> str:
    return show_mass(mass_kg, units) if mass_kg else "-"


def _classes(worked: WorkedNeed) -> str:
    assert worked.soil
    rows = [
        (
            str(one.figure.element),
            figure_text(one),
            str(one.figure.extractant),
            class_text(one),
            one.table.region if one.table else "-",
        )
        for one in worked.soil.classes
    ]
    heads = ("soil", "figure", "extractant", "class", "table of")
    text = printing.table(heads, rows)
    if worked.soil.exchange:
        found = worked.soil.exchange
        share = shortest(100 * found.base_saturation_share, 0)
        text += f"\n  CEC {shortest(found.cec, 1)} meq per 100 g, bases {share} %"
    return _part("Soil test", text)


def _harvest(worked: WorkedNeed, units: System) -> str:
    taken = worked.removed
    rows = [("N", taken.n), ("P2O5", taken.p2o5), ("K2O", taken.k2o)]
    text = printing.table(
        ("what harvests take", _per(units)),
        [(name, _number(rate, units)) for name, rate in rows],
    )
    return _part("Harvest", text)


def _account(worked: WorkedNeed, units: System) -> str:
    rows = [
        (
            str(line.year.year),
            _number(line.year.given_kg_per_m2, units),
            _number(line.year.removed_kg_per_m2, units),
            _number(line.surplus_kg_per_m2, units),
            "-" if line.expected_mg_per_kg is None else shortest(line.expected_mg_per_kg, 0),
        )
        for line in worked.account
    ]
    heads = ("year", "P2O5 given", "taken", "running surplus", "soil P, ppm")
    lines = [printing.table(heads, rows)] if rows else []
    stop = show_rate(worked.stop_kg_per_m2, units)
    lines.append(f"  This year at most {stop}, all P2O5 counted, bone and rock in full.")
    lines += _expected_lines(worked)
    return _part("Phosphorus account", "\n".join(lines))


def _expected_lines(worked: WorkedNeed) -> Iterator[str]:
    aim = worked.need("P2O5")
    none = soil_p_next_year(worked, Fraction(0))
    if none is None or aim is None:
        return
    with_aim = soil_p_next_year(worked, aim.aim)
    assert with_aim is not None
    yield (
        f"  Soil P to be expected next year: {shortest(none, 1)} ppm with nothing given, "
        f"{shortest(with_aim, 1)} ppm with the aim."
    )


def _others(found: Sequence[Comparison], units: System) -> str:
    lines = []
    for one in found:
        low, high = (_number(side, units) for side in (one.low, one.high))
        rate = low if low == high else f"{low} to {high}"
        basis = f" ({one.basis})" if one.basis else ""
        reason = f" Published, not used: {one.reason}." if one.reason else ""
        text = f"{one.nutrient} {rate}: {one.way}{basis}.{reason}{printing.cited(one.citation)}"
        lines.append(printing.paragraph(text, indent="  * "))
    return "\n".join(lines)


def need_document(name: str, need: BedNeed) -> dict[str, Any]:
    """The need of one bed as plain data for JSON."""
    worked = need.worked
    if worked is None:
        return {"bed": name, "needs": need.needs}
    soil = worked.soil
    return {
        "bed": name,
        "area_m2": worked.question.area_m2,
        "crops": [planned.key for planned in worked.crops],
        "doses": worked.doses,
        "needs": need.needs,
        "worked_needs": worked.needs,
        "soil": [_class_document(one) for one in soil.classes] if soil else [],
        "cec_meq_per_100_g": soil.exchange.cec if soil and soil.exchange else None,
        "credits": worked.credits,
        "harvest_kg_per_m2": {
            "N": worked.removed.n,
            "P2O5": worked.removed.p2o5,
            "K2O": worked.removed.k2o,
        },
        "phosphorus_account": worked.account,
        "p2o5_stop_kg_per_m2": worked.stop_kg_per_m2,
        "soil_p_next_year_mg_per_kg": soil_p_next_year(worked, Fraction(0)),
        "other_ways": [_comparison_document(one) for one in worked.comparisons],
        "notices": need_notices(worked),
        "working": need_working(worked),
    }


def _class_document(one: Any) -> dict[str, Any]:
    return {
        "element": one.figure.element,
        "extractant": one.figure.extractant,
        "scale": one.figure.scale,
        "value": one.figure.value,
        "class": one.soil_class,
        "printed_class": one.step.printed if one.step else None,
        "table": one.table.region if one.table else None,
        "converted_by": one.conversion.key if one.conversion else None,
    }


def _comparison_document(one: Comparison) -> dict[str, Any]:
    return {
        "nutrient": one.nutrient,
        "way": one.way,
        "low_kg_per_m2": one.low,
        "high_kg_per_m2": one.high,
        "basis": one.basis,
        "not_used_because": one.reason,
        "citation": one.citation,
    }
