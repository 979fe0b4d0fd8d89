import csv
from fractions import Fraction
from pathlib import Path

import pint
import pytest

from halfpail.findings import Refusal
from halfpail.quantities.reading import read_amount, read_rate_kg_per_m2
from halfpail.quantities.units import DOUBTFUL_WORDS, UNITS, Dimension, Unit, size_of, unit_called

EXAMPLES = Path(__file__).parents[2] / "examples" / "units.csv"
CANONICAL = {
    Dimension.MASS: "kg",
    Dimension.VOLUME: "L",
    Dimension.LENGTH: "m",
    Dimension.AREA: "m^2",
}
PINT_NAMES = {
    "oz": "ounce",
    "lb": "pound",
    "short ton": "short_ton",
    "g": "gram",
    "kg": "kilogram",
    "tonne": "metric_ton",
    "tsp": "teaspoon",
    "tbsp": "tablespoon",
    "fl oz": "fluid_ounce",
    "cup": "cup",
    "pint": "pint",
    "quart": "quart",
    "gal": "gallon",
    "bushel": "bushel",
    "cu in": "inch^3",
    "cu ft": "foot^3",
    "cu yd": "yard^3",
    "mL": "milliliter",
    "L": "liter",
    "m³": "meter^3",
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "cm": "centimeter",
    "m": "meter",
    "sq in": "inch^2",
    "sq ft": "foot^2",
    "sq yd": "yard^2",
    "cm²": "centimeter^2",
    "m²": "meter^2",
    "are": "are",
    "ha": "hectare",
}


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry(non_int_type=Fraction)


# Pint, a general library of units, is the reference; with fractions in its registry it is exact.
@pytest.mark.parametrize(
    "unit", [unit for unit in UNITS if unit.symbol != "acre"], ids=lambda unit: unit.symbol
)
def test_every_size_is_the_one_of_the_reference_library(unit, registry):
    reference = registry.Quantity(Fraction(1), PINT_NAMES[unit.symbol])
    assert reference.to(CANONICAL[unit.dimension]).magnitude == unit.size


def test_the_acre_is_the_international_one_and_the_reference_library_has_the_survey_one(registry):
    foot, survey_foot = (
        registry.Quantity(Fraction(1), name).to("m").magnitude for name in ("foot", "survey_foot")
    )
    survey_acre = registry.Quantity(Fraction(1), "acre").to("m^2").magnitude
    assert size_of("acre") == 43560 * foot**2
    assert survey_acre == 43560 * survey_foot**2
    assert 0 < survey_acre / size_of("acre") - 1 < Fraction(5, 1_000_000)


def published() -> list[dict[str, str]]:
    with EXAMPLES.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def size_read(text: str) -> Fraction:
    if "per" in text or "/" in text:
        return read_rate_kg_per_m2(text)
    return read_amount(text).size


@pytest.mark.parametrize("row", published(), ids=lambda row: f"{row['typed']} = {row['printed']}")
def test_published_conversions_hold(row):
    off = abs(size_read(row["typed"]) - size_read(row["printed"]))
    assert off <= size_read(row["tolerance"]), row["source"]


def words_of(unit: Unit) -> set[str]:
    return {unit.symbol, unit.plural, *unit.synonyms}


def test_no_word_stands_for_two_units():
    words = [word.casefold() for unit in UNITS for word in words_of(unit) - {"t", "T"}]
    assert len(set(words)) == len(words)
    assert not set(words) & {*DOUBTFUL_WORDS, "t"}


def test_every_word_of_every_unit_is_read_as_that_unit():
    for unit in UNITS:
        for word in words_of(unit):
            assert unit_called(word) is unit
            assert read_amount(f"1 {word}").parts == ((Fraction(1), unit),)


def test_only_the_spoons_tell_capitals_from_small_letters():
    told_apart = [
        unit.symbol
        for unit in UNITS
        if any(unit_called(word.swapcase()) is not unit for word in words_of(unit))
    ]
    assert told_apart == ["tsp", "tbsp"]


def test_a_doubtful_word_is_refused_with_its_readings():
    for word, choices in DOUBTFUL_WORDS.items():
        with pytest.raises(Refusal, match=" or ".join(choices)):
            read_amount(f"2 {word}")
        assert all(unit_called(choice) for choice in choices)


def test_an_unknown_unit_has_no_size():
    with pytest.raises(KeyError):
        size_of("smidgen")
