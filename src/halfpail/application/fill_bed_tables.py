"""Beds and all that stands below them as rows: crops, soil tests, manure, years, ranges."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from halfpail.application import garden_tables
from halfpail.application.garden_entry import BedEntry
from halfpail.application.sheet_cells import FilledTable, Row
from halfpail.application.sheet_columns import Cell, Table
from halfpail.domain.lime_method import Buffer
from halfpail.domain.soil_test import Element, Scale, SoilFigure, SoilTest, methods_of
from halfpail.quantities.rounding import shortest

_OTHER_SCALES = {Scale.VOLUME: "mg/dm3", Scale.INDEX: "index"}
_MOST_PLACES = 9


def bed_tables(beds: tuple[BedEntry, ...]) -> Iterator[FilledTable]:
    """Every table whose rows are about beds."""
    made: tuple[tuple[Table, Callable[[BedEntry], Iterator[Row]]], ...] = (
        (garden_tables.BEDS, _bed),
        (garden_tables.CROPS, _crops),
        (garden_tables.SOIL_TESTS, _soil_test),
        (garden_tables.MANURE, _manure),
        (garden_tables.YEARS, _years),
        (garden_tables.GIVEN, _given),
        (garden_tables.RANGES, _ranges),
    )
    for table, rows_of in made:
        rows = tuple(row for bed in beds for row in rows_of(bed))
        yield FilledTable(table=table, rows=rows)


def _bed(bed: BedEntry) -> Iterator[Row]:
    nitrogen, lime = bed.nitrogen, bed.earlier_lime
    composted = bed.compost_years or bed.compost_m_per_year
    row: dict[str, Cell] = {
        "name": bed.name,
        "crop": bed.crop,
        "size": bed.area_m2,
        "container": bed.container_l,
        "history": bed.history.value,
        "compost_each_year": bed.compost_m_per_year if composted else None,
        "compost_years": bed.compost_years if composted else None,
        "yield": bed.yield_kg_per_m2,
        "legume_before": nitrogen.legume_before,
        "straight": bed.straight_ok,
        "planted": bed.planted,
        "harvest": bed.harvest,
        "eaten_part": bed.contact.value,
        "nitrate_test": bed.nitrate_n_mg_per_kg,
        "kept_for": bed.use.value if bed.use else None,
        "free_lime": bed.free_lime,
    }
    if cover := nitrogen.cover_crop:
        row |= {"cover_crop_dry": cover.dry_kg_per_m2, "cover_crop_N": cover.n_share}
    if water := nitrogen.water:
        row |= {"water_depth": water.depth_m, "water_nitrate": water.nitrate_n_ppm}
    if lime:
        row |= {"lime_given": lime.rate_kg_per_m2, "lime_months_ago": lime.months}
    yield row


def _crops(bed: BedEntry) -> Iterator[Row]:
    for crop in bed.crops:
        yield {
            "bed": bed.name,
            "crop": crop.crop,
            "share": crop.share,
            "succession": crop.succession,
            "yield": crop.yield_kg_per_m2,
            "planted": crop.planted,
            "harvest": crop.harvest,
        }


def _soil_test(bed: BedEntry) -> Iterator[Row]:
    test = bed.soil_test
    if test is None:
        return
    methods = methods_of(test)
    yield {
        "bed": bed.name,
        "year": test.year,
        "extractant": _word(methods.common),
        "bases_extractant": _word(methods.bases),
        "boron_extractant": _word(methods.boron),
        **{_key(one.element): _figure(one) for one in test.figures},
        "pH": test.ph,
        **_buffer(test),
        "organic_matter": test.organic_matter_share,
        "CEC": test.cec,
        "depth": test.depth_m,
        "texture": _word(test.texture),
        "table": test.region,
        "P_equation": test.p_equation,
        "K_equation": test.k_equation,
    }


def _key(element: Element) -> str:
    return "nitrate" if element is Element.NITRATE else element.value


def _figure(figure: SoilFigure) -> Cell:
    """The figure where it is one by weight; else in words, since the head says ppm."""
    if figure.scale is Scale.MASS:
        return figure.value
    return f"{shortest(figure.value, _MOST_PLACES)} {_OTHER_SCALES[figure.scale]}"


def _buffer(test: SoilTest) -> Mapping[str, Cell]:
    if test.buffer is None:
        return {}
    if test.buffer.buffer is Buffer.ACIDITY:
        return {"acidity": test.buffer.value}
    kind = test.buffer.buffer.value.removesuffix(" buffer pH")
    return {"buffer": kind, "buffer_pH": test.buffer.value}


def _word(one: Any) -> Cell:
    return str(one.value) if one is not None else None


def _manure(bed: BedEntry) -> Iterator[Row]:
    for one in bed.nitrogen.manure:
        yield {
            "bed": bed.name,
            "kind": one.series,
            "years_ago": one.years_ago,
            "organic_N": one.organic_n_kg_per_m2,
            "ammonium_N": one.ammonium_n_kg_per_m2,
        }


def _years(bed: BedEntry) -> Iterator[Row]:
    for one in bed.years:
        yield {
            "bed": bed.name,
            "year": one.year,
            "P2O5": one.given_kg_per_m2,
            "crop": one.crop,
            "yield": one.yield_kg_per_m2,
        }


def _given(bed: BedEntry) -> Iterator[Row]:
    for one in bed.given:
        yield {"bed": bed.name, "of": one.of, "amount": one.mass_kg, "on": one.on}


def _ranges(bed: BedEntry) -> Iterator[Row]:
    for one in bed.needs:
        yield {
            "bed": bed.name,
            "nutrient": one.nutrient,
            "least": one.least,
            "aim": one.aim,
            "most": one.most,
            "stop": one.cap,
        }
