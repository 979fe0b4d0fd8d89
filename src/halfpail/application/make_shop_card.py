"""A card for the shop: what each per cent of a nutrient on a label is worth to this garden.

The garden is planned again with a bag of each of a few common grades as a gift, middling and large;
what that saves is what the bag is worth. The prices of a per cent, and the amounts still wanted,
that agree best with these worths go on the card, so that a label can be priced with a pencil.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry
from halfpail.application.ports import Each, KnownWithout, SeasonEffort, SeasonEngine
from halfpail.application.pose_season import pose_season
from halfpail.blending.point_prices import BagWorth, PointPrices, fit_point_prices
from halfpail.blending.ports import Solver
from halfpail.domain.garden import Garden
from halfpail.domain.label import Grade
from halfpail.domain.season import SeasonPlan, Unmet
from halfpail.domain.stock import Bag
from halfpail.quantities.rounding import shortest
from halfpail.quantities.units import size_of

NONE = Fraction(0)

# Our choice, not published: grades spread over what shops sell, a middling and a large bag.
TRIED = (
    *("2-0-2", "2-6-4", "3-0-5", "3-4-4", "4-2-8", "4-8-2", "5-1-5", "5-5-5", "6-2-2", "6-6-8"),
    *("7-1-3", "8-0-5", "8-4-1", "9-7-4", "10-0-0", "10-3-8", "11-5-5", "12-0-0", "12-4-8"),
    "12-8-2",
)
TRIED_KG = (10 * size_of("lb"), 25 * size_of("lb"))
# A gift that is hard to prove is still a fair guide to its worth.
_GIFT_WORK = 0.35


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeLine:
    """A grade on the card: its highest price worth paying, and how much of it is still wanted."""

    grade: Grade
    worth_per_kg: Fraction
    wanted_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCard:
    """What goes on the card, and the bags it was made from."""

    garden: str
    currency: str
    prices: PointPrices
    grades: tuple[GradeLine, ...]
    tried: tuple[BagWorth, ...]


def make_shop_card(
    garden: Garden,
    engine: SeasonEngine,
    solver: Solver,
    effort: SeasonEffort = SeasonEffort(),
    on_bag: Callable[[str], None] | None = None,
    each: Each = map,
) -> ShopCard | Unmet:
    """The card of a garden; `on_bag` is told each grade, and `each` may try several at once."""
    now = engine.solve(pose_season(garden), effort)
    if isinstance(now, Unmet):
        return now
    gifts = [(text, bag_kg) for text in TRIED for bag_kg in TRIED_KG]
    worths = each(partial(_worth_as_gift, garden, now=now, engine=engine, effort=effort), gifts)
    tried: list[BagWorth] = []
    for text, _ in gifts:
        if on_bag:
            on_bag(text)
        tried.append(next(worths))
    prices = fit_point_prices(tried, solver)
    return ShopCard(
        garden=garden.name,
        currency=garden.preferences.currency,
        prices=prices,
        grades=tuple(
            GradeLine(
                grade=grade,
                worth_per_kg=prices.per_kg(grade),
                wanted_kg=prices.useful_kg(grade) or NONE,
            )
            for grade in dict.fromkeys(one.grade for one in tried)
        ),
        tried=tuple(tried),
    )


def _worth_as_gift(
    garden: Garden,
    given: tuple[str, Fraction],
    now: SeasonPlan,
    engine: SeasonEngine,
    effort: SeasonEffort,
) -> BagWorth:
    """What one bag of a grade and weight [kg] saves the season where it is a gift [money]."""
    label, bag_kg = given
    bag = gift(label, bag_kg, garden)
    known = KnownWithout(bag=bag.key, plan=now)
    plan = engine.solve(
        pose_season(replace(garden, bags=(*garden.bags, bag))),
        replace(effort, without=known, work=_GIFT_WORK * effort.work),
    )
    saved = NONE if isinstance(plan, Unmet) else max(NONE, now.value - plan.value)
    return BagWorth(grade=bag.label.analysis.grade, bag_kg=bag_kg, worth=saved)


def gift(label: str, bag_kg: Fraction, garden: Garden) -> Bag:
    """One bag of a grade for nothing, as it would be read from a garden file."""
    entry = BagEntry(
        name=f"a bag of {label}", place="bag", label=label, bag_kg=bag_kg, price=NONE, offered=1
    )
    return fill_bag(entry, garden.tools.scoop_l)[0]


def grade_text(grade: Grade) -> str:
    """A grade as a bag prints it."""
    return "-".join(shortest(number, 1) for number in (grade.n, grade.p2o5, grade.k2o))
