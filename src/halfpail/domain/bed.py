"""Beds and the range of each nutrient they should get in a season."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.sources import Citation


class Content(StrEnum):
    """What a bed's ranges are counted in.

    Nitrogen has four readings: a need is checked on the low figure of what a bag gives, the
    aim on the typical one, the burn limit on the high one, and a total limit on label nitrogen.
    """

    N_LOW = "usable N, low"
    N_TYPICAL = "usable N, typical"
    N_HIGH = "usable N, high"
    N_LABEL = "label N"
    P2O5 = "P2O5"
    K2O = "K2O"
    CA = "Ca"
    MG = "Mg"
    S = "S"


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedRange:
    """Range of one nutrient for a bed and season [kg per m²]: least, aim, most, and the hard cap.

    `nutrient` is "N" (usable), "P2O5", "K2O", "Ca", "Mg" or "S".
    """

    nutrient: str
    least: Fraction
    aim: Fraction
    most: Fraction
    cap: Fraction
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A piece of ground, its crop and what it should get."""

    key: str
    name: str
    area_m2: Fraction
    crop: str
    needs: tuple[NeedRange, ...]
    straight_ok: bool = True
