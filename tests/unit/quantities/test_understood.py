import pytest

from halfpail.findings import Refusal
from halfpail.quantities.understood import understood


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2 1/2 cups", "2 1/2 US cups = 591 mL"),
        ("0.123 lb", "0.123 lb = 55.8 g"),
        ("1 c", "1 US cup = 237 mL"),
        ("3 T", "3 US tbsp = 44.4 mL"),
        ("3 t", "3 US tsp = 14.8 mL"),
        ("5 gal", "5 US gal = 18.9 L"),
        ("1 cu yd", "1 cu yd = 765 L"),
        ("4 lb 8 oz", "4 lb 8 oz = 2.04 kg"),
        ("5#", "5 lb = 2.27 kg"),
        ("2,5 kg", "2.5 kg = 5.51 lb"),
        ("200 g", "200 g = 7.05 oz"),
        ("1/3 L", "1/3 L = 1.41 US cups"),
        ("2 mL", "2 mL = 0.41 US tsp"),
        ("4 x 8 ft", "4 ft x 8 ft = 2.97 m²"),
        ("1.2 x 3 m", "1.2 m x 3 m = 38.8 sq ft"),
        ("1 acre", "1 acre = 4047 m²"),
        ("4'6\"", "4 ft 6 in = 1.37 m"),
        ("0 lb", "0 lb = 0 g"),
    ],
)
def test_what_was_read_is_said_back_in_both_systems(text, said):
    assert understood(text) == said


def test_the_unit_that_was_meant_is_said_too():
    assert understood("20", unit="lb") == "20 lb = 9.07 kg"


def test_what_cannot_be_read_is_refused_in_its_place():
    with pytest.raises(Refusal, match=r"scoop: .*no unit"):
        understood("20", place="scoop")
