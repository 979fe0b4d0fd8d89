"""Dates and doses of beds: slow before quick, caps, raw manure, the nitrate test, refusals."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry
from halfpail.application.time_feedings import (
    BedFood,
    BedTimes,
    FedBed,
    TimingQuestion,
    time_feedings,
)
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.manure_interval import Contact, Treatment
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Refusal
from halfpail.quantities.units import size_of
from halfpail.reference.defaults import default

FROST = FrostDates(last=date(2027, 5, 10), first=date(2027, 10, 1))
AREA = 100 * size_of("sq ft")
POUND = size_of("lb")
LB_PER_100 = POUND / AREA


def bag(name: str, label: str) -> Bag:
    return fill_bag(BagEntry(name=name, place="bag", label=label), size_of("cup"))[0]


UREA = bag("urea", "46-0-0\nDerived from: urea")
BLOOD = bag("blood meal", "12-0-0")
BLEND = bag("blend", "4-4-4")
MANURE = bag("dairy manure", "0.5-0.2-0.5\nDerived from: fresh cow manure")


def given(one: Bag, measures: int, pounds: str, **more: Treatment) -> BedFood:
    """So many measures of a bag, each of so many pounds."""
    weight = Fraction(pounds) * POUND
    return BedFood(
        name=one.name, parts=((one, Fraction(1)),), measure_kg=weight, measures=measures, **more
    )


TOMATO = FedBed(
    name="bed 1",
    crop="tomato",
    area_m2=AREA,
    n_aim_kg_per_m2=Fraction("0.18") * LB_PER_100,
    foods=(given(UREA, 8, "1/20"),),
)


def timed(bed: FedBed, **changes) -> BedTimes:
    question = TimingQuestion(beds=(bed,), warmth=WarmthQuestion(frost=FROST), frost=FROST)
    (answer,) = time_feedings(replace(question, **changes))
    return answer


def faults(*beds: FedBed, **changes) -> tuple[Fault, ...]:
    question = TimingQuestion(beds=beds, warmth=WarmthQuestion(frost=FROST), frost=FROST)
    with pytest.raises(Refusal) as caught:
        time_feedings(replace(question, **changes))
    return caught.value.faults


def test_dates_follow_from_the_frost():
    answer = timed(TOMATO)
    assert answer.stand.planted == date(2027, 5, 13)
    assert answer.stand.harvest == answer.stand.planted + timedelta(days=82)


def test_every_measure_is_given_within_the_cap():
    answer = timed(TOMATO)
    doses = [visit.measures["urea"] for visit in answer.visits]
    assert sum(doses) == 8
    quick = max(doses) * Fraction("0.46") * POUND / 20 / AREA
    assert quick <= default("quick_n_per_dose").value


@pytest.mark.parametrize("most", [2, 3, 4])
def test_no_more_visits_than_wanted(most):
    assert len(timed(TOMATO, most_visits=most).visits) <= most


def test_what_is_slow_goes_in_before_planting_and_urea_beside_the_rows():
    slow = timed(replace(TOMATO, foods=(given(BLEND, 10, "1/2"),)), most_visits=1)
    salts = timed(replace(TOMATO, foods=(given(UREA, 4, "1/20"),)), most_visits=1)
    assert slow.before_planting and not slow.beside_rows
    assert salts.beside_rows and not salts.before_planting


def test_more_visits_are_never_worse():
    def loss(most: int) -> float:
        met = timed(TOMATO, most_visits=most).balance
        return 4 * met.mean_short + met.mean_waiting

    assert loss(4) <= loss(2) * 1.05


def test_seedlings_and_the_last_two_weeks_are_left_alone():
    answer = timed(TOMATO, most_visits=4)
    for visit in answer.visits:
        after = (visit.on - answer.stand.planted).days
        assert -14 <= after <= 0 or after > 7
        assert (answer.stand.harvest - visit.on).days >= 14


def test_a_heavy_feeder_gets_two_doses_or_a_caution():
    meals = replace(TOMATO, crop="cabbage", foods=(given(BLOOD, 6, "1/4"),))
    assert len(timed(meals).visits) >= 2
    assert any("two or more doses" in one.sentence for one in timed(meals, most_visits=1).notices)


def test_nothing_is_planned_before_today():
    today = date(2027, 6, 1)
    assert min(visit.on for visit in timed(TOMATO, today=today).visits) >= today


def test_the_curves_run_from_nought_to_the_aim():
    answer = timed(TOMATO)
    assert answer.weeks[0].wanted_kg_per_m2 == 0
    assert answer.weeks[-1].on == answer.stand.harvest
    assert answer.weeks[-1].wanted_kg_per_m2 == pytest.approx(float(TOMATO.n_aim_kg_per_m2))
    given_n = 8 * Fraction("0.46") * POUND / 20 / AREA
    assert answer.weeks[-1].came_kg_per_m2 == pytest.approx(float(given_n))


@pytest.mark.parametrize(("ppm", "skipped"), [(12, False), (20, True), (30, True), (None, False)])
def test_the_nitrate_test_says_skip_or_feed(ppm, skipped):
    """Texas A&M newsletter, 2006: none at or above 20 to 25 mg/kg."""
    figure = None if ppm is None else Fraction(ppm)
    answer = timed(replace(TOMATO, nitrate_n_mg_per_kg=figure))
    assert (answer.beside_rows == ()) == skipped
    told = " ".join(notice.sentence for notice in answer.notices)
    assert ("skip" in told) == skipped
    assert ("feed as planned" in told) == (ppm == 12)
    assert ("test again" in told) == (ppm == 20)
    assert "quicker source" not in told


LETTUCE = replace(
    TOMATO,
    crop="lettuce",
    planted=date(2027, 5, 1),
    harvest=date(2027, 7, 1),
    foods=(given(MANURE, 3, "10"),),
)


def with_manure(treatment: Treatment, **changes) -> FedBed:
    foods = (given(MANURE, 3, "10", treatment=treatment),)
    return replace(LETTUCE, foods=foods, **changes)


def test_manure_is_asked_after():
    (fault,) = faults(LETTUCE)
    assert fault.place == "bed 1.dairy manure"
    assert "heat-processed" in fault.remedy


def test_raw_manure_refuses_the_date():
    """14 days before planting to harvest are 75: too few for 120."""
    (fault,) = faults(with_manure(Treatment.RAW))
    assert "at least 120 days before harvest" in fault.sentence
    assert "Spread it by 2027-03-03" in fault.remedy
    assert "2027-08-15" in fault.remedy


@pytest.mark.parametrize("treatment", [Treatment.COMPOSTED, Treatment.HEATED])
def test_treated_manure_has_no_wait(treatment):
    assert timed(with_manure(treatment)).visits


def test_raw_manure_goes_in_before_planting_and_in_time():
    harvest = date(2027, 8, 20)
    answer = timed(with_manure(Treatment.RAW, harvest=harvest), most_visits=2)
    assert answer.visits
    assert all((harvest - visit.on).days >= 120 for visit in answer.visits)
    assert not answer.beside_rows


def test_a_crop_off_the_ground_waits_90_days():
    harvest = date(2027, 7, 25)
    bed = with_manure(Treatment.RAW, harvest=harvest, contact=Contact.ABOVE)
    assert all((harvest - visit.on).days >= 90 for visit in timed(bed).visits)
    assert faults(replace(bed, contact=Contact.SOIL))


@pytest.mark.parametrize(
    ("changes", "place", "told"),
    [
        ({"crop": "moonflower"}, "bed 1.crop", "not in the table"),
        ({"planted": date(2027, 6, 1), "harvest": date(2027, 5, 1)}, "bed 1.harvest", "not after"),
        ({"planted": date(2027, 6, 1), "harvest": date(2027, 6, 1)}, "bed 1.harvest", "not after"),
        ({"foods": (given(UREA, 12, "1/10"),)}, "bed 1.visits", "without burning"),
        ({"foods": (given(UREA, 1, "1"),)}, "bed 1", "One measure alone"),
        ({"area_m2": Fraction(0)}, "bed 1.urea", "a bed to lie on"),
    ],
)
def test_refused_beside_its_place(changes, place, told):
    (fault,) = faults(replace(TOMATO, **changes))
    assert fault.place == place
    assert told in fault.sentence


def test_every_bed_is_told_at_once():
    wrong = replace(TOMATO, name="bed 2", crop="moonflower")
    late = replace(TOMATO, name="bed 3", planted=date(2027, 6, 1), harvest=date(2027, 5, 1))
    assert [fault.place for fault in faults(TOMATO, wrong, late)] == ["bed 2.crop", "bed 3.harvest"]


def test_without_frost_dates_the_planting_date_is_asked_for():
    (fault,) = faults(TOMATO, frost=None, warmth=WarmthQuestion(steady_c=18.0))
    assert fault.place == "bed 1.planted"


@pytest.mark.parametrize("most", [0, 7])
def test_visits_are_few(most):
    (fault,) = faults(TOMATO, most_visits=most)
    assert fault.place == "visits"


def test_too_late_in_the_year():
    (fault,) = faults(TOMATO, today=date(2027, 9, 1))
    assert "No date is left" in fault.sentence


def test_the_working_tells_every_visit():
    answer = timed(TOMATO)
    told = " ".join(step.reason for step in answer.working)
    assert all(visit.on.isoformat() in told for visit in answer.visits)


def test_too_much_and_too_little_are_told():
    much = timed(replace(TOMATO, n_aim_kg_per_m2=Fraction("0.10") * LB_PER_100))
    little = timed(replace(TOMATO, n_aim_kg_per_m2=Fraction("0.40") * LB_PER_100))
    assert any("left in the ground" in one.sentence for one in much.notices)
    assert any("has not come yet" in one.sentence for one in little.notices)
    assert timed(TOMATO).notices == ()


def test_in_the_south_all_dates_come_half_a_year_later():
    half_a_year = timedelta(days=183)
    south = FrostDates(last=FROST.last + half_a_year, first=FROST.first + half_a_year)
    here = timed(TOMATO).visits
    there = timed(TOMATO, frost=south, warmth=WarmthQuestion(frost=south)).visits
    assert [visit.on + half_a_year for visit in here] == [visit.on for visit in there]
    assert [visit.measures for visit in here] == [visit.measures for visit in there]


def test_nitrogen_where_none_is_aimed_at_is_told():
    answer = timed(replace(TOMATO, n_aim_kg_per_m2=Fraction(0)))
    told = [notice.sentence for notice in answer.notices]
    assert any("no nitrogen is aimed at here" in sentence for sentence in told)
