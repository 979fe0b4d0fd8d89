"""Whatever is typed is read exactly or refused, and what is written can be read back."""

import string
from fractions import Fraction

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from halfpail.findings import Refusal
from halfpail.quantities import reading, showing
from halfpail.quantities.numerals import mixed as in_fractions
from halfpail.quantities.understood import understood
from halfpail.quantities.units import System, size_of

READERS = (
    reading.read_mass_kg,
    reading.read_volume_l,
    reading.read_length_m,
    reading.read_area_m2,
    reading.read_rate_kg_per_m2,
    reading.read_price_per_kg,
    reading.read_money,
    reading.read_percent,
    reading.read_number,
    reading.read_scoops,
    reading.read_whole,
)
PIECES = [*string.digits, *" .,/x*'\"#%$€-_½⅓⁄²³٣", "lb", "oz", "cup", "fl oz", "t", "T", "ft", "m"]
PIECES += [
    "kg",
    "mL",
    "sq ft",
    "m2",
    " per ",
    " by ",
    "e",
    "nan",
    "gal",
    "\u00a0",
    "\x00",
    "\u202e",
]
anything = st.text(max_size=45) | st.lists(st.sampled_from(PIECES), max_size=10).map("".join)
systems = st.sampled_from(System)


@given(text=anything, read=st.sampled_from(READERS))
def test_any_text_gives_an_exact_amount_or_one_clear_refusal(text, read):
    try:
        value = read(text, "bed 3")
    except Refusal as refusal:
        [fault] = refusal.faults
        assert fault.place == "bed 3"
        assert fault.sentence.endswith(".") and fault.remedy.endswith(".")
        assert (fault.read + fault.sentence + fault.remedy).isprintable()
    else:
        assert isinstance(value, Fraction | int)
        assert value >= 0


@given(text=anything)
def test_what_is_said_back_is_what_is_read(text):
    try:
        said = understood(text).split(" = ")[0]
    except Refusal:
        return
    again = reading.read_amount(said)
    assert again.size == reading.read_amount(text).size
    assert understood(said).split(" = ")[0] == said


whole = st.integers(0, 9999)
digits = st.from_regex(r"[0-9]{1,4}(\.[0-9]{1,4})?", fullmatch=True).map(lambda text: (text, text))
proper = st.sampled_from(["1/2", "1/3", "2/3", "1/4", "3/4", "5/8", "7/16"])
mixed = st.tuples(whole, proper).map(lambda pair: (f"{pair[0]} {pair[1]}", pair))
MEASURED = [
    (reading.read_mass_kg, "kg", [("oz", "ounce"), ("lb", "pound"), ("g", "gram"), ("kg", "kg")]),
    (reading.read_volume_l, "L", [("cups", "cup"), ("T", "tablespoon"), ("t", "teaspoon")]),
    (reading.read_volume_l, "L", [("fl oz", "fluid_ounce"), ("gal", "gallon"), ("ft3", "foot^3")]),
    (reading.read_length_m, "m", [("in", "inch"), ("ft", "foot"), ("yd", "yard"), ("cm", "cm")]),
    (reading.read_area_m2, "m^2", [("sq ft", "foot^2"), ("m²", "meter^2"), ("ha", "hectare")]),
]


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry(non_int_type=Fraction)


# Pint, a general library of units, is the reference for the factor; the number is added up here.
@given(number=digits | mixed, measured=st.sampled_from(MEASURED), data=st.data())
def test_a_number_with_a_unit_is_the_number_times_the_reference_factor(
    registry, number, measured, data
):
    text, parts = number
    value = Fraction(parts) if isinstance(parts, str) else parts[0] + Fraction(parts[1])
    read, canonical, names = measured
    unit, reference = data.draw(st.sampled_from(names))
    expected = registry.Quantity(value, reference).to(canonical).magnitude
    assert read(f"{text} {unit}", nought=True) == expected


@given(pounds=whole, half_ounces=st.integers(0, 31))
def test_pounds_and_ounces_add_up(pounds, half_ounces):
    ounces = in_fractions(Fraction(half_ounces, 2))
    expected = pounds * size_of("lb") + Fraction(half_ounces, 2) * size_of("oz")
    assert reading.read_mass_kg(f"{pounds} lb {ounces} oz", nought=True) == expected


