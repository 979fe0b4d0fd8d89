"""The season as a problem to solve and as a plan: mixes, whole bags, feedings."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.bed import Content


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """A bag as the season engine sees it: contents [kg/kg], bag and scoop mass [kg], money."""

    key: str
    contents: Mapping[Content, Fraction] = field(hash=False)
    scoop_kg: Fraction
    bag_kg: Fraction
    price: Fraction
    shed_kg: Fraction = Fraction(0)
    shed_price_per_kg: Fraction = Fraction(0)
    offered: int = 0
    may_mix: bool = True
    may_go_straight: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A bed as the season engine sees it."""

    key: str
    straight_ok: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One side of one range of one bed [kg of content]; `price_per_kg` None makes it hard.

    A priced limit may be missed at that price for each kilogram; the price is a weight, not
    money, and is reported apart from the cost.
    """

    plot: str
    content: Content
    at_least: Fraction | None = None
    at_most: Fraction | None = None
    price_per_kg: Fraction | None = None
    because: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonProblem:
    """Bags, beds, limits and what the gardener will put up with.

    At most `mixes` mixes, each of at most `most_bags` bags and `most_scoops` scoops a round and
    stirred in whole rounds; a bed gets at most `mixes_per_plot` of them, beside straight bags.
    Amounts for a bed are whole multiples of `measure` [scoops]. `apart` holds pairs of bags that
    must not share a mix. `budget` limits what is paid for bags bought, not the shed.
    """

    ingredients: tuple[Ingredient, ...]
    plots: tuple[Plot, ...]
    limits: tuple[Limit, ...]
    mixes: int
    most_scoops: int
    most_bags: int
    measure: Fraction = Fraction(1, 4)
    scoop_l: Fraction = Fraction(1)
    apart: frozenset[frozenset[str]] = frozenset()
    budget: Fraction | None = None
    mixes_per_plot: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Stir:
    """One mix: its recipe in whole scoops and how many whole rounds of it are stirred."""

    scoops: Mapping[str, int] = field(hash=False)
    rounds: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """Smallest measures of one mix (by number) or one straight bag (by key) for one bed."""

    plot: str
    of: int | str
    measures: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPlan:
    """A plan in whole scoops, its money, the weight of what it misses, and the proven bound.

    `money` is the bags bought plus what is taken from the shed at its price: a bag's shed weight
    counts only as far as the bags bought do not cover what is used. `missed` is the price of the
    priced limits missed, a weight and no money. `bound` is a proven lower bound on the sum of the
    two; `proven_by` names what proved it.
    """

    stirs: tuple[Stir, ...]
    feedings: tuple[Feeding, ...]
    purchases: Mapping[str, int] = field(hash=False)
    money: Fraction
    missed: Fraction
    bound: Fraction
    proven_by: str
    seconds: float = field(compare=False, default=0.0)

    @property
    def value(self) -> Fraction:
        """Money plus the weight of what is missed [money]: what the engine makes least."""
        return self.money + self.missed

    @property
    def gap(self) -> Fraction:
        """How much better a plan could still be, as a share of this one [0-1]."""
        return (self.value - self.bound) / self.value if self.value else Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Give:
    """A hard limit that is in the way, by how much it must give [kg of content], and why."""

    limit: Limit
    by_kg: Fraction
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmet:
    """No plan keeps every hard limit (`proven`), or none was found within the effort.

    `gives` are limits which, loosened together by so much, would let even the easiest plan
    through; what is too little for every bed a mix of its own is too little for few mixes.
    """

    sentence: str
    proven: bool
    gives: tuple[Give, ...] = ()
    seconds: float = field(compare=False, default=0.0)
