"""Hard limits, checked apart from whatever made a plan: final amounts, and facts of the bed.

Nothing here knows how an amount was reached. A limit is a number for one kind of stuff, for a
dose, a year or the phosphorus account, that holds in certain cases; a breach is an amount above.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from halfpail.sources import Citation

NONE = Fraction(0)


class Given(StrEnum):
    """What a limit holds: a nutrient in what is spread, or the weight of a material.

    Lime counts by its weight or by its calcium carbonate equivalent, whichever is more; a boron
    material by its boron, which counts as boron too.
    """

    QUICK_N = "quick nitrogen"
    LABEL_N = "label nitrogen"
    P2O5_TOTAL = "P2O5, all of it"
    P2O5_SURPLUS = "running P2O5 surplus"
    LIME = "lime"
    DOLOMITE = "dolomite"
    ASH = "wood ash"
    SULFUR = "sulfur"
    BORON = "boron"
    BORON_MATERIAL = "boron material"
    MAGNESIUM = "magnesium salts"


class Per(StrEnum):
    """Over what an amount is summed."""

    DOSE = "dose"
    YEAR = "year"
    ACCOUNT = "account"


class Case(StrEnum):
    """What may be so of a bed; the value is the wording of the table."""

    PH_UNKNOWN = "pH not known"
    AT_TARGET = "at its target pH"
    AT_OR_BELOW_TARGET = "at or below its target pH"
    NO_BUFFER = "no buffer test"
    ACID_BED = "kept for acid-loving crops"
    FREE_LIME = "free lime"
    PLANTED = "planted"
    P_VERY_HIGH = "very high phosphorus"
    MG_NOT_LOW = "magnesium not found low"
    NO_BORON_FIGURE = "no boron figure"
    BORON_SENSITIVE = "beans, peas or cucumbers stand or follow"


@dataclass(frozen=True, slots=True, kw_only=True)
class BedFacts:
    """What is known of a bed; what is not known counts against a generous amount.

    `usable_n_aim_kg_per_m2` is the season's aim; the P2O5 figures are the running surplus before
    the year and what the year's harvest takes [kg/m²].
    """

    soil_ph: Fraction | None = None
    target_ph: Fraction | None = None
    buffer_tested: bool = False
    acid_bed: bool = False
    free_lime: bool = False
    planted: bool = True
    p_very_high: bool = False
    magnesium_low: bool = False
    boron_figure: bool = False
    boron_sensitive: bool = True
    usable_n_aim_kg_per_m2: Fraction | None = None
    p2o5_surplus_kg_per_m2: Fraction = NONE
    p2o5_removed_kg_per_m2: Fraction = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class HardLimit:
    """The most of one thing for a dose, a year or the account, in the cases it holds.

    `value` is [kg/m²], or a multiple of the bed's usable nitrogen aim where `of_aim` is set;
    `from_ph` is the soil pH from which it holds.
    """

    key: str
    of: Given
    per: Per
    value: Fraction
    when: tuple[Case, ...]
    sentence: str
    citation: Citation
    of_aim: bool = False
    from_ph: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """What one spreading brings [kg/m²]."""

    amounts: Mapping[Given, Fraction] = field(hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Breach:
    """An amount above a hard limit [both kg/m²]."""

    limit: HardLimit
    amount_kg_per_m2: Fraction
    most_kg_per_m2: Fraction


def breaches(
    limits: Iterable[HardLimit], bed: BedFacts, doses: Sequence[Dose]
) -> tuple[Breach, ...]:
    """Every hard limit that the doses of one year break on a bed [kg/m²].

    >>> from halfpail.sources import Mark
    >>> limit = HardLimit(key="ash", of=Given.ASH, per=Per.YEAR, value=Fraction(1, 10), when=(),
    ...                   sentence="no more", citation=Citation(mark=Mark.PROPOSAL))
    >>> dose = Dose(amounts={Given.ASH: Fraction(6, 100)})
    >>> [one.limit.key for one in breaches([limit], BedFacts(), [dose, dose])]
    ['ash']
    """
    holding = cases(bed)
    return tuple(
        breach
        for limit in limits
        if _holds(limit, bed, holding)
        for breach in _breach(limit, bed, doses)
    )


def most_of(
    limits: Iterable[HardLimit], of: Given, per: Per, bed: BedFacts
) -> tuple[Fraction, HardLimit] | None:
    """The strictest limit of one thing on a bed [kg/m²]; None where nothing limits it.

    >>> most_of([], Given.ASH, Per.YEAR, BedFacts()) is None
    True
    """
    holding = cases(bed)
    found = [
        (most, limit)
        for limit in limits
        if limit.of is of and limit.per is per and _holds(limit, bed, holding)
        if (most := _most(limit, bed)) is not None
    ]
    return min(found, key=lambda one: one[0], default=None)


def cases(bed: BedFacts) -> frozenset[Case]:
    """What is so of a bed.

    >>> sorted(cases(BedFacts(soil_ph=Fraction(7), target_ph=Fraction(6), planted=False,
    ...                       buffer_tested=True, boron_figure=True, boron_sensitive=False,
    ...                       magnesium_low=True)))
    [<Case.AT_TARGET: 'at its target pH'>]
    """
    known = bed.soil_ph is not None and bed.target_ph is not None
    so = {
        Case.PH_UNKNOWN: bed.soil_ph is None,
        Case.AT_TARGET: known and _above(bed) >= 0,
        Case.AT_OR_BELOW_TARGET: known and _above(bed) <= 0,
        Case.NO_BUFFER: not bed.buffer_tested,
        Case.ACID_BED: bed.acid_bed,
        Case.FREE_LIME: bed.free_lime,
        Case.PLANTED: bed.planted,
        Case.P_VERY_HIGH: bed.p_very_high,
        Case.MG_NOT_LOW: not bed.magnesium_low,
        Case.NO_BORON_FIGURE: not bed.boron_figure,
        Case.BORON_SENSITIVE: bed.boron_sensitive,
    }
    return frozenset(case for case, is_so in so.items() if is_so)


def _above(bed: BedFacts) -> Fraction:
    return (bed.soil_ph or NONE) - (bed.target_ph or NONE)


def _holds(limit: HardLimit, bed: BedFacts, holding: frozenset[Case]) -> bool:
    if limit.from_ph is not None and (bed.soil_ph is None or bed.soil_ph < limit.from_ph):
        return False
    return holding.issuperset(limit.when)


def _most(limit: HardLimit, bed: BedFacts) -> Fraction | None:
    """The limit on this bed; None where it is a multiple of an aim that is not known."""
    if not limit.of_aim:
        return limit.value
    aim = bed.usable_n_aim_kg_per_m2
    return None if aim is None else limit.value * aim


def _breach(limit: HardLimit, bed: BedFacts, doses: Sequence[Dose]) -> Iterator[Breach]:
    most = _most(limit, bed)
    amount = max(_amounts(limit, bed, doses), default=NONE)
    if most is not None and amount > most:
        yield Breach(limit=limit, amount_kg_per_m2=amount, most_kg_per_m2=most)


def _amounts(limit: HardLimit, bed: BedFacts, doses: Sequence[Dose]) -> list[Fraction]:
    if limit.per is Per.DOSE:
        return [dose.amounts.get(limit.of, NONE) for dose in doses]
    if limit.per is Per.YEAR:
        return [sum((dose.amounts.get(limit.of, NONE) for dose in doses), NONE)]
    given = sum((dose.amounts.get(Given.P2O5_TOTAL, NONE) for dose in doses), NONE)
    return [bed.p2o5_surplus_kg_per_m2 + given - bed.p2o5_removed_kg_per_m2] if given else []
