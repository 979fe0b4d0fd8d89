"""State rules a label must keep: least claims, tolerances, and the shares that decide its words."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.guarantee import Rule
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.reference.tables import rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Minimum:
    """The least share [kg/kg] of a nutrient that a label may claim in one state."""

    state: str
    nutrient: Nutrient
    share: Fraction
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """How far below its guarantee a secondary or trace nutrient may be found.

    It is `fixed` [kg/kg] and `part` of the guarantee [0-1], together `most` [kg/kg] at the most.
    """

    nutrient: Nutrient
    fixed: Fraction
    part: Fraction
    most: Fraction
    citation: Citation

    def below(self, guarantee: Fraction) -> Fraction:
        """The allowance below a guarantee [kg/kg].

        >>> allowance = allowances()[Nutrient.CA]
        >>> allowance.below(Fraction(8, 100)) * 100
        Fraction(3, 5)
        """
        return min(self.fixed + self.part * guarantee, self.most)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrimaryAllowance:
    """Legal tolerance below a guarantee of N, P2O5 and K2O [kg/kg]: one-sided, not a band."""

    guarantee: Fraction
    below: dict[Nutrient, Fraction]
    citation: Citation


@cache
def minimums() -> tuple[Minimum, ...]:
    """The least claimable shares, state by state in label order."""
    return tuple(
        Minimum(
            state=row.text("state"),
            nutrient=Nutrient(row.text("nutrient")),
            share=row.needed("minimum_percent"),
            citation=row.citation(),
        )
        for row in rows("label_minimums")
    )


@cache
def allowances() -> dict[Nutrient, Allowance]:
    """Tolerances below the guarantee of secondary and trace nutrients (New Hampshire)."""
    found = (
        Allowance(
            nutrient=Nutrient(row.text("nutrient")),
            fixed=row.needed("fixed_percentage_point"),
            part=row.needed("share_percent_of_guarantee"),
            most=row.needed("most_percentage_point"),
            citation=row.citation(),
        )
        for row in rows("label_allowances")
    )
    return {allowance.nutrient: allowance for allowance in found}


@cache
def primary_allowances() -> tuple[PrimaryAllowance, ...]:
    """Remembered tolerances of N, P2O5 and K2O by guarantee; the last row holds above it too."""
    return tuple(
        PrimaryAllowance(
            guarantee=row.needed("guaranteed_percent"),
            below={
                nutrient: row.needed(f"{nutrient.lower()}_percentage_point") for nutrient in PRIMARY
            },
            citation=row.citation(),
        )
        for row in rows("label_allowances_primary")
    )


@cache
def label_rules() -> dict[str, Rule]:
    """The shares that decide what a label may say or must warn of, by key.

    >>> label_rules()["organic_insoluble"].share
    Fraction(3, 5)
    """
    return {
        row.text("key"): Rule(share=row.needed("share_percent"), citation=row.citation())
        for row in rows("label_rules")
    }


@cache
def least_claims() -> dict[Nutrient, Rule]:
    """For each nutrient the lowest of the least shares [kg/kg] that a state lets a label claim.

    >>> least_claims()[Nutrient.MG].share
    Fraction(1, 200)
    """
    falling = sorted(minimums(), key=lambda minimum: -minimum.share)
    return {
        minimum.nutrient: Rule(share=minimum.share, citation=minimum.citation)
        for minimum in falling
    }


def warned_above() -> dict[Nutrient, Rule]:
    """Shares [kg/kg] above which a label may have to carry a warning."""
    rules = label_rules()
    return {Nutrient.B: rules["boron_warning"], Nutrient.MO: rules["molybdenum_warning"]}
