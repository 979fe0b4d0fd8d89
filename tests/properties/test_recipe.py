"""What must hold of every proven recipe: cheaper or more bags never make it dearer or worse."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from benchmarks.random_recipes import Size, random_wish
from halfpail.application.find_recipe import find_recipe
from halfpail.application.recipe_answer import NoRecipe, RecipeAnswer
from halfpail.blending.search import Search
from halfpail.domain.recipe import GradeTarget, RecipeWish
from halfpail.solvers.highs import Highs
from halfpail.solvers.sieve import EveryRecipe

SEARCH = Search(sieve=EveryRecipe(), solver=Highs())

wishes = st.builds(
    random_wish,
    st.integers(0, 10**6),
    st.builds(
        Size,
        bags=st.integers(3, 8),
        scoops=st.integers(2, 7),
        in_mix=st.integers(1, 3),
    ),
)


def answer(wish: RecipeWish) -> RecipeAnswer | NoRecipe:
    """Only the curve matters here; no alternatives are asked for."""
    return find_recipe(replace(wish, alternatives=0), SEARCH)


@given(wishes, st.integers(0, 7), st.fractions(0, 1))
@settings(max_examples=60)
def test_a_cheaper_bag_never_raises_the_optimum(wish: RecipeWish, at: int, share: Fraction) -> None:
    before = answer(wish)
    bags = list(wish.bags)
    chosen = bags[at % len(bags)]
    assert chosen.price is not None
    bags[at % len(bags)] = replace(chosen, price=chosen.price * share)
    after = answer(replace(wish, bags=tuple(bags)))
    assert isinstance(before, NoRecipe) == isinstance(after, NoRecipe)
    if isinstance(before, RecipeAnswer) and isinstance(after, RecipeAnswer):
        assert after.cheapest.cost <= before.cheapest.cost
        assert after.closest.distance == before.closest.distance


@given(wishes, wishes)
@settings(max_examples=60)
def test_an_added_bag_never_raises_the_optimum(wish: RecipeWish, other: RecipeWish) -> None:
    before = answer(wish)
    added = replace(other.bags[0], key="added", name="added")
    after = answer(replace(wish, bags=(*wish.bags, added)))
    if isinstance(before, RecipeAnswer):
        assert isinstance(after, RecipeAnswer)
        assert after.cheapest.cost <= before.cheapest.cost
        assert after.closest.distance <= before.closest.distance


@given(wishes)
@settings(max_examples=60)
def test_more_scoops_and_more_bags_never_raise_the_optimum(wish: RecipeWish) -> None:
    before = answer(wish)
    after = answer(replace(wish, most_scoops=wish.most_scoops + 1, most_bags=wish.most_bags + 1))
    if isinstance(before, RecipeAnswer):
        assert isinstance(after, RecipeAnswer)
        assert after.cheapest.cost <= before.cheapest.cost
        assert after.closest.distance <= before.closest.distance


@given(wishes)
@settings(max_examples=60)
def test_every_proposal_meets_the_wish_when_it_is_stirred(wish: RecipeWish) -> None:
    found = find_recipe(wish, SEARCH)
    if isinstance(found, NoRecipe) or not isinstance(wish.target, GradeTarget):
        return
    for choice in (*found.curve, *found.alternatives):
        analysis = {n.value: 100 * share for n, share in choice.mix.analysis.shares.items()}
        away = {
            n: abs(analysis.get(n, Fraction(0)) - percent)
            for n, percent in wish.target.percent.items()
        }
        assert all(away[n] <= off for n, off in wish.target.tolerance.items())
        assert max(away.values()) == choice.distance
        assert choice.mix.cost_per_kg == choice.cost
        assert choice.recipe.total <= wish.most_scoops
        assert len(choice.recipe.bags) <= wish.most_bags
        assert not choice.recipe.bags & wish.avoid
