"""The sums of the handout, repeated from its own printed text, agree to the printed digit."""

import re
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from halfpail.application.chalk_handout import mix_steps
from halfpail.application.open_garden import open_garden
from halfpail.application.plan_season import plan_season
from halfpail.application.print_handout import (
    Handout,
    HandoutQuestion,
    PlanHandoutQuestion,
    print_handout,
    print_plan_handout,
)
from halfpail.application.print_season import handout_pages, planned_mixes
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.domain.mix import Part
from halfpail.garden_file.reader import read_text
from halfpail.quantities.rounding import decimal, down_to
from halfpail.quantities.units import System, size_of
from halfpail.wiring import services
from tests.documents.papers import answer, pages, printed, text_of
from tests.unit.domain.bags import bag

NUMBER = r"\(?\d+(?:\.\d+)?\)?"
SUM = re.compile(rf"({NUMBER}(?:\s[×÷+]\s{NUMBER})+)\s=\s([\d.]+)( %?[\w ]*, the rest dropped)?")
ASKED = re.compile(rf"({NUMBER}(?:\s[×÷+]\s{NUMBER})+)\s=\s*([^(\n]*?)\s*\((\d+)\)")
MIXES = 40
TWO_TO_STIR = """
[tools]
scoop = "1 cup"
pail = "5 gal"

[preferences]
mixes = 1

[[bags]]
name = "Blood"
label = "12-0-0"
weight = "20 lb"
price = "2"

[[bags]]
name = "Potash"
label = "0-0-50"
weight = "20 lb"
price = "2"

[[beds]]
name = "Corner"
crop = "tomato"
size = "400 sq ft"
"""
SECOND_BED = """
[[beds]]
name = "Strip"
crop = "lettuce"
size = "100 sq ft"
"""


def worth(sum_as_printed: str) -> Fraction:
    """What a printed sum comes to: brackets, then × and ÷, then +, as one does by hand."""
    text = re.sub(r"\s+", "", sum_as_printed)
    while inner := re.search(r"\(([^()]*)\)", text):
        text = text[: inner.start()] + str_of(_added(inner[1])) + text[inner.end() :]
    return _added(text)


def str_of(number: Fraction) -> str:
    return f"{number.numerator}÷{number.denominator}"


def _added(text: str) -> Fraction:
    return sum((_multiplied(term) for term in text.split("+")), Fraction(0))


def _multiplied(term: str) -> Fraction:
    factors = re.split("([×÷])", term)
    result = Fraction(factors[0])
    for sign, factor in zip(factors[1::2], factors[2::2], strict=True):
        result = result * Fraction(factor) if sign == "×" else result / Fraction(factor)
    return result


def agrees(left: str, result: str, dropped: str) -> bool:
    places = len(result.partition(".")[2])
    if dropped:
        step = Fraction(1, 10) if "%" in dropped else Fraction(1)
        return down_to(worth(left), step) == Fraction(result)
    return Fraction(decimal(worth(left), places)) == Fraction(result)


def made_up_mix(chance: Random, system: System) -> MixQuestion:
    """Two to four bags of any whole or half grade, weight, price and usable share."""
    bags = [
        bag(
            f"bag {number}",
            Fraction(chance.randint(0, 30), 2),
            Fraction(chance.randint(0, 30), 2),
            Fraction(chance.randint(0, 30), 2),
            density=Fraction(chance.randint(30, 130), 100),
            usable=Fraction(chance.randint(20, 100), 100),
            price_per_kg=Fraction(chance.randint(20, 500), 100),
        )
        for number in range(chance.randint(2, 4))
    ]
    parts = tuple(Part(bag=one, scoops=chance.randint(1, 12)) for one in bags)
    scoop_l = Fraction(chance.randint(20, 90), 100)
    return MixQuestion(parts=parts, scoop_l=scoop_l, pail_l=Fraction(200), system=system)


def test_the_arithmetic_of_this_test():
    assert worth("(2 × 3 + 4 × 5) ÷ 4 × 2") == 13
    assert worth("0.1 × 1.56 ÷ 6") == Fraction("0.026")
    assert agrees("272.4 ÷ 30.7", "8.8", " %, the rest dropped")
    assert not agrees("272.4 ÷ 30.7", "8.9", " %, the rest dropped")
    assert not agrees("2 × 9.36", "18.8", "")


