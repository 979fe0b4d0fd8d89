"""Why a season plan is as it is: what more room would save, why each bag is in, what is left over.

Prices come from the plan held fixed (its recipes, rounds and whole bags), in which only the amounts
move. A price says where to look; what a little more room saves is then found by solving again with
just that much more room.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from halfpail.application.pose_season import contents, is_at_hand, is_on_offer, pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.tell_season import foods
from halfpail.blending.ports import Solver
from halfpail.blending.programme import Programme, Status
from halfpail.blending.season_rows import SeasonRows, fixed_season
from halfpail.domain.bed import Content
from halfpail.domain.garden import Garden
from halfpail.domain.stock import Bag

NONE = Fraction(0)
# Below a cent nothing is worth saying.
CENT = Fraction(1, 100)
# Below this a price is nothing but the rounding of the solver.
_NO_PRICE = 1e-9
_PARTS = 10**6
BROUGHT = (Content.N_TYPICAL, Content.P2O5, Content.K2O, Content.CA, Content.MG, Content.S)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoreRoom:
    """What a little more room in one place would save, the rest of the plan as it is.

    `where` is a bed, a bag or a mix, `what` the content of a bed's limit, and `more_kg` as much as
    one more scoop brings. `saves` is in money and misses together [money].
    """

    where: str
    what: str
    limit: str
    more_kg: Fraction
    saves: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyBag:
    """Why one bag is in the plan: what it mainly brings, beside the next cheapest source of it.

    `share` is its part of all that the beds get of it [0-1]. `cost` is what the plan pays for the
    bag, `instead_cost` what whole bags of the other would cost for as much [money], and
    `more_p2o5_kg` how much more P2O5 they would bring along. None where no other is on offer.
    """

    bag: str
    brings: Content
    brings_kg: Fraction
    share: Fraction
    cost: Fraction
    instead: str | None = None
    instead_bags: int = 0
    instead_cost: Fraction | None = None
    more_p2o5_kg: Fraction = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOver:
    """What is left of a bag or a mix when the beds are fed [kg]."""

    name: str
    left_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonExplanation:
    """Why the plan is as it is, the most telling first."""

    more_room: tuple[MoreRoom, ...]
    bags: tuple[WhyBag, ...]
    left_over: tuple[LeftOver, ...]


def explain_season(garden: Garden, answer: SeasonAnswer, solver: Solver) -> SeasonExplanation:
    """What holds a plan of a garden back, why its bags are in, and what stays over."""
    room = sorted(_more_room(garden, answer, solver), key=lambda one: -one.saves)
    left = [LeftOver(name=bag.bag.name, left_kg=bag.left_kg) for bag in answer.bags]
    left += [LeftOver(name=f"Mix {mix.number}", left_kg=mix.left_kg) for mix in answer.mixes]
    return SeasonExplanation(
        more_room=tuple(room),
        bags=tuple(_why_bags(garden, answer)),
        left_over=tuple(one for one in left if one.left_kg),
    )


def with_room(programme: Programme, row: int, more: float) -> Programme:
    """The programme with one row wider by so much, on both its sides."""
    old = programme.rows[row]
    wider = replace(old, at_least=old.at_least - more, at_most=old.at_most + more)
    rows = (*programme.rows[:row], wider, *programme.rows[row + 1 :])
    return replace(programme, rows=rows)


def _more_room(garden: Garden, answer: SeasonAnswer, solver: Solver) -> Iterator[MoreRoom]:
    rows = fixed_season(pose_season(garden), answer.plan)
    outcome = solver.solve(rows.programme)
    if outcome.status is not Status.OPTIMAL or outcome.value is None:
        return
    for place in (*_limits(garden, answer, rows), *_supplies(garden, answer, rows)):
        if abs(outcome.row_prices[place.row]) < _NO_PRICE or not place.room.more_kg:
            continue
        wider = solver.solve(with_room(rows.programme, place.row, place.more)).value
        saves = NONE if wider is None else Fraction(outcome.value - wider).limit_denominator(_PARTS)
        if saves >= CENT:
            yield replace(place.room, saves=saves)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """A row of the fixed season, by how much to widen it, and what that means."""

    row: int
    more: float
    room: MoreRoom


def _limits(garden: Garden, answer: SeasonAnswer, rows: SeasonRows) -> Iterator[_Place]:
    """Every most of every bed. What is short needs no price: it weighs what a miss weighs."""
    scoops = _scoops(garden, answer)
    names = {bed.key: bed.name for bed in garden.beds}
    for limit, row, scale in rows.limits:
        if limit.at_most is not None:
            more_kg = scoops.get((limit.plot, limit.content), NONE)
            room = MoreRoom(
                where=names[limit.plot],
                what=limit.content.value,
                limit=limit.because,
                more_kg=more_kg,
                saves=NONE,
            )
            yield _Place(row=row, more=float(more_kg) / scale, room=room)


def _supplies(garden: Garden, answer: SeasonAnswer, rows: SeasonRows) -> Iterator[_Place]:
    """What there is of each mix, and of each bag, of which not a scoop is left over."""
    over: dict[int | str, Fraction] = {mix.number - 1: mix.left_kg for mix in answer.mixes}
    over |= {told.bag.key: told.left_kg for told in answer.bags}
    for food, row in rows.supply.items():
        bag = foods(garden, answer.plan)[food]
        more_kg = bag.scoop_kg(garden.tools.scoop_l)
        if over.get(food, more_kg) >= more_kg:
            continue
        of_mix = isinstance(food, int)
        limit = "all that is stirred" if of_mix else "all that is bought and in the shed"
        room = MoreRoom(where=bag.name, what="", limit=limit, more_kg=more_kg, saves=NONE)
        yield _Place(row=row, more=1.0 if of_mix else float(more_kg), room=room)


def _scoops(garden: Garden, answer: SeasonAnswer) -> dict[tuple[str, Content], Fraction]:
    """What one more scoop brings each bed, of the richest thing it gets already [kg]."""
    known = foods(garden, answer.plan)
    most: dict[tuple[str, Content], Fraction] = {}
    for feeding in answer.plan.feedings:
        food = known[feeding.of]
        for content, share in contents(food).items():
            place = feeding.plot, content
            brings_kg = share * food.scoop_kg(garden.tools.scoop_l)
            most[place] = max(most.get(place, NONE), brings_kg)
    return most


def _why_bags(garden: Garden, answer: SeasonAnswer) -> Iterator[WhyBag]:
    used = {told.bag.key: told.used_kg for told in answer.bags if told.used_kg}
    bags = [bag for bag in garden.bags if bag.key in used]
    totals = {
        content: sum((used[bag.key] * contents(bag)[content] for bag in bags), NONE)
        for content in BROUGHT
    }
    paid = {told.bag.key: told.cost for told in answer.bags}
    for bag in bags:
        shares = {
            content: used[bag.key] * contents(bag)[content] / total
            for content, total in totals.items()
            if total and _is_asked(garden, content)
        }
        brings = max(shares, key=lambda content: shares[content], default=None)
        if brings is not None and shares[brings]:
            why = WhyBag(
                bag=bag.name,
                brings=brings,
                brings_kg=used[bag.key] * contents(bag)[brings],
                share=shares[brings],
                cost=paid[bag.key],
            )
            yield _beside_next(garden, bag, why)


def _is_asked(garden: Garden, content: Content) -> bool:
    """Whether any bed asks for some of it."""
    nutrient = "N" if content is Content.N_TYPICAL else content.value
    needs = (bed.need(nutrient) for bed in garden.beds)
    return any(need is not None and (need.least or need.aim) for need in needs)


def _beside_next(garden: Garden, bag: Bag, why: WhyBag) -> WhyBag:
    """The same with the next cheapest source, in whole bags, of which enough are on offer."""
    others = [
        (count * (other.price or NONE), _p2o5_with(other, why.brings), count, other.name)
        for other in garden.bags
        if other.key != bag.key and is_at_hand(other) and is_on_offer(other)
        if (count := _bags_for(other, why)) and count <= (other.offered or count)
    ]
    if not others:
        return why
    cost, with_p, count, name = min(others)
    return replace(
        why,
        instead=name,
        instead_bags=count,
        instead_cost=cost,
        more_p2o5_kg=NONE
        if why.brings is Content.P2O5
        else why.brings_kg * (with_p - _p2o5_with(bag, why.brings)),
    )


def _p2o5_with(bag: Bag, content: Content) -> Fraction:
    """P2O5 that comes with each kilogram of a content [kg/kg]."""
    held = contents(bag)
    return held[Content.P2O5_TOTAL] / held[content] if held[content] else NONE


def _bags_for(bag: Bag, why: WhyBag) -> int:
    """Whole bags that hold as much; nought where it holds none."""
    held_kg = contents(bag)[why.brings] * (bag.bag_kg or NONE)
    return ceil(why.brings_kg / held_kg) if held_kg else 0
