"""The dates of a season plan: all of it, in whole measures, few visits, in order, none past."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from halfpail.application.date_season import DatedFeed, SeasonDates, date_season
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.plan_season import tell
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.domain.season_check import check_season
from halfpail.findings import Severity
from halfpail.garden_file.reader import read_text

CLIMATE = """
[climate]
last_frost = "2027-05-10"
first_frost = "2027-10-01"
"""
GARDEN = """
[tools]
scoop = "2 cups"
pail = "5 gal"
{climate}
[preferences]
visits = 2

[[bags]]
name = "Blend"
label = "4-2-4"
weight = "10 lb"
price = "5.00"
offered = 5
scoop_weighs = "12 oz"

[[bags]]
name = "Potash"
label = "0-0-5"
weight = "5 lb"
price = "5.00"
offered = 5
straight = true

[[bags]]
name = "Litter"
label = '''
4-3-2
Total Nitrogen (N) 4%
Available Phosphate (P2O5) 3%
Soluble Potash (K2O) 2%
Derived from: poultry litter
'''
weight = "10 lb"
price = "5.00"
offered = 5
straight = true
{manure}

[[beds]]
name = "North"
crop = "tomato"
size = "100 sq ft"
{north}

[[beds]]
name = "South"
crop = "bean"
size = "50 sq ft"
"""
MEASURES: dict[tuple[str, int | str], int] = {
    ("North", 0): 12,
    ("North", "Potash"): 1,
    ("South", 0): 2,
}


def opened(north: str = "", manure: str = "", climate: str = CLIMATE) -> OpenedGarden:
    return open_garden(read_text(GARDEN.format(north=north, manure=manure, climate=climate)))


def told(garden: OpenedGarden, measures: dict[tuple[str, int | str], int]) -> SeasonAnswer:
    """A plan by hand, its money reckoned for it."""
    plan = SeasonPlan(
        stirs=(Stir(scoops={"Blend": 4}, rounds=4),),
        feedings=tuple(
            Feeding(plot=bed, of=of, measures=count) for (bed, of), count in measures.items()
        ),
        purchases={"Blend": 2, "Potash": 1, "Litter": 2},
        money=Fraction(0),
        missed=Fraction(0),
        bound=Fraction(0),
        proven_by="hand",
    )
    check = check_season(pose_season(garden.garden), plan)
    return tell(garden.garden, replace(plan, money=check.money, missed=check.missed))


def dated(north: str = "", today: date | None = None) -> SeasonDates:
    garden = opened(north)
    found = date_season(garden, told(garden, MEASURES), today)
    assert found is not None
    return found


def sums(feeds: Iterable[DatedFeed]) -> Counter[tuple[str, str]]:
    given: Counter[tuple[str, str]] = Counter()
    for feed in feeds:
        given[feed.bed, feed.food] += feed.measures
    return given


@pytest.mark.parametrize("today", [None, date(2027, 6, 1)])
def test_all_of_the_plan_is_dated_in_whole_measures_and_no_more(today):
    expected = {
        (bed, mix_name(of) if isinstance(of, int) else of): count
        for (bed, of), count in MEASURES.items()
    }
    assert sums(dated(today=today).feeds) == expected


def test_days_rise_and_are_no_more_than_the_gardener_wants():
    feeds = dated().feeds
    days = [feed.on for feed in feeds]
    assert days == sorted(days)
    for bed in ("North", "South"):
        assert len({feed.on for feed in feeds if feed.bed == bed}) <= 2


def test_no_day_is_past():
    start = date(2027, 6, 1)
    assert min(feed.on for feed in dated(today=start).feeds) >= start
    assert min(feed.on for feed in dated().feeds) < start


def test_after_the_harvest_nothing_is_dated_any_more():
    found = dated(today=date(2029, 1, 1))
    assert found.feeds == ()
    said = [one.sentence for one in found.notices if "No date is left" in one.sentence]
    assert [sentence.split(":")[0] for sentence in said] == ["North", "South"]


def test_the_planting_date_of_a_bed_is_kept():
    later = {feed.on for feed in dated('planted = "2027-06-05"').feeds if feed.bed == "North"}
    assert min(later) <= date(2027, 6, 5)
    assert min(later) >= date(2027, 6, 5) - timedelta(days=14)
    feeds = [feed for feed in dated('planted = "2027-06-05"').feeds if feed.bed == "North"]
    assert all(feed.beside_rows == (feed.on > date(2027, 6, 5)) for feed in feeds)


def test_what_holds_no_nitrogen_goes_on_with_the_first_feeding():
    feeds = [feed for feed in dated().feeds if feed.bed == "North"]
    potash = next(feed for feed in feeds if feed.food == "Potash")
    assert potash.on == min(feed.on for feed in feeds)


def test_a_bed_that_wants_no_nitrogen_is_fed_when_it_is_planted():
    (bean,) = [feed for feed in dated().feeds if feed.bed == "South"]
    assert not bean.beside_rows


def test_a_bed_that_cannot_be_dated_is_told_and_stops_no_other():
    found = dated('harvest = "2027-05-01"')
    assert {feed.bed for feed in found.feeds} == {"South"}
    assert any(one.sentence.startswith("North: no dates. Harvest is") for one in found.notices)


def test_what_was_given_early_leaves_later_dates():
    """Nitrogen that is there already puts off the first of what is still to be given."""
    given = 'given = [{ of = "46-0-0 urea", amount = "0.2 lb", on = "2027-05-10" }]'
    before = min(feed.on for feed in dated().feeds if feed.bed == "North")
    after = min(feed.on for feed in dated(given).feeds if feed.bed == "North")
    assert after > before


def test_a_nitrate_test_that_finds_enough_leaves_only_what_goes_in_before_planting():
    found = dated('nitrate_test = "30 ppm"')
    north = [feed for feed in found.feeds if feed.bed == "North"]
    assert not any(feed.beside_rows for feed in north)
    assert any("skip what goes beside the rows" in one.sentence for one in found.notices)


def test_without_a_climate_there_are_no_dates():
    garden = opened(climate="")
    assert date_season(garden, told(garden, MEASURES)) is None


@pytest.mark.parametrize(
    ("manure", "dates", "asked"),
    [
        ("", 0, True),
        ('manure = "raw"', 0, False),
        ('manure = "composted"', 1, False),
        ('manure = "heat-processed"', 1, False),
    ],
)
def test_raw_manure_is_refused_a_date_too_near_to_harvest(manure, dates, asked):
    """90 or 120 days (7 CFR 205.203(c), as restated by Cornell University); tomatoes set out in
    May and harvested in July leave no such date, and what nobody says counts as raw."""
    garden = opened('planted = "2027-05-20"\nharvest = "2027-07-20"', manure)
    found = date_season(garden, told(garden, {("North", "Litter"): 8}))
    assert found is not None
    assert min(len(found.feeds), 1) == dates
    refused = [one for one in found.notices if "Raw manure goes in" in one.sentence]
    assert len(refused) == 1 - dates
    assert any("nobody said" in one.sentence for one in found.notices) == asked
    assert all(one.severity is Severity.CAUTION for one in refused)
