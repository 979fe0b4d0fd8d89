"""Materials that fertilizers are derived from, as the reference table knows them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.matter import Nutrient
from halfpail.sources import Citation


class Release(StrEnum):
    """How soon the nitrogen (or, where there is none, the main nutrient) of a material comes."""

    QUICK = "quick"
    FAST = "weeks"
    MEDIUM = "months"
    SLOW = "seasons"
    COATED = "coated"


class OrganicUse(StrEnum):
    """Whether certified growers usually may use it; their certifier decides, not this table."""

    USUAL = "usually allowed"
    RESTRICTED = "allowed with limits"
    NOT = "not allowed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A low, typical and high figure."""

    low: Fraction
    typical: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One row of the materials table.

    `contents` are mass shares [kg/kg]; `total_p2o5` is what the soil receives where the label
    shows only the available part; `density_kg_per_l` of the loose dry material;
    `soluble_n` the share of its nitrogen that is soluble [0-1]; `usable_insoluble_n` the share
    of the insoluble nitrogen a crop gets in the first season [0-1];
    `cce` calcium carbonate equivalent [kg CaCO3 per kg, negative acidifies];
    `formula` of the pure compound where there is one; `family` its row in the compatibility table.
    `citation` stands for the contents; density, usable nitrogen and CCE have their own.
    """

    key: str
    name: str
    synonyms: tuple[str, ...]
    contents: Mapping[Nutrient, Spread] = field(hash=False)
    total_p2o5: Fraction | None = None
    density_kg_per_l: Spread | None = None
    release: Release | None = None
    soluble_n: Fraction = Fraction(0)
    usable_insoluble_n: Spread | None = None
    organic_use: OrganicUse | None = None
    cce: Fraction = Fraction(0)
    formula: str = ""
    family: str = ""
    cautions: tuple[str, ...] = ()
    citation: Citation
    density_citation: Citation | None = None
    usable_n_citation: Citation | None = None
    cce_citation: Citation | None = None
