"""A recipe found, or what is in the way and what would help; the oracle tries all one by one."""

from dataclasses import replace
from fractions import Fraction

import pytest

from benchmarks.random_recipes import Size, random_wish
from benchmarks.recipe import disagreements, solver_disagreements
from benchmarks.trying_all import all_recipes
from halfpail.application.find_recipe import find_recipe
from halfpail.application.pose_recipe import pose_recipe
from halfpail.application.recipe_answer import NoRecipe, RecipeAnswer
from halfpail.blending.search import Search
from halfpail.domain.recipe import (
    GradeTarget,
    PerNitrogen,
    Prefer,
    RatioTarget,
    RecipeWish,
    Target,
)
from halfpail.findings import Refusal
from halfpail.solvers.highs import Highs
from halfpail.solvers.sieve import EveryRecipe
from tests.unit.domain.bags import bag

SEARCH = Search(sieve=EveryRecipe(), solver=Highs())
BY_SOLVER = replace(SEARCH, most_tried=0)

BENCH = (
    bag("blend", 4, 4, 4, price_per_kg=1),
    bag("bloom", 2, 6, 4, price_per_kg="0.8"),
    bag("blood", 12, 0, 0, price_per_kg=3, density="0.7"),
    bag("potash", 0, 0, 50, price_per_kg=2, density="1.2"),
    bag("feather", 12, 0, 0, price_per_kg=2, usable="0.5"),
)


def grade(n: str, p2o5: str, k2o: str, off: str) -> GradeTarget:
    percent = {"N": Fraction(n), "P2O5": Fraction(p2o5), "K2O": Fraction(k2o)}
    return GradeTarget(percent=percent, tolerance=dict.fromkeys(percent, Fraction(off)))


def wish(target: Target, **changes: object) -> RecipeWish:
    return replace(RecipeWish(target=target, bags=BENCH), **changes)  # type: ignore[arg-type]  # any field


def found(asked: RecipeWish, search: Search = SEARCH) -> RecipeAnswer:
    answer = find_recipe(asked, search)
    assert isinstance(answer, RecipeAnswer)
    return answer


def refused(asked: RecipeWish) -> list[str]:
    with pytest.raises(Refusal) as refusal:
        find_recipe(asked, SEARCH)
    return [fault.place for fault in refusal.value.faults]


def test_a_wish_that_is_a_bag_gives_that_bag() -> None:
    answer = found(wish(grade("4", "4", "4", "0")))
    assert answer.best.recipe.scoops == {"blend": 1}
    assert answer.best.distance == 0
    assert answer.best.cost == 1


def test_equal_parts_of_equal_bags_are_their_mean() -> None:
    """A mix of equal parts is the mean of its labels (common practice, no source)."""
    answer = found(wish(grade("3", "5", "4", "0")))
    assert answer.best.recipe.scoops == {"blend": 1, "bloom": 1}
    assert answer.best.cost == Fraction(9, 10)


@pytest.mark.parametrize("seed", range(60))
def test_the_answer_is_that_of_trying_all(seed: int) -> None:
    size = Size(bags=3 + seed % 7, scoops=4 + seed % 4, in_mix=2 + seed % 2)
    asked = random_wish(5000 + seed, size)
    answer = find_recipe(asked, SEARCH)
    assert disagreements(asked, answer) == []
    if seed % 6 == 0:
        assert solver_disagreements(asked, answer) == []


@pytest.mark.parametrize("seed", [1, 2, 3, 5, 8])
def test_where_there_are_too_many_to_try_the_solver_answers_the_same(seed: int) -> None:
    asked = random_wish(7000 + seed, Size(bags=6, scoops=5, in_mix=3))
    tried, solved = find_recipe(asked, SEARCH), find_recipe(asked, BY_SOLVER)
    assert type(tried) is type(solved)
    if isinstance(tried, RecipeAnswer) and isinstance(solved, RecipeAnswer):
        assert [(c.cost, c.distance) for c in tried.curve] == [
            (c.cost, c.distance) for c in solved.curve
        ]
        assert solved.proven_by == "HiGHS left no better one open"


def test_the_best_follows_what_is_preferred() -> None:
    target = grade("6", "4", "4", "1.5")
    cheap, close = found(wish(target)), found(wish(target, prefer=Prefer.CLOSEST))
    assert cheap.best == cheap.cheapest
    assert close.best == close.closest
    assert cheap.curve == close.curve
    assert cheap.best.cost < close.best.cost
    assert close.best.distance < cheap.best.distance


def test_three_choices_stand_on_the_curve() -> None:
    answer = found(wish(grade("6", "4", "4", "1.5")))
    costs = [choice.cost for choice in answer.curve]
    distances = [choice.distance for choice in answer.curve]
    assert costs == sorted(set(costs))
    assert distances == sorted(set(distances), reverse=True)
    assert answer.between in answer.curve[1:-1]


