"""Whatever a plan gives, what comes through the gate breaks no limit, and is no more than that."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import event, given
from hypothesis import strategies as st

from halfpail.application.hold_to_gate import hold_to_gate
from halfpail.application.pass_gate import bag_dose, together, year_breaches
from halfpail.domain.bed import Bed
from halfpail.domain.garden import Garden, Preferences, Tools
from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient
from halfpail.domain.safe_gate import BedFacts
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.domain.stock import Bag
from tests.unit.domain.bags import bag

MATERIALS = ("", "calcitic_lime", "dolomitic_lime", "wood_ash", "sulfur", "epsom_salt", "borax")
TENTHS = st.integers(0, 100).map(lambda tenths: Fraction(tenths, 1000))
# A quarter of a scoop, of a mix of one scoop and two, and of a bag by itself [kg].
FOODS: dict[int | str, dict[str, Fraction]] = {
    0: {"first": Fraction(1, 12), "second": Fraction(1, 6)},
    "second": {"second": Fraction(1, 4)},
}
PH = st.none() | st.integers(40, 85).map(lambda tenths: Fraction(tenths, 10))
RATE = st.integers(0, 50).map(lambda grams: Fraction(grams, 1000))
FACTS = st.builds(
    BedFacts,
    soil_ph=PH,
    target_ph=PH,
    buffer_tested=st.booleans(),
    acid_bed=st.booleans(),
    free_lime=st.booleans(),
    planted=st.booleans(),
    p_very_high=st.booleans(),
    magnesium_low=st.booleans(),
    boron_figure=st.booleans(),
    boron_sensitive=st.booleans(),
    usable_n_aim_kg_per_m2=st.none() | RATE,
    p2o5_surplus_kg_per_m2=RATE,
    p2o5_removed_kg_per_m2=RATE,
)


@st.composite
def bags(draw: st.DrawFn, key: str) -> Bag:
    """A bag that weighs a kilogram in a litre: so much N, P2O5 and B, perhaps of one material."""
    n, p2o5, boron = draw(TENTHS), draw(TENTHS), draw(TENTHS) / 50
    one = bag(key, 100 * n)
    material = draw(st.sampled_from(MATERIALS))
    shares = {Nutrient.N: n, Nutrient.P2O5: p2o5, Nutrient.B: boron}
    return replace(
        one,
        label=replace(one.label, analysis=Analysis(shares=shares)),
        usable_n=replace(one.usable_n, quick=n / 2),
        materials=(material,) if material else (),
    )


@given(
    facts=FACTS,
    first=bags("first"),
    second=bags("second"),
    measures=st.tuples(st.integers(0, 60), st.integers(0, 60)),
    doses=st.integers(1, 3),
)
def test_what_comes_through_breaks_nothing_and_is_no_more(facts, first, second, measures, doses):
    bed = Bed(key="bed", name="Bed", area_m2=Fraction(10), crop="", needs=(), doses=doses)
    bed = replace(bed, facts=facts)
    garden = Garden(
        name="",
        bags=(first, second),
        beds=(bed,),
        tools=Tools(scoop_l=Fraction(1), pail_l=Fraction(20)),
        preferences=Preferences(),
    )
    fed: dict[int | str, int] = dict(zip(FOODS, measures, strict=True))
    feedings = [Feeding(plot="bed", of=of, measures=count) for of, count in fed.items() if count]
    plan = SeasonPlan(
        stirs=(Stir(scoops={"first": 1, "second": 2}, rounds=1),),
        feedings=tuple(feedings),
        purchases={},
        money=Fraction(0),
        missed=Fraction(0),
        bound=Fraction(0),
        proven_by="hand",
    )
    held, stops = hold_to_gate(garden, plan)
    event(f"stops {len(stops)}")
    before = {feeding.of: feeding.measures for feeding in plan.feedings}
    assert all(feeding.measures <= before[feeding.of] for feeding in held.feedings)
    assert (held == plan) == (not stops)
    planned = together(
        bag_dose(one, feeding.measures * FOODS[feeding.of].get(one.key, Fraction(0)) / bed.area_m2)
        for feeding in held.feedings
        for one in (first, second)
    )
    assert year_breaches(facts, planned, doses=doses) == ()
    assert hold_to_gate(garden, held) == (held, ())
