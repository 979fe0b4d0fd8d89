"""Dates and doses: sums by hand on the made-up bed, every plan tried on a small one, the caps."""

from datetime import date, timedelta
from fractions import Fraction
from itertools import combinations, product

import pytest

from halfpail.domain.feeding_search import SHORT_WEIGHS, Ask, best_times
from halfpail.domain.feeding_times import (
    Food,
    GrowingSeason,
    Visit,
    balance,
    least_visits,
    supply_kg_per_m2,
)
from halfpail.domain.release import Pool, ReleaseCurve
from halfpail.domain.uptake import Habit, Stages, taken_up
from tests.unit.domain.growing import SHORT_SEASON, food

GRAM = Fraction(1, 1000)
SLOW = ReleaseCurve(at_once_share=0.1, pools=(Pool(share=0.7, rate_per_day=0.04, q10=2),))
PLANTED = date(2027, 5, 1)
DAYS, BEFORE, AFTER = 36, 7, 20
STAGES = Stages(initial_days=8, development_days=10, middle_days=7, late_days=4)


def small_season(grams: float = 6) -> GrowingSeason:
    wanted = (grams / 1000 * taken_up(STAGES, Habit.LEAF, day + 1 - BEFORE) for day in range(DAYS))
    start = PLANTED - timedelta(days=BEFORE)
    return GrowingSeason(
        start=start,
        planted=PLANTED,
        harvest=start + timedelta(days=DAYS - 1),
        temperatures_c=(18.0,) * (DAYS + AFTER),
        wanted_kg_per_m2=tuple(wanted),
    )


def ask(season: GrowingSeason, most: int, cap: Fraction = 100 * GRAM, least: int = 1) -> Ask:
    dates = tuple(season.start + timedelta(days=day) for day in range(0, DAYS - 7, 7))
    return Ask(dates=dates, least_visits=least, most_visits=most, quick_cap_kg_per_m2=cap)


def worth(season: GrowingSeason, foods: list[Food], visits: list[Visit]) -> float:
    """What the search makes least, added up plainly over every day."""
    supply = supply_kg_per_m2(season, foods, visits)
    taken = min(supply[DAYS - 1], season.wanted_kg_per_m2[-1])
    return sum(came - taken for came in supply[DAYS:]) + sum(
        SHORT_WEIGHS * max(0.0, want - came) + max(0.0, came - want)
        for want, came in zip(season.wanted_kg_per_m2, supply[:DAYS], strict=True)
    )


def best_of_all(season: GrowingSeason, foods: list[Food], asked: Ask) -> float:
    """The best plan with at most so many visits, by trying every one."""
    (one,) = foods
    best = float("inf")
    for count in range(1, asked.most_visits + 1):
        for dates in combinations(asked.dates, count):
            for doses in product(range(1, one.measures + 1), repeat=count):
                capped = max(doses) * one.quick_n_kg_per_m2 <= asked.quick_cap_kg_per_m2
                if sum(doses) == one.measures and capped:
                    visits = [
                        Visit(on=on, measures={one.key: dose})
                        for on, dose in zip(dates, doses, strict=True)
                    ]
                    best = min(best, worth(season, foods, visits))
    return best


@pytest.mark.parametrize("most", [1, 2, 3])
@pytest.mark.parametrize(
    "one",
    [food("salt", 6), food("meal", 9, SLOW, quick=False), food("salt", 3)],
    ids=["salt", "meal", "too little"],
)
def test_no_plan_of_all_is_much_better(one, most):
    """A visit is left out where it betters the plan by less than a twentieth."""
    season, asked = small_season(), ask(small_season(), most)
    found = best_times(season, [one], asked)
    every = best_of_all(season, [one], asked)
    assert every - 1e-12 <= worth(season, [one], list(found.visits)) <= every * 1.05 + 1e-12


@pytest.mark.parametrize("cap_grams", [2, 3, 4])
def test_the_cap_on_quick_nitrogen_is_kept(cap_grams):
    season = small_season()
    found = best_times(season, [food("salt", 6)], ask(season, 3, cap_grams * GRAM))
    assert found.unplaced == 0
    assert max(visit.measures["salt"] for visit in found.visits) <= cap_grams
    assert sum(visit.measures["salt"] for visit in found.visits) == 6


def test_what_the_cap_leaves_over_is_told():
    season = small_season()
    assert best_times(season, [food("salt", 6)], ask(season, 2, 2 * GRAM)).unplaced == 2


def test_the_least_number_of_visits_is_kept():
    season = small_season()
    found = best_times(season, [food("meal", 9, SLOW, quick=False)], ask(season, 3, least=2))
    assert len(found.visits) >= 2


def test_what_must_go_in_early_does():
    season = small_season()
    foods = [food("manure", 3, SLOW, quick=False, until=PLANTED), food("salt", 4)]
    found = best_times(season, foods, ask(season, 3))
    assert found.unplaced == 0
    assert all(visit.on <= PLANTED for visit in found.visits if "manure" in visit.measures)
    assert any(visit.on > PLANTED for visit in found.visits if "salt" in visit.measures)


def test_quick_nitrogen_goes_in_later_than_slow():
    season = small_season()
    (meal,) = best_times(season, [food("meal", 9, SLOW, quick=False)], ask(season, 1)).visits
    (salt,) = best_times(season, [food("salt", 6)], ask(season, 1)).visits
    assert meal.on < salt.on


def test_balance_by_hand():
    """Wanted 0, 1, 2, 3 grams; two come on the second day."""
    met = balance(SHORT_SEASON, (0.0, 0.002, 0.002, 0.002))
    assert met.mean_short == pytest.approx(0.001 / 4)
    assert met.mean_waiting == pytest.approx(0.001 / 4)
    assert (met.short_on, met.waiting_on) == (date(2027, 6, 4), date(2027, 6, 2))
    assert met.left == 0


@pytest.mark.parametrize(
    ("measures", "cap_grams", "visits"), [(5, 2, 3), (4, 2, 2), (0, 2, 1), (3, "1/2", None)]
)
def test_fewest_visits_for_a_cap(measures, cap_grams, visits):
    assert least_visits([food("salt", measures)], Fraction(cap_grams) * GRAM) == visits
