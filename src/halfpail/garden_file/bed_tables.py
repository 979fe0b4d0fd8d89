"""A bed as the tables of a garden file, in its own words as far as these still hold."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from halfpail.application.garden_entry import BedEntry
from halfpail.domain.lime_method import Buffer
from halfpail.domain.soil_test import Element, Scale, SoilTest, methods_of
from halfpail.findings import Refusal
from halfpail.garden_file import amount_words, keys, soil_keys, soil_values, time_keys
from halfpail.garden_file.amount_words import faces_of, written
from halfpail.garden_file.key import Key
from halfpail.garden_file.reader import read_bed
from halfpail.garden_file.typed_words import tables_of_words

Tables = dict[str, Any]

_UNIT_OF = {Scale.MASS: "{} ppm", Scale.VOLUME: "{} mg/dm3", Scale.INDEX: "{} index"}
_WAYS_TO_SIZE = ("size", "row", "row_width")
# By the name of the field, where that does not end in its unit, or in another's.
_FACES = {
    "organic_matter_share": amount_words.PERCENT,
    "acidity": amount_words.MEQ,
    "cec": amount_words.MEQ,
    "organic_N": amount_words.PERCENT,
    "ammonium_N": amount_words.PERCENT,
    "amount": amount_words.RATE,
    "lime_given": amount_words.RATE,
    "cover_dry": amount_words.RATE,
    "cover_n": amount_words.PERCENT,
    "water_ppm": amount_words.NITRATE,
    "nitrate_n_mg_per_kg": amount_words.NITRATE,
}


def table_of(known: Sequence[Key], fields: Mapping[str, Any], rate: bool = False) -> Tables:
    """The keys of a table for what an entry has, written so that they read back the same."""
    return {
        key.name: written(
            fields[key.into],
            _FACES.get(key.into, amount_words.RATE if rate else faces_of(key.into)),
            partial(key.read, place=""),
        )
        for key in known
        if key.into in fields
    }


def bed_tables(bed: BedEntry) -> Tables:
    """The tables of a bed; words it was typed in stay where the bed still reads the same.

    >>> bed_tables(read_bed({"name": "North", "crop": "pea", "size": "4 x 12 ft"}, "beds[1]"))
    {'name': 'North', 'crop': 'pea', 'size': '48 sq ft'}
    """
    exact = _exact_tables(bed)
    typed = tables_of_words(bed.typed)
    if not typed:
        return exact
    sized = {"container", *_WAYS_TO_SIZE} & set(typed)
    whole = {name: one for name, one in exact.items() if not (sized and name in _WAYS_TO_SIZE)}
    if _is(bed, found := {**whole, **typed}):
        return found
    for name, one in typed.items():
        if name in exact and _is(bed, found := {**exact, name: one}):
            exact = found
    return exact


def _is(bed: BedEntry, tables: Tables) -> bool:
    try:
        return read_bed(tables, bed.place) == bed
    except Refusal:
        return False


def _exact_tables(bed: BedEntry) -> Tables:
    usual = BedEntry(name=bed.name, place=bed.place, area_m2=bed.area_m2)
    fields = {
        name: getattr(bed, name)
        for key in keys.BED
        if hasattr(bed, name := key.into)
        and (key.required or name == "area_m2" or getattr(bed, name) != getattr(usual, name))
    }
    tables = table_of(keys.BED_OF_MANY if bed.crops else keys.BED, {**fields, **_sources(bed)})
    below: Tables = {
        "crops": [table_of(soil_keys.CROP, _told(crop)) for crop in bed.crops],
        "manure": [_manure(one) for one in bed.nitrogen.manure],
        "given": [table_of(time_keys.GIVEN, _told(one)) for one in bed.given],
        "years": [table_of(soil_keys.YEAR, _told(year)) for year in bed.years],
        "soil_test": _soil_tables(bed.soil_test) if bed.soil_test else {},
        "need": {one.nutrient: table_of(keys.NEED, _told(one), rate=True) for one in bed.needs},
    }
    return {**tables, **{name: one for name, one in below.items() if one}}


def _told(entry: Any) -> Tables:
    """The fields of a small entry that say something."""
    every = {name: getattr(entry, name) for name in entry.__dataclass_fields__}
    return {name: value for name, value in every.items() if value is not None}


def _sources(bed: BedEntry) -> Tables:
    nitrogen, found = bed.nitrogen, Tables()
    if nitrogen.legume_before:
        found["legume_before"] = True
    if cover := nitrogen.cover_crop:
        found |= {"cover_dry": cover.dry_kg_per_m2, "cover_n": cover.n_share}
    if water := nitrogen.water:
        found |= {"water_m": water.depth_m, "water_ppm": water.nitrate_n_ppm}
    if lime := bed.earlier_lime:
        found |= {"lime_given": lime.rate_kg_per_m2, "lime_months_ago": lime.months}
    return found


def _manure(given: Any) -> Tables:
    """Only its nitrogen was kept, so it is written as so much pure nitrogen, shared out."""
    amount = given.organic_n_kg_per_m2 + given.ammonium_n_kg_per_m2
    shares = {"organic_N": given.organic_n_kg_per_m2 / amount} if amount else {"organic_N": amount}
    if given.ammonium_n_kg_per_m2:
        shares["ammonium_N"] = given.ammonium_n_kg_per_m2 / amount
    fields = {"kind": given.series, "amount": amount, "years_ago": given.years_ago, **shares}
    return table_of(soil_keys.MANURE, fields)


def _soil_tables(test: SoilTest) -> Tables:
    figures = {figure.element: figure for figure in test.figures}
    fields = {
        key.into: value
        for key in soil_keys.SOIL_TEST
        if (value := getattr(test, key.into, None)) not in (None, "") and key.name != "buffer"
    }
    if test.buffer and test.buffer.buffer is Buffer.ACIDITY:
        fields["acidity"] = test.buffer.value
    elif test.buffer:
        fields["buffer_ph"] = test.buffer.value
    tables = {**_extractants(test), **table_of(soil_keys.SOIL_TEST, fields)}
    if test.buffer and test.buffer.buffer is not Buffer.ACIDITY:
        kind = {buffer: word for word, buffer in soil_values.BUFFERS.items()}
        tables["buffer"] = kind[test.buffer.buffer]
    for element, figure in figures.items():
        key = "nitrate" if element is Element.NITRATE else str(element)
        number = str(
            written(
                figure.value, read=lambda text: soil_values.soil_figure(f"{text} ppm", "").value
            )
        )
        tables[key] = _UNIT_OF[figure.scale].format(number)
    return tables


def _extractants(test: SoilTest) -> Tables:
    methods = methods_of(test)
    found = {
        "extractant": methods.common,
        "bases_extractant": methods.bases,
        "boron_extractant": methods.boron,
    }
    return {name: str(own) for name, own in found.items() if own is not None}
