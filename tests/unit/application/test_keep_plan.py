"""The old plan stands unless a new one saves enough, or it no longer does."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.keep_plan import Kept, KeptSeason, keep_plan, what_it_breaks
from halfpail.application.pose_season import pose_season
from halfpail.application.read_plan import read_plan
from halfpail.cli import as_json
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, Unmet
from halfpail.findings import Refusal
from tests.unit.application.seasons import TakingByMixes
from tests.unit.application.test_plan_season import GARDEN, a_garden, a_plan

STIRS = {"scoops": {"Blend": 3}, "rounds": 1}
FED = {"plot": "North", "of": 0, "measures": 4}


def kept(garden: Garden, old: SeasonPlan, new: SeasonPlan, saves: str = "5") -> KeptSeason:
    answer = keep_plan(garden, old, TakingByMixes({1: new}), saves=Fraction(saves))
    assert isinstance(answer, KeptSeason)
    return answer


def a_poorer_plan(garden: Garden) -> SeasonPlan:
    """The plan by hand without what goes straight onto the south bed."""
    plan = a_plan(garden)
    return a_plan(garden, feedings=plan.feedings[:2])


def test_the_old_plan_stands_where_a_new_one_saves_too_little() -> None:
    garden = a_garden()
    old, new = a_poorer_plan(garden), a_plan(garden)
    saved = old.value - new.value
    answer = kept(garden, old, new, saves=str(saved + Fraction(1, 100)))
    assert (answer.kept, answer.saved_money) == (Kept.OLD, saved)
    assert answer.season.plan.feedings == old.feedings
    assert answer.season.plan.bound == new.bound


def test_the_new_plan_stands_where_it_saves_enough() -> None:
    garden = a_garden()
    old, new = a_poorer_plan(garden), a_plan(garden)
    answer = kept(garden, old, new, saves=str(old.value - new.value))
    assert answer.kept is Kept.NEW
    assert answer.season.plan is new


def test_the_old_plan_is_bought_anew_from_today_s_shed() -> None:
    """The mix takes 36 oz of Blend: with 3 lb of it at home none has to be bought."""
    garden = a_garden(GARDEN.replace('in_shed = "1 lb"', 'in_shed = "3 lb"'))
    new = a_plan(garden)
    plan = kept(garden, a_plan(garden, purchases={}), new, saves="1000").season.plan
    assert (plan.purchases, plan.money) == ({"Quick": 1}, 8)


def test_an_old_plan_that_no_longer_does_gives_way() -> None:
    garden = a_garden(GARDEN.replace("offered = 1", "offered = 0"))
    new = a_plan(garden, stirs=(), feedings=(), purchases={}, money=0)
    answer = kept(garden, a_plan(a_garden()), new)
    assert answer.kept is Kept.BROKEN
    assert answer.because == ("there is no bag Quick any more",)
    assert answer.season.plan is new


def test_what_an_old_plan_breaks_is_told() -> None:
    problem = pose_season(a_garden())
    plan = a_plan(a_garden())
    gone = replace(plan, feedings=(replace(plan.feedings[0], plot="Moon"),))
    assert what_it_breaks(problem, gone) == ("there is no bed Moon any more",)
    unstirred = replace(plan, feedings=(replace(plan.feedings[0], of=7),))
    assert what_it_breaks(problem, unstirred) == ("a bed gets a mix that is not stirred",)
    too_much = replace(plan, feedings=(replace(plan.feedings[2], measures=16),))
    assert any("usable N, high" in told for told in what_it_breaks(problem, too_much))


def test_without_any_plan_today_that_is_told() -> None:
    unmet = Unmet(sentence="No.", proven=True)
    assert keep_plan(a_garden(), a_plan(a_garden()), TakingByMixes({1: unmet})) is unmet


def test_a_plan_written_as_json_is_read_again() -> None:
    plan = a_plan(a_garden())
    read = read_plan({"season": {"plan": as_json.plain(plan)}})
    assert (read.stirs, read.feedings) == (plan.stirs, plan.feedings)


@pytest.mark.parametrize(
    ("written", "place"),
    [
        (None, "the file"),
        ([], "the file"),
        ({}, "season"),
        ({"season": {"plan": 3}}, "season.plan"),
        ({"season": {"plan": {"stirs": {}, "feedings": []}}}, "season.plan.stirs"),
        ({"season": {"plan": {"stirs": [STIRS]}}}, "season.plan.feedings"),
        (
            {"season": {"plan": {"stirs": [{**STIRS, "rounds": 0}], "feedings": []}}},
            "season.plan.stirs[0].rounds",
        ),
        (
            {"season": {"plan": {"stirs": [], "feedings": [{**FED, "measures": 1.5}]}}},
            "season.plan.feedings[0].measures",
        ),
        (
            {"season": {"plan": {"stirs": [], "feedings": [{**FED, "of": True}]}}},
            "season.plan.feedings[0].of",
        ),
        (
            {"season": {"plan": {"stirs": [], "feedings": [{**FED, "plot": 4}]}}},
            "season.plan.feedings[0].plot",
        ),
    ],
)
def test_what_is_no_plan_is_refused_with_its_place(written: object, place: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_plan(written)
    assert refused.value.faults[0].place == place
