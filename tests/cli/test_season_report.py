"""The page of a season plan: whole, from a plan that is fixed by hand."""

from dataclasses import replace
from fractions import Fraction

from halfpail.application.plan_season import tell
from halfpail.application.pose_season import pose_season
from halfpail.cli.bag_report import bags_text
from halfpail.cli.season_report import season_text, unmet_text
from halfpail.domain.season import Give, Unmet
from halfpail.quantities.units import System
from tests.snapshots.compare import assert_as_kept
from tests.unit.application.test_plan_season import a_garden, a_plan


def test_the_page_in_us_units_with_its_working():
    garden = a_garden()
    answer = tell(garden, a_plan(garden, bound="12.5"))
    assert_as_kept("season_us", season_text(answer, System.US, with_working=True))


def test_the_page_in_metric_units():
    garden = a_garden()
    liked = replace(garden.preferences, units=System.METRIC, currency="EUR")
    garden = replace(garden, preferences=liked)
    answer = tell(garden, a_plan(garden, bound="12.5"))
    assert_as_kept("season_metric", season_text(answer, System.METRIC))


def test_a_plan_of_nothing_says_so():
    garden = a_garden()
    plan = a_plan(garden, stirs=(), feedings=(), purchases={}, money=0)
    page = season_text(tell(garden, plan), System.US)
    assert "Buy nothing." in page
    assert "Nothing is needed: buy no bag." in page


def test_the_bags_with_their_prices():
    assert_as_kept("bags_us", bags_text(a_garden(), System.US))


def test_no_plan_tells_what_is_in_the_way():
    garden = a_garden()
    limit = pose_season(garden).limits[0]
    give = Give(limit=limit, by_kg=Fraction(1, 10), reason="too little on offer")
    page = unmet_text(Unmet(sentence="No plan keeps every limit.", proven=True, gives=(give,)))
    assert page == "No plan keeps every limit.\n  * North, the least usable N: too little on offer"
