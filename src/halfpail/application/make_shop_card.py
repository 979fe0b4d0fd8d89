"""A card for the shop: what each per cent of a nutrient on a label is worth to this garden.

The garden is planned again with a bag of each of a few common grades as a gift; what that saves is
what the bag is worth. The prices of a per cent of N, P2O5 and K2O that agree best with these worths
go on the card, so that a label can be priced with a pencil.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.pose_season import pose_season
from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Programme, Row, Status
from halfpail.domain.garden import Garden
from halfpail.domain.label import Grade
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.season import Unmet
from halfpail.domain.stock import Bag
from halfpail.quantities.rounding import shortest, to_nearest
from halfpail.quantities.units import size_of

NONE = Fraction(0)

# Our choice, not published: grades as shops clear them, and a middling bag.
TRIED = (
    *("2-0-2", "2-6-4", "3-0-5", "3-2-6", "3-4-4", "4-0-4", "4-4-4", "4-6-2", "5-1-5", "5-5-5"),
    *("6-2-2", "7-1-3", "8-0-5", "8-3-5", "10-0-0", "10-2-8", "12-0-0", "12-4-8"),
)
TRIED_KG = 10 * size_of("lb")
_FINEST = Fraction(1, 10**6)
_SMALL = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class GradePrice:
    """One grade, the highest price worth paying that was reckoned, and what the card says.

    Both in money per kilogram of the bag.
    """

    grade: Grade
    worth_per_kg: Fraction
    card_worth_per_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCard:
    """What goes on the card.

    `point_worth_per_kg` is the price of one per cent of a nutrient on the label, for each kilogram
    of the bag [money/kg]; P2O5 takes away where a bed has enough. `wanted_kg` is what the beds
    should get beyond what is in the shed, nitrogen as usable nitrogen.
    """

    garden: str
    currency: str
    point_worth_per_kg: Mapping[Nutrient, Fraction] = field(hash=False)
    grades: tuple[GradePrice, ...]
    wanted_kg: Mapping[Nutrient, Fraction] = field(hash=False)

    def worth_per_kg(self, grade: Grade) -> Fraction:
        """The highest price worth paying by the card [money/kg], never below nought."""
        return _by_card(self.point_worth_per_kg, grade)


def make_shop_card(
    garden: Garden,
    engine: SeasonEngine,
    solver: Solver,
    effort: SeasonEffort = SeasonEffort(),
    on_bag: Callable[[str], None] | None = None,
) -> ShopCard | Unmet:
    """The card of a garden; `on_bag` is told each grade before it is tried."""
    now = engine.solve(pose_season(garden), effort)
    if isinstance(now, Unmet):
        return now
    worths: list[tuple[Grade, Fraction]] = []
    for text in TRIED:
        if on_bag:
            on_bag(text)
        bag = gift(text, TRIED_KG, garden)
        plan = engine.solve(pose_season(replace(garden, bags=(*garden.bags, bag))), effort)
        if not isinstance(plan, Unmet):
            saved = max(NONE, now.value - plan.value)
            worths.append((bag.label.analysis.grade, saved / TRIED_KG))
    prices = _prices(worths, solver)
    return ShopCard(
        garden=garden.name,
        currency=garden.preferences.currency,
        point_worth_per_kg=prices,
        grades=tuple(
            GradePrice(grade=g, worth_per_kg=w, card_worth_per_kg=_by_card(prices, g))
            for g, w in worths
        ),
        wanted_kg=dict(_wanted(garden)),
    )


def gift(label: str, bag_kg: Fraction, garden: Garden) -> Bag:
    """One bag of a grade for nothing, as it would be read from a garden file."""
    entry = BagEntry(
        name=f"a bag of {label}", place="bag", label=label, bag_kg=bag_kg, price=NONE, offered=1
    )
    return fill_bag(entry, garden.tools.scoop_l)[0]


def _by_card(prices: Mapping[Nutrient, Fraction], grade: Grade) -> Fraction:
    points = zip(PRIMARY, _numbers(grade), strict=True)
    return max(NONE, sum((prices[nutrient] * point for nutrient, point in points), NONE))


def _numbers(grade: Grade) -> tuple[Fraction, Fraction, Fraction]:
    return grade.n, grade.p2o5, grade.k2o


def _prices(worths: Sequence[tuple[Grade, Fraction]], solver: Solver) -> dict[Nutrient, Fraction]:
    """The prices whose worths miss the reckoned ones least, all misses added up.

    For a bag that is worth nothing only a price above nought is a miss. P2O5 may take away from
    the worth; N and K2O never do. Of prices that miss as little the smallest are taken.
    """
    columns = [Column(name=str(nutrient), cost=_SMALL) for nutrient in PRIMARY]
    columns.append(Column(name="P2O5 takes away", cost=_SMALL))
    rows = []
    for grade, worth in worths:
        miss = len(columns)
        columns.append(Column(name=grade_text(grade), cost=1.0))
        numbers = (*_numbers(grade), -grade.p2o5)
        terms = tuple((i, float(number)) for i, number in enumerate(numbers))
        rows.append(Row(name="not above", terms=(*terms, (miss, -1.0)), at_most=float(worth)))
        if worth:
            rows.append(Row(name="not below", terms=(*terms, (miss, 1.0)), at_least=float(worth)))
    found = solver.solve(Programme(columns=tuple(columns), rows=tuple(rows)))
    if found.status is not Status.OPTIMAL:
        raise ArithmeticError(f"no prices fit: {found.status}")
    n, p2o5, k2o, taken = (to_nearest(Fraction(price), _FINEST) for price in found.point[:4])
    return {Nutrient.N: n, Nutrient.P2O5: p2o5 - taken, Nutrient.K2O: k2o}


def grade_text(grade: Grade) -> str:
    """A grade as a bag prints it."""
    return "-".join(shortest(number, 1) for number in _numbers(grade))


def _wanted(garden: Garden) -> Iterator[tuple[Nutrient, Fraction]]:
    """What the beds should get, less what the shed holds, never below nought [kg]."""
    shed = [bag for bag in garden.bags if bag.shed_kg and not bag.avoid]
    for nutrient in PRIMARY:
        aims = (
            need.aim * bed.area_m2
            for bed in garden.beds
            for need in bed.needs
            if need.nutrient == str(nutrient)
        )
        held = (bag.shed_kg * _useful(bag, nutrient) for bag in shed)
        yield nutrient, max(NONE, sum(aims, NONE) - sum(held, NONE))


def _useful(bag: Bag, nutrient: Nutrient) -> Fraction:
    if nutrient is Nutrient.N:
        return bag.usable_n.typical
    return bag.label.analysis.of(nutrient)
