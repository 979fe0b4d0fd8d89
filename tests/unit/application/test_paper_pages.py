"""What goes on paper adds up to the plan, and keeps to what a pail and a label bear."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.dated_task import by_week
from halfpail.application.print_buying_list import BuyingQuestion, print_buying_list
from halfpail.application.print_feeding_sheet import print_feeding_sheet
from halfpail.application.print_mixing_card import (
    CardQuestion,
    kept_out,
    pail_rounds,
    print_mixing_card,
)
from halfpail.application.print_season_list import print_season_list
from halfpail.application.schedule_doses import Schedule, equal_doses, schedule_doses
from halfpail.application.sum_mix import sum_mix
from tests.documents.papers import answer, mix_question, opened, schedule, tasks
from tests.unit.application.worth_garden import worth_garden
from tests.unit.domain.bags import bag


def planned() -> dict[tuple[str, str], Fraction]:
    return {(bed.bed.name, feed.name): feed.scoops for bed in answer().beds for feed in bed.feeds}


@pytest.mark.parametrize("dated", [True, False])
def test_doses_add_up_to_the_plan(dated):
    found: dict[tuple[str, str], Fraction] = {}
    made: Schedule = schedule() if dated else schedule_doses(opened(), answer())
    for one in made.feedings:
        key = (one.bed, one.of)
        found[key] = found.get(key, Fraction(0)) + one.scoops
        assert (one.on is not None) == dated
    assert found == planned()
    assert found


@pytest.mark.parametrize("measures", range(1, 30))
@pytest.mark.parametrize("doses", range(1, 5))
def test_doses_are_whole_and_nearly_equal(measures, doses):
    found = equal_doses(measures, doses)
    assert sum(found) == measures
    assert max(found) - min(found) <= 1
    assert min(found) >= 1


def test_the_sheet_has_every_dose_once():
    garden = worth_garden()
    sheet = print_feeding_sheet("A", schedule(), garden.tools.scoop_l, garden.preferences.units)
    rows = [(group.of, row.bed, row.dose) for group in sheet.groups for row in group.rows]
    assert len(rows) == len(set(rows)) == len(schedule().feedings)


def test_the_list_has_every_task_in_its_week():
    page = print_season_list("A", tasks())
    assert sum(len(week.rows) for week in page.weeks) == len(tasks())
    for monday, found in by_week(tasks()).items():
        assert monday.weekday() == 0
        assert all(0 <= (task.on - monday).days < 7 for task in found)


@pytest.mark.parametrize("rounds", range(1, 40))
def test_no_pail_is_more_than_half_full(rounds):
    question = mix_question("a", "b")
    summed = sum_mix(question)
    filled = pail_rounds(rounds, summed.pail.rounds)
    assert sum(pails * each for pails, each in filled) == rounds
    for _, each in filled:
        assert 2 * each * summed.mix.volume_l <= question.pail_l


def test_the_card_has_the_scoops_of_every_pail():
    card = print_mixing_card(CardQuestion(name="A", mix=mix_question("a", "b"), rounds=7))
    assert [(column.pails, column.rounds) for column in card.columns] == [
        (1, "6 rounds"),
        (1, "1 round"),
    ]
    assert [row.pails for row in card.rows] == [("6 scoops", "1 scoop"), ("12 scoops", "2 scoops")]


def test_a_round_too_big_for_the_pail_is_told():
    question = replace(mix_question("a", "b"), pail_l=Fraction(1))
    card = print_mixing_card(CardQuestion(name="A", mix=question, rounds=1))
    assert card.columns == ()
    assert "smaller scoop" in card.too_much


def test_a_card_without_a_round_is_no_card():
    with pytest.raises(ValueError, match="one round"):
        print_mixing_card(CardQuestion(name="A", mix=mix_question("a"), rounds=0))


def test_lime_is_kept_out_of_meals():
    """As the table of the pail says: hydrated lime never, ground limestone for the same day."""
    meal = replace(bag("meal", 12), materials=("feather_meal",))
    slaked = replace(bag("slaked"), materials=("hydrated_lime",))
    ground = replace(bag("ground"), materials=("calcitic_lime",))
    words = list(kept_out([meal], [meal, slaked, ground, bag("potash", 0, 0, 50)]))
    assert [line.partition(" (")[0] for line in words] == [
        "slaked: never in this pail",
        "ground: only if the pail is spread the same day",
    ]


def test_the_buying_list_buys_what_the_plan_buys():
    page = print_buying_list(BuyingQuestion(garden=worth_garden(), answer=answer()))
    bought = {told.bag.name: str(told.bought) for told in answer().bags if told.bought}
    assert {row.bag: row.count for row in page.buy} == bought
    assert page.leave == ()
    plain = print_buying_list(BuyingQuestion(garden=worth_garden(), answer=answer(), prices=False))
    assert "$" not in plain.together + "".join(row.price for row in plain.buy)