@pytest.mark.parametrize("system", System)
def test_the_sums_of_any_mix_come_out(system):
    """Forty made-up mixes, before they are printed."""
    chance = Random(7)
    for _ in range(MIXES):
        question = made_up_mix(chance, system)
        for step in mix_steps(sum_mix(question), question, prices=True):
            for one in step.sums:
                dropped = one.after if one.after.endswith("dropped") else ""
                assert agrees(one.left, one.result, dropped), (step.title, one)


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("seed", range(4))
def test_the_printed_sums_come_out(seed, system):
    """Read from the PDF: every sum on the page, those of a bed too."""
    question = made_up_mix(Random(seed), system)
    bed = answer().beds[0]
    page = print_handout(HandoutQuestion(name="A mix", mix=question, bed=bed, prices=True))
    found = SUM.findall(text_of(printed(page)))
    assert len(found) == sum(len(step.sums) for step in page.steps) > 12
    wrong = [(left, result) for left, result, after in found if not agrees(left, result, after)]
    assert wrong == []


def agree_with_answers(exercise: str) -> int:
    """How many sums of a printed exercise have, on its last page, the answer they come to."""
    sheet, _, answers = exercise.rpartition("Answers")
    told = dict(re.findall(r"\((\d+)\) ([\d.]+)", answers))
    asked = ASKED.findall(sheet)
    assert sorted(told, key=int) == [number for _, _, number in asked]
    for left, after, number in asked:
        assert agrees(left, told[number], after if after.endswith("dropped") else ""), number
    return len(asked)


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("seed", range(4))
def test_the_answers_of_a_printed_exercise_are_what_its_sums_come_to(seed, system):
    question = made_up_mix(Random(seed), system)
    bed = answer().beds[0]
    asked = HandoutQuestion(name="A mix", mix=question, bed=bed, prices=True, exercise=True)
    assert agree_with_answers(text_of(printed(print_handout(asked)))) > 12


def test_the_handout_of_a_planned_mix_comes_out():
    """A mix that a plan stirs, with a bed that gets it: handout and exercise, from the PDF."""
    garden = open_garden(read_text(TWO_TO_STIR)).garden
    garden = replace(garden, beds=tuple(replace(one, straight_ok=False) for one in garden.beds))
    planned = plan_season(garden, services().engine)
    assert isinstance(planned, SeasonAnswer)
    (mix,) = planned_mixes(garden, planned)
    assert mix.bed
    found = {name: text_of(printed(page)) for name, page in handout_pages(mix, 1, prices=True)}
    sums = SUM.findall(found["handout-1"])
    assert all(agrees(left, result, after) for left, result, after in sums)
    assert len(sums) == agree_with_answers(found["exercise-1"]) > 12


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("prices", [True, False])
def test_the_handout_of_a_plan_comes_out(system, prices):
    """Scoops, rounds, weights and money of a plan of two beds, read from the PDF."""
    garden = open_garden(read_text(TWO_TO_STIR + SECOND_BED)).garden
    beds = tuple(replace(one, straight_ok=one.name == "Strip") for one in garden.beds)
    liked = replace(garden.preferences, units=system)
    garden = replace(garden, beds=beds, preferences=liked)
    planned = plan_season(garden, services().engine)
    assert isinstance(planned, SeasonAnswer)
    asked = PlanHandoutQuestion(garden=garden, answer=planned, prices=prices)
    text = text_of(printed(print_plan_handout(asked)))
    sums = SUM.findall(text)
    assert all(agrees(left, result, after) for left, result, after in sums)
    exercise = text_of(printed(print_plan_handout(replace(asked, exercise=True))))
    assert len(sums) == agree_with_answers(exercise) >= 3
    assert ("What the bags cost" in text) == prices
    assert "Scoops of Mix 1" in text
    used = {told.bag.name: decimal(told.used_kg / size_of("lb"), 1) for told in planned.bags}
    if system is System.US:
        assert re.findall(r"= ([\d.]+) lb", text) == [one for one in used.values() if one != "0.0"]


def test_what_the_sums_come_to_is_the_grade_of_the_mix():
    question = made_up_mix(Random(3), System.US)
    summed = sum_mix(question)
    steps = mix_steps(summed, question, prices=False)
    shown = {step.title: step.sums[-1].result for step in steps}
    for nutrient, number in zip(("N", "P2O5", "K2O"), summed.chalked.divide[3:], strict=True):
        assert shown[f"{nutrient} of the mix"] == number


def test_the_exercise_shows_no_result_before_its_answers():
    solved = pages()["handout-1"]
    assert isinstance(solved, Handout)
    text = text_of(printed(pages()["exercise-1"]))
    sheet, _, answers = text.rpartition("Answers")
    results = [one.result for step in solved.steps for one in step.sums]
    assert re.findall(r"= [\d.]", sheet) == []
    assert sheet.count(" = ") == len(results)
    assert re.findall(r"\(\d+\) ([\d.]+)", answers) == results
