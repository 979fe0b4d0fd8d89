"""The season plan told: sums to follow by hand, and a plan that is never trusted blindly."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

import pytest

from halfpail.application.open_garden import open_garden
from halfpail.application.plan_season import plan_season, tell
from halfpail.application.ports import SeasonEffort
from halfpail.application.pose_season import MISS_WEIGHTS, pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.bed import Content, Fit
from halfpail.domain.garden import Garden
from halfpail.domain.season import Feeding, SeasonPlan, SeasonProblem, Stir, Unmet
from halfpail.domain.season_check import check_season
from halfpail.garden_file.reader import read_text
from halfpail.quantities.units import size_of

LB, SQ_FT = size_of("lb"), size_of("sq ft")
PER_100 = LB / (100 * SQ_FT)

GARDEN = """
[tools]
scoop = "2 cups"
pail = "5 gal"

[[bags]]
name = "Blend"
label = "4-2-4"
weight = "10 lb"
price = "5.00"
list_price = "12.00"
offered = 2
in_shed = "1 lb"
scoop_weighs = "12 oz"

[[bags]]
name = "Quick"
label = '''
Quick 20-0-0
Total Nitrogen (N) 20%
  20% Urea Nitrogen
Derived from: urea
'''
weight = "10 lb"
price = "8.00"
offered = 1
scoop_weighs = "16 oz"
straight = true

[[beds]]
name = "North"
crop = "tomato"
size = "100 sq ft"

