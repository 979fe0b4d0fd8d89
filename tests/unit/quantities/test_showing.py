from fractions import Fraction

import pytest

from halfpail.quantities.showing import (
    show_area,
    show_length,
    show_mass,
    show_money,
    show_percent,
    show_price_per_mass,
    show_rate,
    show_scoops,
    show_volume,
)
from halfpail.quantities.units import System, size_of

US, METRIC = System.US, System.METRIC


def of(number: str | int, unit: str) -> Fraction:
    return Fraction(number) * size_of(unit)


@pytest.mark.parametrize(
    ("number", "unit", "system", "shown"),
    [
        ("0", "lb", US, "0 oz"),
        ("0.1", "oz", US, "less than 1/4 oz"),
        ("0.125", "oz", US, "1/4 oz"),
        ("0.9", "oz", US, "1 oz"),
        ("5.2", "oz", US, "5 oz"),
        ("5.25", "oz", US, "5 1/2 oz"),
        ("15.74", "oz", US, "15 1/2 oz"),
        ("15.75", "oz", US, "1 lb"),
        ("4.5", "lb", US, "4 lb 8 oz"),
        ("9.98", "lb", US, "10 lb"),
        ("25", "lb", US, "25 lb"),
        ("47.3", "lb", US, "47 1/2 lb"),
        ("1234.4", "lb", US, "1234 lb"),
        ("0.4", "g", METRIC, "less than 1 g"),
        ("85.4", "g", METRIC, "85 g"),
        ("508", "g", METRIC, "510 g"),
        ("998", "g", METRIC, "1 kg"),
        ("2.041165665", "kg", METRIC, "2.04 kg"),
        ("20.25", "kg", METRIC, "20.3 kg"),
        ("999.5", "kg", METRIC, "1000 kg"),
    ],
)
def test_a_weight_is_written_as_a_scale_can_weigh_it(number, unit, system, shown):
    assert show_mass(of(number, unit), system) == shown


@pytest.mark.parametrize(
    ("number", "unit", "system", "shown"),
    [
        ("0.1", "tsp", US, "less than 1/4 tsp"),
        ("1.5", "tsp", US, "1 1/2 tsp"),
        ("3", "tsp", US, "1 tbsp"),
        ("2.6", "tbsp", US, "2 1/2 tbsp"),
        ("4", "tbsp", US, "1/4 cup"),
        ("0.7", "cup", US, "3/4 cup"),
        ("1.24", "cup", US, "1 cup"),
        ("1.25", "cup", US, "1 1/2 cups"),
        ("2.4", "cup", US, "2 1/2 cups"),
        ("15.8", "cup", US, "1 gal"),
        ("2.5", "gal", US, "2 1/2 gal"),
        ("12.3", "gal", US, "12 1/2 gal"),
        ("150.2", "gal", US, "150 gal"),
        ("7.4", "mL", METRIC, "7 mL"),
        ("236.6", "mL", METRIC, "235 mL"),
        ("591", "mL", METRIC, "590 mL"),
        ("9.46", "L", METRIC, "9.5 L"),
        ("0.5", "m³", METRIC, "500 L"),
    ],
)
def test_a_volume_is_written_in_spoons_cups_and_gallons(number, unit, system, shown):
    assert show_volume(of(number, unit), system) == shown


@pytest.mark.parametrize(
    ("number", "unit", "system", "shown"),
    [
        ("2.4", "sq ft", US, "2 1/2 sq ft"),
        ("99.5", "sq ft", US, "100 sq ft"),
        ("1", "acre", US, "1 acre"),
        ("1.256", "acre", US, "1.26 acres"),
        ("2.97289728", "m²", METRIC, "2.97 m²"),
        ("29.77", "m²", METRIC, "29.8 m²"),
        ("929.03", "m²", METRIC, "929 m²"),
        ("1.5", "ha", METRIC, "1.5 ha"),
    ],
)
def test_an_area_is_written(number, unit, system, shown):
    assert show_area(of(number, unit), system) == shown


@pytest.mark.parametrize(
    ("number", "unit", "system", "shown"),
    [
        ("4.3", "in", US, "4 1/2 in"),
        ("30", "in", US, "30 in"),
        ("4.5", "ft", US, "4 ft 6 in"),
        ("5", "ft", US, "5 ft"),
        ("100.4", "ft", US, "100 ft"),
        ("76", "cm", METRIC, "76 cm"),
        ("1.372", "m", METRIC, "1.37 m"),
        ("30.48", "m", METRIC, "30.5 m"),
    ],
)
def test_a_length_is_written(number, unit, system, shown):
    assert show_length(of(number, unit), system) == shown


@pytest.mark.parametrize(
    ("pounds", "shown"),
    [
        ("0", "0 lb per 100 sq ft"),
        ("0.004", "less than 0.01 lb per 100 sq ft"),
        ("0.18", "0.18 lb per 100 sq ft"),
        ("0.996", "1 lb per 100 sq ft"),
        ("2.25", "2.3 lb per 100 sq ft"),
        ("12.4", "12 lb per 100 sq ft"),
    ],
)
def test_a_rate_is_written_for_100_square_feet(pounds, shown):
    assert show_rate(of(pounds, "lb") / of(100, "sq ft"), US) == shown


@pytest.mark.parametrize(
    ("grams", "shown"),
    [("0.04", "less than 0.1 g per m²"), ("1.46", "1.5 g per m²"), ("48.8", "49 g per m²")],
)
def test_a_rate_is_written_for_a_square_metre(grams, shown):
    assert show_rate(of(grams, "g"), METRIC) == shown


@pytest.mark.parametrize(
    ("amount", "currency", "shown"),
    [
        ("12.99", "USD", "$12.99"),
        ("0.005", "USD", "$0.01"),
        ("-0.004", "USD", "$0.00"),
        ("-1.2", "EUR", "-€1.20"),
        ("1234.5", "CHF", "1234.50 CHF"),
    ],
)
def test_money_is_written_to_the_cent(amount, currency, shown):
    assert show_money(Fraction(amount), currency) == shown


def test_a_price_is_written_for_a_pound_or_a_kilogram():
    price = Fraction("0.52") / size_of("lb")
    assert show_price_per_mass(price, "USD", US) == "$0.52 per lb"
    assert show_price_per_mass(price, "EUR", METRIC) == "€1.15 per kg"


def test_a_percentage_keeps_its_places():
    assert show_percent(Fraction(4)) == "4.0%"
    assert show_percent(Fraction(5, 2), places=0) == "3%"
    assert show_percent(Fraction("3.45")) == "3.5%"


@pytest.mark.parametrize(
    ("scoops", "shown"),
    [
        (Fraction(0), "0 scoops"),
        (Fraction(1, 4), "1/4 scoop"),
        (Fraction(1), "1 scoop"),
        (Fraction(9, 4), "2 1/4 scoops"),
        (Fraction(33, 16), "2 scoops"),
    ],
)
def test_scoops_are_written_in_quarters(scoops, shown):
    assert show_scoops(scoops) == shown


def test_scoops_are_written_to_the_measure_given():
    assert show_scoops(Fraction(4, 3), measure=Fraction(1, 3)) == "1 1/3 scoops"


@pytest.mark.parametrize("show", [show_mass, show_volume, show_area, show_length])
def test_a_measure_below_nought_is_a_mistake_in_the_program(show):
    with pytest.raises(ValueError, match="below nought"):
        show(Fraction(-1), US)
