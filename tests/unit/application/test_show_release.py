"""The release of a material or a label in one place, what travels with it, and refusals."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from halfpail.application.show_release import ReleaseQuestion, show_release
from halfpail.application.warm_soil import WarmthQuestion, warm_soil
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.soil_temperature import YearWave
from halfpail.findings import Refusal
from halfpail.reference.release import release_kinds

FROST = FrostDates(last=date(2027, 5, 10), first=date(2027, 10, 1))
STEADY = WarmthQuestion(steady_c=20.0)
MEAL = ReleaseQuestion(
    words="feather meal", spread=date(2027, 5, 10), until=date(2027, 10, 1), warmth=STEADY
)


def refused(question: ReleaseQuestion) -> str:
    with pytest.raises(Refusal) as caught:
        show_release(question)
    (fault,) = caught.value.faults
    assert fault.remedy
    return f"{fault.place}: {fault.sentence}"


def test_a_material_by_name():
    answer = show_release(MEAL)
    assert answer.name == "Feather meal"
    assert [kind.key for kind in answer.kinds] == ["feather"]
    assert (answer.weeks[0].on, answer.weeks[-1].on) == (MEAL.spread, MEAL.until)
    assert answer.weeks[1].on - answer.weeks[0].on == timedelta(days=7)
    assert answer.half_on is not None and answer.half_on < date(2027, 6, 10)
    assert answer.later is None
    assert f"{100 * answer.weeks[-1].came_share:.1f} % of all" in answer.working[-1].sum


def test_a_label_without_sources_says_how_it_is_read():
    answer = show_release(replace(MEAL, words="4-4-4"))
    assert answer.kinds == (release_kinds()["granular_organics"],)
    assert any("names no source" in notice.sentence for notice in answer.notices)


def test_a_label_that_names_its_source_is_read_by_it():
    answer = show_release(replace(MEAL, words="Blood meal 12-0-0"))
    assert [kind.key for kind in answer.kinds] == ["blood"]
    assert not any("names no source" in notice.sentence for notice in answer.notices)


def test_what_a_label_calls_soluble_comes_at_once():
    label = "Total Nitrogen 4%\n3% Water Insoluble Nitrogen\n1% Water Soluble Nitrogen\n"
    answer = show_release(replace(MEAL, words=label + "Derived from: feather meal"))
    feather = release_kinds()["feather"].curve.at_once_share
    assert answer.curve.at_once_share == pytest.approx(0.25 + 0.75 * feather)
    assert any("comes at once" in step.reason for step in answer.working)


def test_two_sources_count_the_same():
    answer = show_release(replace(MEAL, words="5-3-3\nDerived from: feather meal, poultry litter"))
    assert answer.curve.at_once_share == pytest.approx((0.28 + 0.14) / 2)


def test_raw_manure_brings_its_caution_and_its_later_years():
    answer = show_release(replace(MEAL, words="dairy manure"))
    assert answer.later is not None and answer.later.key == "cow_wet"
    assert any("120 days before harvest" in notice.sentence for notice in answer.notices)
    assert any("70 % comes in the first year" in notice.sentence for notice in answer.notices)


@pytest.mark.parametrize(("ph", "share"), [(None, None), ("6", "0.6"), ("7.5", "0")])
def test_bone_by_ph(ph, share):
    question = replace(MEAL, words="bone meal", soil_ph=None if ph is None else Fraction(ph))
    answer = show_release(question)
    assert answer.usable_p2o5_share == (None if share is None else Fraction(share))
    told = any("which is not given" in notice.sentence for notice in answer.notices)
    assert told == (ph is None)
    assert any("account counts all of it" in notice.sentence for notice in answer.notices)


def test_the_south_is_the_north_half_a_year_later():
    half_a_year = timedelta(days=183)
    south = FrostDates(last=FROST.last + half_a_year, first=FROST.first + half_a_year)
    shares = []
    for frost in (FROST, south):
        warmth = WarmthQuestion(frost=frost)
        question = replace(MEAL, spread=frost.last, until=frost.first, warmth=warmth)
        shares.append([week.came_share for week in show_release(question).weeks])
    assert shares[0] == pytest.approx(shares[1], abs=0.003)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"until": date(2027, 5, 10)}, "until: This is not within three years"),
        ({"until": date(2026, 5, 10)}, "until: This is not within three years"),
        ({"until": date(2037, 5, 10)}, "until: This is not within three years"),
        ({"words": "gypsum"}, "material: This holds no nitrogen"),
        ({"words": "0-0-60"}, "material: This holds no nitrogen"),
        ({"words": "moon dust"}, "material: No material is known"),
        ({"soil_ph": Fraction(14)}, "pH: No garden soil has this pH"),
        ({"warmth": WarmthQuestion(steady_c=20.0, depth_m=0.0)}, "depth: The depth must be more"),
        ({"warmth": WarmthQuestion()}, "climate: Nothing is known"),
        ({"warmth": WarmthQuestion(months_c=(1.0,) * 11)}, "months: 11 means are given"),
    ],
)
def test_refused_beside_its_place(change, told):
    assert told in refused(replace(MEAL, **change))


def test_what_is_better_known_is_used():
    wave = YearWave(mean_c=9, amplitude_c=11, coldest_day=20)
    both = warm_soil(WarmthQuestion(frost=FROST, wave=wave))
    assert both.wave.mean_c == 10
    assert both.notices == ()
    assert warm_soil(WarmthQuestion(frost=FROST)).notices != ()


def test_deeper_soil_is_steadier():
    shallow, deep = (warm_soil(WarmthQuestion(frost=FROST, depth_m=depth)) for depth in (0.05, 1.0))
    swing = [
        max(one.days_c(FROST.last, 365)) - min(one.days_c(FROST.last, 365))
        for one in (shallow, deep)
    ]
    assert swing[0] > 1.5 * swing[1]
