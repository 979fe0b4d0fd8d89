"""The first answer as a whole, against sums done by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.answer_first import (
    FED,
    MIX_KEY,
    FirstAnswer,
    FirstQuestion,
    answer_first,
    straight_nitrogen,
)
from halfpail.application.explain_first import cups, first_working, plain_area
from halfpail.application.gather_bags import gather_bags
from halfpail.domain.bed import Ground
from halfpail.domain.price import Verdict
from halfpail.findings import Severity
from halfpail.quantities.units import System, size_of
from tests.unit.domain.bags import bag

LB, SQ_FT, CUP = size_of("lb"), size_of("sq ft"), size_of("cup")


def question(*lines: str, ground: Ground = FED) -> FirstQuestion:
    gathered = gather_bags(lines, CUP)
    return FirstQuestion(
        parts=gathered.parts,
        others=gathered.others,
        area_m2=400 * SQ_FT,
        scoop_l=CUP,
        pail_l=size_of("gal") * 5,
        ground=ground,
    )


def answered(*lines: str, ground: Ground = FED) -> FirstAnswer:
    return answer_first(question(*lines, ground=ground))


def test_a_blend_alone_by_hand():
    """4-4-4 unnamed, 45 % usable, 45 lb/ft3: K2O stops it at 0.25 / 4 % = 6.25 lb for 100 sq ft.

    400 sq ft take 25 lb; 6.25 lb / (45 lb/ft3 x 0.0083551 lb per cup) = 16.6 cups; half of five
    gallons is 40 cups.
    """
    answer = answered("4-4-4, 25 lb, $12, 1 scoop")
    alone = answer.alone
    assert alone.mix_kg == 25 * LB
    (portion,) = alone.way.portions
    assert abs(portion.rate_l_per_m2 * 100 * SQ_FT / CUP - Fraction("16.62")) < Fraction("0.01")
    assert answer.sum.pail.rounds == 40
    assert alone.pails == 2
    assert [(one.bags, one.money) for one in alone.purchases] == [(1, Fraction(12))]


def test_phosphorus_first():
    answer = answered("4-4-4, 25 lb, $12, 1 scoop")
    assert answer.beside is not None
    assert answer.advised is answer.beside
    given = answer.beside.way.given.p2o5 / LB * 100 * SQ_FT
    assert given == Fraction("0.05")
    assert answer.beside.mix_kg == 5 * LB


def test_no_phosphorus_no_other_way():
    answer = answered("46-0-0 urea, 50 lb, $20, 1 scoop")
    assert answer.beside is None
    assert answer.advised is answer.alone


def test_none_needed():
    """Half an inch of compost a year for three years: nitrogen only until tested."""
    composted = Ground(compost_m_per_year=size_of("in") / 2, compost_years=3)
    answer = answered("4-4-4, 25 lb, $12", ground=composted)
    assert answer.advised.mix_kg == 0
    bought = {one.bag.name: one.bags for one in answer.advised.purchases}
    assert bought["4-4-4"] == 0


def test_a_straight_bag_at_hand_is_taken_before_one_from_the_table():
    dear = bag("dear", 12, price_per_kg=9)
    cheap = bag("cheap", 12, price_per_kg=2)
    unpriced = bag("unpriced", 46)
    both = bag("both", 12, 1)
    assert straight_nitrogen([dear, unpriced, cheap, both]).key == "cheap"
    assert straight_nitrogen([unpriced, both]).key == "unpriced"
    assert straight_nitrogen([both]).name == "Blood meal"


def test_a_bag_may_be_stirred_and_given_straight():
    answer = answered("4-4-4, 25 lb, $12, 1 scoop", "12-0-0 blood meal, 5 lb, $9, 1 scoop")
    year = answer.advised
    needed = {one.bag.name: one.needed_kg for one in year.purchases}
    fed = sum(p.rate_kg_per_m2 for p in year.way.portions) * 400 * SQ_FT
    assert sum(needed.values()) == fed
    assert [p.food.key for p in year.way.portions] == [MIX_KEY, "blood meal"]


def test_prices_against_the_ceiling():
    """About one dollar a pound is the common ceiling (common practice, no source)."""
    answer = answered("4-4-4, 10 lb, $12", "3-3-3, 10 lb, $9", "12-0-0 blood meal, 10 lb, $15")
    prices = {price.bag.name: price for price in answer.prices}
    assert prices["4-4-4"].view.verdict is Verdict.ABOVE
    assert prices["3-3-3"].view.verdict is Verdict.BELOW
    assert prices["3-3-3"].highest == 10
    assert [name for name, price in prices.items() if price.cheapest_n] == ["blood meal"]


def test_one_bag_is_not_the_cheapest_of_one():
    (price,) = answered("4-4-4, 10 lb, $12").prices
    assert not price.cheapest_n


def test_past_the_stop_in_one_year_it_is_cut_to_the_stop():
    """A running surplus of 0.5 lb P2O5 per 100 sq ft is a hard stop."""
    answer = answered("2-20-0, 25 lb, $12")
    stops = [one.sentence for one in answer.notices if one.severity is Severity.STOP]
    assert any(sentence.startswith("The mix alone: cut to the limit.") for sentence in stops)
    assert answer.alone.way.p2o5_surplus == answer.limits.p2o5_stop
    (portion,) = answer.alone.way.portions
    assert portion.stopped_by.startswith("the hard limit: the phosphorus account")


def test_a_price_that_is_not_known_is_said():
    year = answered("4-4-4").alone
    assert year.unpriced == ("4-4-4",)
    assert year.money == 0


@pytest.mark.parametrize("system", list(System))
def test_every_number_has_its_working(system):
    asked = replace(question("4-4-4, 25 lb, $12, 2 scoops", "12-0-0 blood meal"), system=system)
    steps = first_working(answer_first(asked), asked)
    text = "\n".join(f"{step.reason} {step.sum}" for step in steps)
    for word in ("a scoop of", "usable", "total", "One plant", "of row"):
        assert word in text
    assert any(step.citation for step in steps)


def test_cups_to_the_half():
    assert cups(Fraction("7.3") * CUP, System.US) == "7 1/2 cups"
    assert cups(Fraction("20.2") * CUP, System.US) == "20 cups"
    assert plain_area(System.US) == 100 * SQ_FT
