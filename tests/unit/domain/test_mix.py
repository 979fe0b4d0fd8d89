"""Blends of the bulletins, and what stirring must keep."""

import csv
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.domain.label import Analysis, Grade, Label
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import (
    Mix,
    Part,
    as_bag,
    guarantee,
    one_scoop_less,
    one_scoop_more,
    stir,
)
from tests.unit.domain.bags import bag

EXAMPLES = Path(__file__).parents[2] / "examples" / "worked_blends.csv"
LITRE = Fraction(1)


def _rows() -> list[dict[str, str]]:
    with EXAMPLES.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _part(text: str) -> Part:
    amount, grade = text.split(" of ")
    return Part(bag=bag(grade, *grade.split("-")), scoops=Fraction(amount))


def _number(mix: Mix, name: str) -> Fraction:
    return mix.mass_kg if name == "mass" else 100 * mix.analysis.of(Nutrient(name))


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['id']} {row['number']}")
def test_published_blend(row: dict[str, str]):
    """The source of each is in its row; a scoop of a litre at 1 kg/L makes scoops weights."""
    answer = _number(stir(map(_part, row["parts"].split(";")), LITRE), row["number"])
    assert abs(answer - Fraction(row["exact"])) <= Fraction(row["tolerance"])
    assert abs(answer - Fraction(row["printed"])) <= Fraction(row["printed_tolerance"])


def test_w20_is_guaranteed_as_19_19_19():
    """W20: 19.3-19.3-19.5 is guaranteed as 19-19-19 (farm question-and-answer site)."""
    parts = ["32.5 of 0-0-60", "42 of 18-46-0", "25.5 of 46-0-0"]
    mix = stir(map(_part, parts), LITRE)
    nineteen = Fraction(19)
    assert guarantee(mix.analysis.grade) == Grade(n=nineteen, p2o5=nineteen, k2o=nineteen)


def test_blend_density_where_volumes_add():
    """70 % at 40, 20 % at 35, 10 % at 45 lb/ft3 by weight: 39.31 (derived, not the 39.5 mean)."""
    weights = {40: Fraction(70), 35: Fraction(20), 45: Fraction(10)}
    parts = [
        Part(bag=bag(f"at {density}", 1, density=density), scoops=weight / density)
        for density, weight in weights.items()
    ]
    assert abs(stir(parts, LITRE).density_kg_per_l - Fraction("39.31")) < Fraction("0.005")


def test_by_volume_leaves_the_weight_of_a_scoop_out():
    light, heavy = bag("light", 10, density=Fraction(1, 2)), bag("heavy", 0, 10, density=2)
    mix = stir([Part(bag=light, scoops=1), Part(bag=heavy, scoops=1)], LITRE)
    assert mix.by_volume.grade == Grade(n=Fraction(5), p2o5=Fraction(5), k2o=Fraction(0))
    assert mix.analysis.grade == Grade(n=Fraction(2), p2o5=Fraction(8), k2o=Fraction(0))


def test_cost_is_of_the_weight_and_unknown_where_a_price_is():
    dear, cheap = bag("dear", 5, price_per_kg=3, density=2), bag("cheap", 1, price_per_kg=1)
    mix = stir([Part(bag=dear, scoops=1), Part(bag=cheap, scoops=2)], LITRE)
    assert (mix.cost, mix.cost_per_kg) == (Fraction(8), Fraction(2))
    unpriced = one_scoop_more(mix, bag("found", 1))
    assert unpriced.cost is None and unpriced.cost_per_kg is None


@pytest.mark.parametrize(
    ("grade", "usable", "expected", "tolerance"),
    [
        ((4, 4, 4), "0.50", "2.0", "0"),
        ((2, 6, 4), "0.45", "6.7", "0.05"),
    ],
)
def test_p2o5_that_comes_with_a_pound_of_usable_nitrogen(grade, usable, expected, tolerance):
    """4-4-4 at 50 % usable 2.0; 2-6-4 at 45 % 6.7 (computed from the usable-nitrogen rule)."""
    mix = stir([Part(bag=bag("it", *grade, usable=usable), scoops=3)], LITRE)
    answer = mix.p2o5_per_usable_n
    assert answer is not None
    assert abs(answer - Fraction(expected)) <= Fraction(tolerance)


def test_without_nitrogen_nothing_comes_with_it():
    assert stir([_part("1 of 0-20-0")], LITRE).p2o5_per_usable_n is None


def test_guarantee_is_never_rounded_up():
    """5.250/8.280/10.000 print as 5-8-10; a guarantee is a least (New York, Maryland, Kansas)."""
    as_made = Grade(n=Fraction("5.250"), p2o5=Fraction("8.280"), k2o=Fraction("10.000"))
    assert guarantee(as_made) == Grade(n=Fraction(5), p2o5=Fraction(8), k2o=Fraction(10))
    tenths = guarantee(as_made, Fraction(1, 10))
    assert tenths == Grade(n=Fraction("5.2"), p2o5=Fraction("8.2"), k2o=Fraction(10))


def test_a_scoop_more_and_less():
    first, second = bag("first", 4), bag("second", 2)
    mix = stir([Part(bag=first, scoops=1)], LITRE)
    both = one_scoop_more(mix, second)
    assert both.analysis.grade.n == 3
    assert one_scoop_less(both, second) == mix
    assert one_scoop_less(mix, first) is None
    assert one_scoop_less(mix, second) is None


def test_parts_of_one_bag_are_counted_together():
    meal = bag("meal", 4)
    assert stir([Part(bag=meal, scoops=1), Part(bag=meal, scoops=2)], LITRE) == stir(
        [Part(bag=meal, scoops=3)], LITRE
    )


def test_total_phosphate_is_kept_where_one_label_states_it():
    bone = bag("bone", 3, 10)
    stated = Analysis(shares=bone.label.analysis.shares, total_p2o5=Fraction(20, 100))
    with_total = Label(text="3-10-0", analysis=stated)
    mix = stir([Part(bag=replace(bone, label=with_total), scoops=1), _part("1 of 0-4-0")], LITRE)
    assert mix.analysis.total_p2o5 == Fraction(12, 100)
    assert mix.analysis.of(Nutrient.P2O5) == Fraction(7, 100)


def test_an_old_pail_is_an_ingredient():
    mix = stir([_part("2 of 3-4-4"), _part("1 of 5-1-1")], LITRE)
    pail = as_bag(mix, "pail", "last year's pail")
    assert pail.label.text == "3.6-3-3"
    again = stir([Part(bag=pail, scoops=4)], LITRE)
    assert again.analysis == mix.analysis
    assert again.usable_n == mix.usable_n
    assert again.density_kg_per_l == mix.density_kg_per_l


@pytest.mark.parametrize("scoops", [[], [0], [1, -1]])
def test_what_is_no_mix(scoops):
    parts = [Part(bag=bag(str(number), 1), scoops=n) for number, n in enumerate(scoops)]
    with pytest.raises(ValueError, match="scoop"):
        stir(parts, LITRE)
