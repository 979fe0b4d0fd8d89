"""A garden as its owner describes it: bags, beds, scoop, pail and preferences."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.bed import Bed
from halfpail.domain.stock import Bag
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Tools:
    """The scoop and the pail [L]; `measure` is the smallest share of a scoop given to a bed."""

    scoop_l: Fraction
    pail_l: Fraction
    measure: Fraction = Fraction(1, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Preferences:
    """What the gardener will put up with. `mixes` None means: find the number.

    `visits` is how often at the most a bed is fed. `another_mix_saves` is what one mix more has to
    make the season better by [money]; None leaves it to a share of the plan.
    """

    mixes: int | None = 1
    most_scoops: int = 12
    most_bags: int = 4
    budget: Fraction | None = None
    currency: str = "USD"
    units: System = System.US
    shed_is_free: bool = True
    ceiling_per_kg: Fraction | None = None
    another_mix_saves: Fraction | None = None
    visits: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Garden:
    """Everything the garden file holds."""

    name: str
    bags: tuple[Bag, ...]
    beds: tuple[Bed, ...]
    tools: Tools
    preferences: Preferences = Preferences()