[[beds]]
name = "South"
crop = "tomato"
size = "50 sq ft"
"""


def a_garden(text: str = GARDEN) -> Garden:
    """The garden of a text."""
    return open_garden(read_text(text)).garden


@dataclass
class Taking:
    """An engine that takes the plans given to it, by the number of mixes asked for."""

    plans: Mapping[int, SeasonPlan | Unmet]
    asked: list[SeasonProblem] = field(default_factory=list)

    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort | None = None
    ) -> SeasonPlan | Unmet:
        self.asked.append(problem)
        return self.plans[problem.mixes]


def a_plan(garden: Garden, bound: str = "0", **changes: object) -> SeasonPlan:
    """Two rounds of one mix, a straight bag for one bed; its money and misses as they are."""
    plan = SeasonPlan(
        stirs=(Stir(scoops={"Blend": 3, "Quick": 1}, rounds=1),),
        feedings=(
            Feeding(plot="North", of=0, measures=4),
            Feeding(plot="South", of=0, measures=2),
            Feeding(plot="South", of="Quick", measures=1),
        ),
        purchases={"Blend": 1, "Quick": 1},
        money=Fraction(13),
        missed=Fraction(0),
        bound=Fraction(bound),
        proven_by="hand",
    )
    plan = replace(plan, **changes)  # type: ignore[arg-type]  # any field may be given
    return replace(plan, missed=check_season(pose_season(garden), plan).missed)


def answer_of(garden: Garden, plan: SeasonPlan) -> SeasonAnswer:
    """A plan, told."""
    answer = plan_season(garden, Taking({1: plan}))
    assert isinstance(answer, SeasonAnswer)
    return answer


def test_a_mix_is_told_by_its_round_its_printed_grade_and_what_is_left():
    garden = a_garden()
    (mix,) = answer_of(garden, a_plan(garden)).mixes
    # 36 oz of 4-2-4 and 16 oz of 20-0-0: N (1.44 + 3.2) / 52 = 8.923 %, P2O5 72 / 52 = 1.38.
    assert mix.round.mass_kg == Fraction(52, 16) * LB
    assert (mix.printed.n, mix.printed.p2o5) == (Fraction("8.9"), Fraction("1.3"))
    assert mix.made_kg == Fraction(52, 16) * LB
    # Six quarter scoops of the four are used.
    assert mix.left_kg == Fraction(52, 16) * LB * (1 - Fraction(6, 16))


def test_bags_are_told_with_what_is_used_saved_and_left():
    garden = a_garden()
    blend, quick = answer_of(garden, a_plan(garden)).bags
    assert (blend.bought, blend.cost, blend.saved) == (1, Fraction(5), Fraction(7))
    assert blend.used_kg == Fraction(36, 16) * LB
    assert blend.left_kg == (11 - Fraction(36, 16)) * LB
    assert quick.saved is None
    assert quick.used_kg == Fraction(16 + 4, 16) * LB


def test_a_bed_is_told_by_scoops_weight_nutrients_and_worth():
    garden = a_garden()
    north, south = answer_of(garden, a_plan(garden)).beds
    (feed,) = north.feeds
    assert (feed.scoops, feed.mass_kg) == (1, Fraction(13, 16) * LB)
    # One scoop holds 9/16 lb of blend and 4/16 lb of the other: 0.0225 + 0.05 lb of label N.
    assert north.label_n_kg_per_m2 == Fraction("0.0725") * PER_100
    assert north.p2o5_given_kg_per_m2 == Fraction("0.01125") * PER_100
    assert north.cost == Fraction(9, 16) * Fraction("0.5") + Fraction(4, 16) * Fraction("0.8")
    assert [each.name for each in south.feeds] == ["Mix 1", "Quick"]


def test_doses_follow_the_crop_and_what_quick_nitrogen_one_dose_bears():
    garden = a_garden()
    plan = a_plan(garden, feedings=(Feeding(plot="South", of="Quick", measures=2),), stirs=())
    north, south = answer_of(garden, plan).beds
    assert north.doses == 0
    # Half a pound of 20-0-0 on 50 sq ft is 0.2 lb of quick N on 100, two doses of 0.10.
    assert south.quick_n_kg_per_m2 == Fraction("0.2") * PER_100
    assert south.doses == 2


def test_fit_is_told_in_words():
    garden = a_garden()
    north, _ = answer_of(garden, a_plan(garden)).beds
    words = {each.need.nutrient: each.word for each in north.fits}
    assert words == {"N": Fit.SHORT, "P2O5": Fit.RIGHT, "K2O": Fit.RIGHT}


def test_better_possible_is_the_value_above_the_proven_bound():
    garden = a_garden()
    plan = a_plan(garden, bound="12.5")
    answer = answer_of(garden, plan)
    assert answer.better_possible == plan.money + plan.missed - Fraction("12.5")


def test_what_holds_it_back_is_told():
    garden = a_garden()
    told = answer_of(garden, a_plan(garden)).held_back_by
    assert "short of the least usable N: North" in told
    assert "the number of mixes: 1" in told
    assert "all that is on offer is bought: Quick" in told


def test_a_plan_that_breaks_a_rule_is_never_told():
    garden = a_garden()
    plan = a_plan(garden)
    with pytest.raises(ValueError, match="breaks its own rules"):
        tell(garden, replace(plan, money=plan.money - 1))
    too_much = a_plan(garden, feedings=(Feeding(plot="South", of="Quick", measures=16),), stirs=())
    with pytest.raises(ValueError, match="usable N, high"):
        tell(garden, too_much)


def test_no_plan_is_handed_on():
    unmet = Unmet(sentence="No.", proven=True)
    assert plan_season(a_garden(), Taking({1: unmet})) is unmet


def test_the_number_of_mixes_is_found_by_what_another_saves():
    garden = a_garden("[preferences]\nmixes = 'find'\n" + GARDEN)
    good = a_plan(garden)
    worse = a_plan(garden, feedings=(), stirs=())
    hardly = replace(good, seconds=9.0)
    engine = Taking({1: worse, 2: good, 3: hardly})
    answer = plan_season(garden, engine)
    assert isinstance(answer, SeasonAnswer)
    assert [problem.mixes for problem in engine.asked] == [1, 2, 3]
    assert answer.plan is good


def test_limits_follow_the_range_and_the_area():
    problem = pose_season(a_garden())
    north = [limit for limit in problem.limits if limit.plot == "North"]
    hard = {each.content: each.at_most for each in north if each.price_per_kg is None}
    # Ranges of a medium feeder without a soil test: 0.10 / 0.18 / 0.25 lb usable N, label N at
    # most 1.5 times the aim, P2O5 to a surplus of 0.5 above 0.05 (our defaults, not published).
    assert hard[Content.N_HIGH] == Fraction("0.25") * LB
    assert hard[Content.N_LABEL] == Fraction("0.27") * LB
    assert hard[Content.P2O5_TOTAL] == Fraction("0.55") * LB
    least = next(each for each in north if each.content is Content.N_LOW)
    assert least.at_least == Fraction("0.10") * LB
    assert least.price_per_kg == MISS_WEIGHTS.short_of_least_n / LB


def test_what_cannot_be_had_is_not_offered():
    text = GARDEN.replace("offered = 1", "offered = 0").replace('in_shed = "1 lb"', "avoid = true")
    assert pose_season(a_garden(text)).ingredients == ()


def test_as_many_as_could_be_used_are_offered_where_nothing_is_said():
    text = GARDEN.replace("offered = 1\n", "")
    quick = pose_season(a_garden(text)).ingredients[1]
    # N: 0.25 lb on 100 and 0.125 lb on 50 sq ft take 1.875 lb of a 20 % bag: one of 10 lb.
    assert quick.offered == 1
