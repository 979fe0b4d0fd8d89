"""What is asked about a bed's need: its crops, its ground, its soil test and what came before."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.bed import Ground
from halfpail.domain.phosphorus_account import PhosphorusYear
from halfpail.domain.removal import Removal, removal
from halfpail.domain.soil_test import Extractant, SoilTest
from halfpail.quantities.units import System
from halfpail.reference.crops import Crop, CropGroup, crop_called, crop_group
from halfpail.reference.defaults import default
from halfpail.reference.harvests import expected_yields, food_composition
from halfpail.sources import Citation

NONE = Fraction(0)
WHOLE = Fraction(1)
FED = Ground()


@dataclass(frozen=True, slots=True, kw_only=True)
class CropPlan:
    """A crop on a share of the bed [0-1], first or later in the season, and its yield [kg/m²].

    `crop` is a key of the crops, or of their groups; without a yield the table's is expected.
    """

    crop: str
    share: Fraction = WHOLE
    succession: int = 1
    yield_kg_per_m2: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Manure:
    """Manure or compost given: its decay series, how many years ago, and its nitrogen [kg/m²]."""

    series: str
    years_ago: int
    organic_n_kg_per_m2: Fraction
    ammonium_n_kg_per_m2: Fraction = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverCrop:
    """Fresh plants dug in: their dry matter [kg/m²] and its nitrogen [kg/kg]."""

    dry_kg_per_m2: Fraction
    n_share: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Water given in a season [m] and the nitrate nitrogen in it [mg/L]."""

    depth_m: Fraction
    nitrate_n_ppm: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenSources:
    """Where nitrogen comes from that need not be given."""

    manure: tuple[Manure, ...] = ()
    cover_crop: CoverCrop | None = None
    legume_before: bool = False
    water: Water | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedQuestion:
    """One bed and everything known of it; a container has a volume [L] besides.

    `years` are the bed's earlier years as far as phosphorus goes, oldest first.
    """

    area_m2: Fraction
    crops: tuple[CropPlan, ...]
    ground: Ground = FED
    soil_test: SoilTest | None = None
    nitrogen: NitrogenSources = NitrogenSources()
    container_l: Fraction | None = None
    years: tuple[PhosphorusYear, ...] = ()
    system: System = System.US


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedCrop:
    """A crop of the question with what the tables know: its group, yield [kg/m²] and removal.

    `crop` is None where only a group was named; `removed` is for a full bed of it.
    """

    plan: CropPlan
    crop: Crop | None
    group: CropGroup
    yield_kg_per_m2: Fraction | None
    removed: Removal
    citation: Citation

    @property
    def key(self) -> str:
        """Key of the crop, or of the group."""
        return self.crop.key if self.crop else self.group.key

    @property
    def name(self) -> str:
        """Name of the crop, or of the group."""
        return self.crop.name if self.crop else f"{self.group.key} feeders"


def planned_crops(plans: Sequence[CropPlan]) -> tuple[PlannedCrop, ...]:
    """The crops of a question with what the tables know of them.

    Raises:
        KeyError: a crop is neither in the table nor a group.
    """
    return tuple(_planned(plan) for plan in plans)


def removed_by(crops: Sequence[PlannedCrop]) -> Removal:
    """What all harvests of a bed take in a season [kg/m²], each by its share of the ground."""
    total = Removal()
    for planned in crops:
        total = total.plus(planned.removed.times(planned.plan.share))
    return total


def _planned(plan: CropPlan) -> PlannedCrop:
    crop = crop_called(plan.crop)
    group = crop_group(crop.group if crop else plan.crop.strip().casefold())
    food = food_composition().get(crop.key) if crop else None
    expected = expected_yields().get(crop.key) if crop else None
    found = plan.yield_kg_per_m2
    if found is None and expected is not None:
        found = expected.good
    if food is None or found is None:
        usual = default("p2o5_removal")
        removed = Removal(p2o5=usual.value, k2o=group.ranges.k2o.aim)
        return PlannedCrop(
            plan=plan,
            crop=crop,
            group=group,
            yield_kg_per_m2=found,
            removed=removed,
            citation=usual.citation,
        )
    return PlannedCrop(
        plan=plan,
        crop=crop,
        group=group,
        yield_kg_per_m2=found,
        removed=removal(found, food),
        citation=food.citation,
    )


def of_mix(test: SoilTest | None) -> bool:
    """Whether a test is a saturated-media extract, as bought mix needs."""
    return test is not None and any(
        figure.extractant is Extractant.SATURATED_MEDIA for figure in test.figures
    )