# How far the written figure may be from the amount: below this much: at most so far.
ROUNDED_BY = {
    (showing.show_mass, System.US): (
        "1 oz: 1/8 oz; 1 lb: 1/4 oz; 10 lb: 1/2 oz; 100 lb: 1/4 lb; 99999 tonne: 1/2 lb"
    ),
    (showing.show_mass, System.METRIC): (
        "100 g: 0.5 g; 1 kg: 2.5 g; 10 kg: 5 g; 100 kg: 50 g; 99999 tonne: 500 g"
    ),
    (showing.show_volume, System.US): (
        "1 tbsp: 1/8 tsp; 1/4 cup: 1/4 tbsp; 1 cup: 1/8 cup; 1 gal: 1/4 cup; 10 gal: 1/8 gal;"
        "100 gal: 1/4 gal; 99999 m³: 1/2 gal"
    ),
    (showing.show_volume, System.METRIC): (
        "50 mL: 0.5 mL; 250 mL: 2.5 mL; 1 L: 5 mL; 100 L: 50 mL; 99999 m³: 500 mL"
    ),
    (showing.show_area, System.US): "10 sq ft: 1/4 sq ft; 1 acre: 1/2 sq ft; 99 ha: 0.005 acre",
    (showing.show_area, System.METRIC): (
        "10 m²: 0.005 m²; 100 m²: 0.05 m²; 1 ha: 0.5 m²; 99 ha: 0.005 ha"
    ),
    (showing.show_length, System.US): "1 ft: 1/4 in; 20 ft: 1/2 in; 99999 m: 6 in",
    (showing.show_length, System.METRIC): "1 m: 0.5 cm; 10 m: 0.5 cm; 99999 m: 5 cm",
}
READ_BACK = {
    showing.show_mass: reading.read_mass_kg,
    showing.show_volume: reading.read_volume_l,
    showing.show_area: reading.read_area_m2,
    showing.show_length: reading.read_length_m,
}
# Spread over many sizes: a millionth to a hundred thousand of the canonical unit.
amounts = st.builds(
    lambda figures, power: Fraction(figures) * Fraction(10) ** power,
    st.integers(1, 99999),
    st.integers(-6, 0),
)


@pytest.mark.parametrize(
    ("show", "system"), ROUNDED_BY, ids=lambda part: getattr(part, "__name__", part)
)
@given(amount=amounts)
def test_a_measure_that_is_written_is_read_back_as_near_as_it_was_rounded(show, system, amount):
    text, read = show(amount, system), READ_BACK[show]
    assume(not text.startswith("less than "))
    back = read(text)
    limits = [limit.split(":") for limit in ROUNDED_BY[show, system].split(";")]
    allowed = next(off for below, off in limits if amount <= read(below))
    assert abs(back - amount) <= read(allowed)
    assert show(back, system) == text


@pytest.mark.parametrize(
    ("show", "system"), ROUNDED_BY, ids=lambda part: getattr(part, "__name__", part)
)
@given(one=amounts, other=amounts)
def test_a_larger_amount_is_never_written_as_a_smaller_one(show, system, one, other):
    smaller, larger = sorted((one, other))
    texts = [show(smaller, system), show(larger, system)]
    written = [0 if text.startswith("less") else READ_BACK[show](text) for text in texts]
    assert written[0] <= written[1]


@given(amount=amounts, system=systems)
def test_a_rate_that_is_written_is_read_back(amount, system):
    text = showing.show_rate(amount, system)
    assume(not text.startswith("less than "))
    back = reading.read_rate_kg_per_m2(text)
    assert abs(back - amount) <= amount / 10 or amount < reading.read_rate_kg_per_m2("1 g per m²")
    assert showing.show_rate(back, system) == text


@given(cents=st.integers(0, 99_999_999), currency=st.sampled_from(["USD", "EUR", "GBP", "CHF"]))
def test_money_that_is_written_is_read_back_to_the_cent(cents, currency):
    amount = Fraction(cents, 100)
    assert reading.read_money(showing.show_money(amount, currency), "", currency) == amount


@given(cents=st.integers(0, 99_999), system=systems)
def test_a_price_that_is_written_is_read_back(cents, system):
    unit = "lb" if system is System.US else "kg"
    price = Fraction(cents, 100) / size_of(unit)
    assert reading.read_price_per_kg(showing.show_price_per_mass(price, "USD", system)) == price


@given(tenths=st.integers(0, 1000))
def test_a_percentage_that_is_written_is_read_back(tenths):
    assert reading.read_percent(showing.show_percent(Fraction(tenths, 10))) == Fraction(tenths, 10)


@given(measures=st.integers(0, 400), measure=st.sampled_from([2, 3, 4, 8]))
def test_scoops_that_are_written_are_read_back(measures, measure):
    scoops = Fraction(measures, measure)
    assert reading.read_scoops(showing.show_scoops(scoops, Fraction(1, measure))) == scoops