def test_alternatives_have_other_bags() -> None:
    answer = found(wish(grade("6", "4", "4", "2")))
    sets = [choice.recipe.bags for choice in (answer.best, *answer.alternatives)]
    assert len(sets) > 2
    assert all(not one <= other for one in sets for other in sets if one is not other)


def test_a_purpose_counts_usable_nitrogen_and_leaves_phosphorus_free() -> None:
    """Half of the feather's nitrogen counts: 12 % N are 6 % usable, and 1 K2O for 1 N takes less.

    2 scoops of feather at 1 kg have 0.12 kg usable N; nothing else is asked of P2O5.
    """
    target = RatioTarget(
        low={"K2O": Fraction(1)},
        aim={"K2O": Fraction(1)},
        high={"K2O": Fraction(1)},
        per=PerNitrogen.USABLE,
    )
    only = (
        bag("feather", 12, 0, 0, price_per_kg=2, usable="0.5"),
        bag("potash", 0, 3, 12, price_per_kg=1),
    )
    answer = found(RecipeWish(target=target, bags=only))
    assert answer.best.recipe.scoops == {"feather": 2, "potash": 1}
    assert answer.best.cost == Fraction(5) / Fraction(12, 100)


def test_the_same_wish_has_the_same_answer() -> None:
    asked = random_wish(42, Size(bags=8, scoops=6, in_mix=3))
    assert find_recipe(asked, SEARCH) == find_recipe(asked, SEARCH)


def test_a_tie_goes_to_the_bag_listed_first() -> None:
    twins = (bag("one", 4, 0, 4, price_per_kg=1), bag("two", 4, 4, 0, price_per_kg=1))
    target = GradeTarget(percent={"N": Fraction(4)}, tolerance={"N": Fraction(0)})
    assert found(RecipeWish(target=target, bags=twins)).best.recipe.scoops == {"one": 1}
    turned = found(RecipeWish(target=target, bags=twins[::-1]))
    assert turned.best.recipe.scoops == {"two": 1}


# ------------------------------------------------------------------ which bags take part


def test_bags_to_avoid_and_pairs_apart_are_kept_out() -> None:
    asked = wish(grade("6", "4", "4", "2"), prefer=Prefer.CLOSEST)
    first = sorted(found(asked).best.recipe.bags)
    assert len(first) > 1
    avoided = found(replace(asked, avoid=frozenset({first[0]}))).best.recipe.bags
    assert first[0] not in avoided
    pair = frozenset(first[:2])
    assert not pair <= found(replace(asked, apart=frozenset({pair}))).best.recipe.bags


def test_what_only_lies_in_the_shed_is_free_if_wished() -> None:
    shed = replace(BENCH[0], shed_kg=Fraction(3), offered=0)
    asked = wish(grade("4", "4", "4", "0"), bags=(shed,))
    assert found(asked).best.cost == 0
    assert found(replace(asked, shed_is_free=False)).best.cost == 1


def test_free_stuff_is_an_ingredient() -> None:
    compost = bag("compost", 1, 1, 1, price_per_kg=0)
    answer = found(wish(grade("3", "3", "3", "0"), bags=(*BENCH, compost)))
    assert answer.best.recipe.scoops == {"blend": 2, "compost": 1}
    assert answer.best.cost == Fraction(2, 3)


def test_a_bag_without_a_price_is_left_out_and_told() -> None:
    unpriced = bag("gift", 4, 4, 4)
    answer = found(wish(grade("4", "4", "4", "0"), bags=(unpriced, *BENCH)))
    assert answer.best.recipe.scoops == {"blend": 1}
    assert any("gift has no price" in notice.sentence for notice in answer.notices)


def test_the_same_stuff_under_another_name_is_told() -> None:
    twin = replace(BENCH[0], key="fancy", name="fancy")
    answer = found(wish(grade("4", "4", "4", "0"), bags=(*BENCH, twin)))
    assert any("fancy is the same as blend" in notice.sentence for notice in answer.notices)


# ------------------------------------------------------------------ no recipe


def no_recipe(asked: RecipeWish) -> NoRecipe:
    answer = find_recipe(asked, SEARCH)
    assert isinstance(answer, NoRecipe)
    return answer


def test_what_is_in_the_way_is_told() -> None:
    answer = no_recipe(wish(grade("5", "3", "6", "0.5")))
    assert answer.in_the_way == (
        "at least 2.5 % P2O5",
        "at least 5.5 % K2O",
        "at most 6.5 % K2O",
        "at most 12 scoops",
    )
    assert answer.nearest is not None
    assert answer.nearest.distance > Fraction(1, 2)


