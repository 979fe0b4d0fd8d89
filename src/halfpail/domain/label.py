"""What is printed on a bag: the grade, the guaranteed analysis, the sources."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.matter import Nutrient


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """N-P2O5-K2O as printed [percent]."""

    n: Fraction
    p2o5: Fraction
    k2o: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenForms:
    """The forms beneath total nitrogen [mass share of the product], None where not stated."""

    ammoniacal: Fraction | None = None
    nitrate: Fraction | None = None
    urea: Fraction | None = None
    other_soluble: Fraction | None = None
    insoluble: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Analysis:
    """Guaranteed mass shares [kg/kg] by nutrient, each on its label basis."""

    shares: Mapping[Nutrient, Fraction] = field(hash=False)
    nitrogen: NitrogenForms = NitrogenForms()
    total_p2o5: Fraction | None = None

    def of(self, nutrient: Nutrient) -> Fraction:
        """Mass share of one nutrient [kg/kg]; nought where the label does not claim it."""
        return self.shares.get(nutrient, Fraction(0))

    @property
    def grade(self) -> Grade:
        """The three primary nutrients [percent], not rounded."""
        return Grade(
            n=100 * self.of(Nutrient.N),
            p2o5=100 * self.of(Nutrient.P2O5),
            k2o=100 * self.of(Nutrient.K2O),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label, understood: the text as typed, its analysis and the sources it names."""

    text: str
    analysis: Analysis
    derived_from: tuple[str, ...] = ()
