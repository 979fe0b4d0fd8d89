"""The price of a bag that rises to where a plan that buys it is as good as one without it."""

from dataclasses import replace
from fractions import Fraction

from halfpail.engine.draft import Settled
from halfpail.engine.figures import Figures


def risen(figures: Figures, bag: int, plan: Settled, value: Fraction) -> tuple[Figures, Settled]:
    """The season and the plan once the bag costs so much that the plan comes to `value` [money]."""
    problem = figures.problem
    ingredient = problem.ingredients[bag]
    dearer = value - plan.value
    price = ingredient.price + dearer / plan.purchases[ingredient.key]
    ingredients = list(problem.ingredients)
    ingredients[bag] = replace(ingredient, price=price)
    prices = figures.price.copy()
    prices[bag] = float(price)
    season = replace(
        figures, problem=replace(problem, ingredients=tuple(ingredients)), price=prices
    )
    return season, replace(plan, money=plan.money + dearer)