@pytest.mark.parametrize("seed", range(40))
def test_every_repair_repairs(seed: int) -> None:
    """Applied, it gives the recipe it told; a hundredth less tolerance does not."""
    size = Size(bags=3 + seed % 5, scoops=3 + seed % 4, in_mix=2)
    asked = random_wish(9000 + seed, size)
    answer = find_recipe(asked, SEARCH)
    if isinstance(answer, RecipeAnswer):
        return
    for repair in answer.repairs:
        assert find_recipe(repair.wish, SEARCH).best == repair.choice
        if repair.sentence.startswith("Allow") and " and " not in repair.sentence:
            assert all_recipes(_a_little_less(asked, repair.wish)) == []


def _a_little_less(asked: RecipeWish, repaired: RecipeWish) -> RecipeWish:
    """The repaired wish, one step nearer to what was asked."""
    if repaired.most_scoops != asked.most_scoops:
        return replace(repaired, most_scoops=repaired.most_scoops - 1)
    if repaired.most_bags != asked.most_bags:
        return replace(repaired, most_bags=repaired.most_bags - 1)
    step, before, after = Fraction(1, 100), asked.target, repaired.target
    if isinstance(before, GradeTarget) and isinstance(after, GradeTarget):
        less = {
            n: max(before.tolerance[n], off - step) if off != before.tolerance[n] else off
            for n, off in after.tolerance.items()
        }
        return replace(repaired, target=replace(after, tolerance=less))
    assert isinstance(before, RatioTarget) and isinstance(after, RatioTarget)
    high = {
        n: after.high[n] - step if after.high[n] != before.high[n] else after.high[n]
        for n in after.high
    }
    low = {
        n: after.low[n] + step if after.low[n] != before.low[n] else after.low[n] for n in after.low
    }
    return replace(repaired, target=replace(after, high=high, low=low))


def test_repairs_of_every_kind_are_offered() -> None:
    asked = wish(grade("5", "3", "6", "0.5"), bags=(*BENCH, bag("kelp", 4, 3, 14, price_per_kg=4)))
    answer = no_recipe(replace(asked, avoid=frozenset({"kelp"}), most_bags=3))
    said = " ".join(repair.sentence for repair in answer.repairs)
    assert "K2O to be" in said
    assert "scoops" in said
    assert "Use kelp after all." in said
    few = no_recipe(replace(wish(grade("8", "2", "6", "0.5")), most_bags=1))
    assert any("bags" in repair.sentence for repair in few.repairs)


def test_what_no_bag_has_is_said() -> None:
    answer = no_recipe(wish(grade("4", "20", "4", "1")))
    assert answer.hints == ("No bag here by itself has at least 19 % P2O5, so no mix of them has.",)
    assert answer.in_the_way == ("at least 19 % P2O5",)


def test_pairs_apart_can_be_in_the_way() -> None:
    pair = frozenset({"blend", "bloom"})
    answer = no_recipe(wish(grade("3", "5", "4", "0"), bags=BENCH[:2], apart=frozenset({pair})))
    assert "blend and bloom may not share a mix" in answer.in_the_way


# ------------------------------------------------------------------ wishes that are refused


def test_limits_that_make_no_sense_are_refused_together() -> None:
    asked = wish(grade("4", "4", "4", "1"), most_scoops=0, most_bags=99)
    assert refused(asked) == ["most scoops", "most bags"]


@pytest.mark.parametrize(
    ("target", "place"),
    [
        (grade("50", "40", "20", "1"), "grade"),
        (grade("-1", "4", "4", "1"), "N"),
        (grade("4", "4", "4", "-1"), "N"),
        (GradeTarget(percent={}, tolerance={}), "wish"),
        (GradeTarget(percent={"N": Fraction(1)}, tolerance={"K2O": Fraction(1)}), "K2O"),
        (
            RatioTarget(
                low={"K2O": Fraction(2)}, aim={"K2O": Fraction(1)}, high={"K2O": Fraction(3)}
            ),
            "K2O",
        ),
    ],
)
def test_targets_that_make_no_sense_are_refused(target: Target, place: str) -> None:
    assert refused(wish(target))[0] == place


def test_unknown_names_and_no_bags_are_refused() -> None:
    target = grade("4", "4", "4", "1")
    assert refused(wish(target, avoid=frozenset({"bloo"}))) == ["bags to avoid"]
    assert refused(wish(target, bags=(BENCH[0], BENCH[0]))) == ["bags"]
    assert refused(wish(target, avoid=frozenset(one.key for one in BENCH))) == ["bags"]
    alone = frozenset({frozenset({"blend"})})
    assert refused(wish(target, apart=alone)) == ["bags to keep apart"]
    assert refused(wish(target, bags=())) == ["number of bags"]


def test_the_size_of_the_scoop_cancels_out() -> None:
    asked = random_wish(3, Size(bags=6, scoops=6, in_mix=3))
    ours = pose_recipe(asked).problem
    theirs = pose_recipe(replace(asked, scoop_l=asked.scoop_l * Fraction(7, 3))).problem
    scoops = (1,) * len(ours.bags)
    assert ours.cost_of(scoops) == theirs.cost_of(scoops)
    assert ours.distance_of(scoops) == theirs.distance_of(scoops)
