"""What really happened: bags bought, batches made, beds fed, crops harvested, and their sums.

Every event keeps its own figures as they were on the day, so that a label or a price changed later
does not change what was done. Bags, beds and mixes go by their names. Money is in the garden's
currency.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from halfpail.domain.bed import Content

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """So many full bags of one kind, and what was paid for all of them."""

    on: date
    bag: str
    bags: int
    bag_kg: Fraction
    paid: Fraction
    list_price: Fraction | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What went into a batch from one bag: scoops and weight [kg]."""

    bag: str
    scoops: int
    mass_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A batch of a mix, with its recipe as it was really made."""

    on: date
    mix: str
    rounds: int
    taken: tuple[Taken, ...]
    note: str = ""

    @property
    def mass_kg(self) -> Fraction:
        """Weight of the whole batch [kg]."""
        return sum((one.mass_kg for one in self.taken), NONE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed:
    """So much of a mix, or of one bag given straight, for one bed.

    `holds` is what a kilogram of it held [kg/kg]. `cost` is what it had cost, `list_cost` what it
    would have cost at list price [money]; None where a price is not known.
    """

    on: date
    bed: str
    of: str
    straight: bool
    scoops: Fraction
    mass_kg: Fraction
    holds: Mapping[Content, Fraction] = field(hash=False)
    cost: Fraction | None = None
    list_cost: Fraction | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Harvested:
    """So much of a crop carried away from a bed [kg]."""

    on: date
    bed: str
    crop: str
    mass_kg: Fraction
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Noted:
    """A few words about the garden, or about one bed."""

    on: date
    note: str
    bed: str = ""


Event = Bought | Made | Fed | Harvested | Noted


def bag_moves_kg(event: Event) -> dict[str, Fraction]:
    """What an event adds to each bag in the shed, or takes from it [kg].

    >>> bag_moves_kg(Bought(on=date(2026, 10, 3), bag="meal", bags=2, bag_kg=Fraction(5),
    ...                     paid=Fraction(9)))
    {'meal': Fraction(10, 1)}
    """
    moves: defaultdict[str, Fraction] = defaultdict(Fraction)
    if isinstance(event, Bought):
        moves[event.bag] += event.bags * event.bag_kg
    elif isinstance(event, Made):
        for one in event.taken:
            moves[one.bag] -= one.mass_kg
    elif isinstance(event, Fed) and event.straight:
        moves[event.of] -= event.mass_kg
    return dict(moves)


def stock_after_kg(shed_kg: Mapping[str, Fraction], event: Event) -> dict[str, Fraction]:
    """What lies in the shed of each bag after an event [kg], never below nought.

    >>> meal = Taken(bag="meal", scoops=2, mass_kg=Fraction(3))
    >>> made = Made(on=date(2027, 4, 1), mix="pail", rounds=1, taken=(meal,))
    >>> stock_after_kg({"meal": Fraction(5), "bone": Fraction(1)}, made)
    {'meal': Fraction(2, 1), 'bone': Fraction(1, 1)}
    """
    after = dict(shed_kg)
    for bag, move_kg in bag_moves_kg(event).items():
        after[bag] = max(NONE, after.get(bag, NONE) + move_kg)
    return after


def left_in_pails_kg(events: Iterable[Event]) -> dict[str, Fraction]:
    """What should be left of each mix [kg]: batches made less feedings, never below nought.

    >>> meal = Taken(bag="meal", scoops=2, mass_kg=Fraction(3))
    >>> left_in_pails_kg([Made(on=date(2027, 4, 1), mix="pail", rounds=1, taken=(meal,)),
    ...     Fed(on=date(2027, 4, 2), bed="east", of="pail", straight=False, scoops=Fraction(1),
    ...         mass_kg=Fraction(1), holds={})])
    {'pail': Fraction(2, 1)}
    """
    left: defaultdict[str, Fraction] = defaultdict(Fraction)
    for event in events:
        if isinstance(event, Made):
            left[event.mix] += event.mass_kg
        elif isinstance(event, Fed) and not event.straight:
            left[event.of] = max(NONE, left[event.of] - event.mass_kg)
    return dict(left)


def given_kg(events: Iterable[Event]) -> dict[str, dict[Content, Fraction]]:
    """What each bed got of each content [kg].

    >>> fed = Fed(on=date(2027, 4, 2), bed="east", of="meal", straight=True, scoops=Fraction(1),
    ...           mass_kg=Fraction(2), holds={Content.K2O: Fraction(1, 10)})
    >>> given_kg([fed, fed])
    {'east': {<Content.K2O: 'K2O'>: Fraction(2, 5)}}
    """
    beds: dict[str, dict[Content, Fraction]] = {}
    for event in events:
        if isinstance(event, Fed):
            got = beds.setdefault(event.bed, {})
            for content, share in event.holds.items():
                got[content] = got.get(content, NONE) + event.mass_kg * share
    return beds


def harvested_kg(events: Iterable[Event]) -> dict[tuple[str, str], Fraction]:
    """What was carried away, by bed and crop [kg].

    >>> carrots = Harvested(on=date(2027, 8, 1), bed="east", crop="carrot", mass_kg=Fraction(2))
    >>> harvested_kg([carrots, carrots])
    {('east', 'carrot'): Fraction(4, 1)}
    """
    total: defaultdict[tuple[str, str], Fraction] = defaultdict(Fraction)
    for event in events:
        if isinstance(event, Harvested):
            total[event.bed, event.crop] += event.mass_kg
    return dict(total)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spent:
    """What was paid for bags, the same at list price, and what was saved [money].

    Bags without a known list price count in neither `at_list` nor `saved`.
    """

    paid: Fraction
    at_list: Fraction
    saved: Fraction


def spent(events: Iterable[Event]) -> Spent:
    """The money of all purchases.

    >>> bought = Bought(on=date(2026, 10, 3), bag="meal", bags=2, bag_kg=Fraction(5),
    ...                 paid=Fraction(9), list_price=Fraction(12))
    >>> spent([bought]).saved
    Fraction(15, 1)
    """
    purchases = [event for event in events if isinstance(event, Bought)]
    listed = [(one.bags * one.list_price, one.paid) for one in purchases if one.list_price]
    at_list = sum((full for full, _ in listed), NONE)
    return Spent(
        paid=sum((one.paid for one in purchases), NONE),
        at_list=at_list,
        saved=at_list - sum((paid for _, paid in listed), NONE),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedingCost:
    """What was fed [kg] and its cost [money]; `at_list` covers what has both prices.

    `unpriced_kg` is the weight of feedings whose price is not known.
    """

    mass_kg: Fraction
    cost: Fraction
    at_list: Fraction
    saved: Fraction
    unpriced_kg: Fraction

    @property
    def cost_per_kg(self) -> Fraction | None:
        """Price of what was fed [money per kg]; None where nothing has a price."""
        priced_kg = self.mass_kg - self.unpriced_kg
        return self.cost / priced_kg if priced_kg else None


def feeding_cost(feedings: Iterable[Fed]) -> FeedingCost:
    """The weight [kg] and the money of feedings.

    >>> fed = Fed(on=date(2027, 4, 2), bed="east", of="meal", straight=True, scoops=Fraction(1),
    ...           mass_kg=Fraction(2), holds={}, cost=Fraction(3), list_cost=Fraction(5))
    >>> feeding_cost([fed]).saved
    Fraction(2, 1)
    """
    fed = tuple(feedings)
    both = [(one.list_cost, one.cost) for one in fed if one.list_cost is not None and one.cost]
    return FeedingCost(
        mass_kg=sum((one.mass_kg for one in fed), NONE),
        cost=sum((one.cost for one in fed if one.cost is not None), NONE),
        at_list=sum((full for full, _ in both), NONE),
        saved=sum((full - cost for full, cost in both), NONE),
        unpriced_kg=sum((one.mass_kg for one in fed if one.cost is None), NONE),
    )
