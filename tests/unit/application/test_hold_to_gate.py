"""A season before the gate: at a limit nothing is cut, a hair above the bed is held to it."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.hold_to_gate import hold_to_gate
from halfpail.application.plan_season import tell
from halfpail.application.pose_season import pose_season
from halfpail.domain.bed import Bed, Content, GivenFood, NeedRange
from halfpail.domain.garden import Garden, Preferences, Tools
from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient
from halfpail.domain.safe_gate import BedFacts
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.domain.stock import Bag
from halfpail.findings import Severity
from halfpail.quantities.dates import read_date
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.table_units import table_unit
from halfpail.sources import Citation, Mark
from tests.unit.domain.bags import bag

ONE = Fraction(1)
LB = table_unit("lb_per_100_sq_ft").size
PER_ACRE = table_unit("lb_per_acre").size
# A thousand measures of a litre bring a bed of a square metre to the limit of each case.
AT_LIMIT = 1000
MUCH = Fraction(100)
EASY = BedFacts(
    soil_ph=Fraction("5.5"),
    target_ph=Fraction("6.5"),
    buffer_tested=True,
    planted=False,
    magnesium_low=True,
    boron_figure=True,
    boron_sensitive=False,
)


def holding(nutrient: Nutrient, most: Fraction) -> Bag:
    """A bag of which so many kilograms bring the most to a square metre."""
    one = bag("food")
    analysis = Analysis(shares={nutrient: most / AT_LIMIT})
    return replace(one, label=replace(one.label, analysis=analysis))


def made_of(material: str, most: Fraction) -> Bag:
    """A bag of one material, so light that its measures reach the most by weight."""
    weight = most / AT_LIMIT
    one = bag("food", density=weight)
    return replace(one, materials=(material,))


def quick(most: Fraction) -> Bag:
    one = bag("food", 1)
    return replace(one, usable_n=replace(one.usable_n, quick=most / AT_LIMIT))


CASES = {
    # What is quick is split into doses of 0.1 lb, so the limit of a dose is never met.
    "label_n_aim": (
        replace(EASY, usable_n_aim_kg_per_m2=LB / 10),
        bag("food", 100 * LB * Fraction(15, 100) / AT_LIMIT),
    ),
    "p2o5_surplus": (EASY, holding(Nutrient.P2O5, hard_limit("p2o5_surplus").value)),
    "lime_no_buffer": (replace(EASY, buffer_tested=False), made_of("calcitic_lime", 5 * LB)),
    "lime_no_ph": (replace(EASY, soil_ph=None), made_of("calcitic_lime", LB)),
    "lime_dose": (EASY, made_of("calcitic_lime", 10 * LB)),
    "ash_year": (EASY, made_of("wood_ash", 2 * LB)),
    "sulfur_planted": (
        replace(EASY, planted=True, soil_ph=Fraction(7)),
        made_of("sulfur", LB),
    ),
    "magnesium_dose": (EASY, made_of("epsom_salt", 3 * LB)),
    "boron_most": (EASY, holding(Nutrient.B, PER_ACRE)),
}
NONE_AT_ALL = {
    "p2o5_very_high": (replace(EASY, p_very_high=True), holding(Nutrient.P2O5, LB)),
    "lime_at_target": (replace(EASY, soil_ph=Fraction("6.5")), made_of("calcitic_lime", LB)),
    "ash_no_ph": (replace(EASY, soil_ph=None), made_of("wood_ash", LB / 100)),
    "sulfur_free_lime": (
        replace(EASY, free_lime=True, soil_ph=Fraction(8)),
        made_of("sulfur", LB / 2),
    ),
    "magnesium_untested": (replace(EASY, magnesium_low=False), made_of("epsom_salt", LB)),
    "dolomite_untested": (replace(EASY, magnesium_low=False), made_of("dolomitic_lime", LB)),
    "boron_no_figure": (replace(EASY, boron_figure=False), made_of("borax", LB)),
    "boron_sensitive": (replace(EASY, boron_sensitive=True), made_of("borax", LB)),
}


# At a pH below its target no bed gets sulfur, whatever else is so.
AT_NO_PH = ("sulfur_free_lime",)


def loose(nutrient: str) -> NeedRange:
    none = Fraction(0)
    return NeedRange(
        nutrient=nutrient,
        least=none,
        aim=none,
        most=MUCH,
        cap=MUCH,
        citation=Citation(mark=Mark.PROPOSAL),
    )


def garden_of(food: Bag, facts: BedFacts, given: tuple[GivenFood, ...] = ()) -> Garden:
    """One bed of a square metre that bears anything, as far as its needs say."""
    straight = replace(food, straight_ok=True, shed_kg=MUCH * AT_LIMIT)
    one = Bed(key="bed", name="Bed", area_m2=ONE, crop="", needs=(loose("N"),), facts=facts)
    return Garden(
        name="",
        bags=(straight,),
        beds=(replace(one, given=given),),
        tools=Tools(scoop_l=ONE, pail_l=Fraction(20), measure=ONE),
        preferences=Preferences(),
    )


def plan_of(measures: int, of: int | str = "food") -> SeasonPlan:
    stirs = () if isinstance(of, str) else (Stir(scoops={"food": 1}, rounds=measures),)
    return SeasonPlan(
        stirs=stirs,
        feedings=(Feeding(plot="bed", of=of, measures=measures),),
        purchases={},
        money=Fraction(0),
        missed=Fraction(0),
        bound=Fraction(0),
        proven_by="hand",
    )


def borax_of(food: Bag) -> Bag:
    """A boron material needs its boron on the label to count."""
    if food.materials != ("borax",):
        return food
    analysis = Analysis(shares={Nutrient.B: Fraction(1, 10)})
    return replace(food, label=replace(food.label, analysis=analysis))


@pytest.mark.parametrize("of", ["food", 0], ids=["a bag", "a mix"])
@pytest.mark.parametrize("key", CASES)
def test_at_a_limit_nothing_is_cut_and_a_measure_above_it_the_bed_is_held_to_it(key, of):
    facts, food = CASES[key]
    garden = garden_of(food, facts)
    at_limit = plan_of(AT_LIMIT, of)
    assert hold_to_gate(garden, at_limit) == (at_limit, ())
    cut, stops = hold_to_gate(garden, plan_of(AT_LIMIT + 1, of))
    assert [feeding.measures for feeding in cut.feedings] == [AT_LIMIT]
    assert [stop.severity for stop in stops] == [Severity.STOP]
    assert hard_limit(key).sentence in stops[0].sentence


@pytest.mark.parametrize("key", NONE_AT_ALL)
def test_where_there_may_be_none_at_all_a_single_measure_is_withheld(key):
    facts, food = NONE_AT_ALL[key]
    cut, stops = hold_to_gate(garden_of(borax_of(food), facts), plan_of(1))
    assert cut.feedings == ()
    assert any(hard_limit(key).sentence in stop.sentence for stop in stops)


def test_what_was_given_before_counts_for_the_year_but_not_as_a_dose():
    facts, food = CASES["p2o5_surplus"]
    half = GivenFood(food=food, rate_kg_per_m2=Fraction(AT_LIMIT, 2), on=read_date("2027-04-01"))
    garden = garden_of(food, facts, given=(half,))
    cut, stops = hold_to_gate(garden, plan_of(AT_LIMIT))
    assert [feeding.measures for feeding in cut.feedings] == [AT_LIMIT // 2]
    assert stops
    assert hold_to_gate(garden, plan_of(AT_LIMIT // 2))[1] == ()


def test_too_much_given_already_leaves_nothing_and_ends():
    facts, food = CASES["lime_dose"]
    much = GivenFood(food=food, rate_kg_per_m2=MUCH, on=read_date("2027-04-01"))
    plan = plan_of(AT_LIMIT)
    assert hold_to_gate(garden_of(food, facts, given=(much,)), plan) == (plan, ())


@pytest.mark.parametrize("key", NONE_AT_ALL)
def test_a_bag_that_no_bed_may_have_is_no_ingredient_and_is_told(key):
    facts, food = NONE_AT_ALL[key]
    garden = garden_of(borax_of(food), facts)
    assert pose_season(garden).ingredients == ()
    nothing = replace(plan_of(1), feedings=())
    assert tell(garden, nothing).notices[0].sentence.startswith("food is left out: ")
    assert pose_season(garden_of(borax_of(food), EASY)).ingredients != () or key in AT_NO_PH


def test_what_is_told_is_what_was_let_through():
    facts, food = CASES["lime_no_ph"]
    garden = garden_of(food, facts)
    answer = tell(garden, plan_of(AT_LIMIT * 3))
    assert answer.notices[0].severity is Severity.STOP
    assert answer.beds[0].feeds[0].mass_kg == LB
    assert answer.plan.feedings[0].measures == AT_LIMIT
    assert Content.CA in answer.beds[0].feeds[0].holds
