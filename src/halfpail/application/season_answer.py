"""What the season plan tells: mixes, bags to buy, what each bed gets, what it costs."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.bed import Bed, Content, Fit, NeedRange
from halfpail.domain.label import Grade
from halfpail.domain.mix import Mix
from halfpail.domain.pail import Pailful
from halfpail.domain.season import SeasonPlan
from halfpail.domain.stock import Bag
from halfpail.findings import Notice
from halfpail.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class MixAnswer:
    """One mix of the plan: a round of its recipe stirred, and how much of it is made.

    `printed` is the grade rounded down, as it may stand on the pail [percent].
    """

    number: int
    round: Mix
    printed: Grade
    rounds: int
    pailful: Pailful
    pails: int | None
    made_kg: Fraction
    used_kg: Fraction

    @property
    def left_kg(self) -> Fraction:
        """What stays in the pail at the season's end [kg]."""
        return self.made_kg - self.used_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class BagAnswer:
    """One bag of the plan: taken from the shed, bought, used, left. Money is for all bought."""

    bag: Bag
    bought: int
    cost: Fraction
    saved: Fraction | None
    used_kg: Fraction
    left_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedAnswer:
    """So much of one mix or of one bag for one bed, by its name.

    `holds` is what a kilogram of it holds [kg/kg].
    """

    name: str
    scoops: Fraction
    volume_l: Fraction
    mass_kg: Fraction
    quick_n_kg: Fraction
    cost: Fraction
    scoop_kg: Fraction
    holds: Mapping[Content, Fraction] = field(hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class FitAnswer:
    """What a bed gets of one nutrient [kg/m²] beside its range, and the word for it."""

    need: NeedRange
    low_kg_per_m2: Fraction
    typical_kg_per_m2: Fraction
    high_kg_per_m2: Fraction
    word: Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class BedAnswer:
    """What one bed gets, how it fits, its phosphorus beside the crop's removal, its cost.

    `p2o5_given_kg_per_m2` counts all phosphorus that reaches the soil. `doses` is the number of
    times the amount is split into.
    """

    bed: Bed
    feeds: tuple[FeedAnswer, ...]
    fits: tuple[FitAnswer, ...]
    label_n_kg_per_m2: Fraction
    quick_n_kg_per_m2: Fraction
    p2o5_given_kg_per_m2: Fraction
    p2o5_removed_kg_per_m2: Fraction
    doses: int
    cost: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonAnswer:
    """The season, told. `better_possible` is what the proof leaves open, in the plan's value."""

    garden: str
    currency: str
    plan: SeasonPlan
    mixes: tuple[MixAnswer, ...]
    bags: tuple[BagAnswer, ...]
    beds: tuple[BedAnswer, ...]
    better_possible: Fraction
    held_back_by: tuple[str, ...]
    weights: Mapping[str, Fraction] = field(hash=False)
    notices: tuple[Notice, ...] = ()
    working: Working = ()
