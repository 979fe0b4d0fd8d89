"""What is printed on a bag: the grade, the guaranteed analysis, the sources."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.matter import Nutrient, factor


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


class NitrogenForm(StrEnum):
    """The forms of nitrogen a label tells apart; each value is its field in `NitrogenForms`."""

    AMMONIACAL = "ammoniacal"
    NITRATE = "nitrate"
    UREA = "urea"
    OTHER_SOLUBLE = "other_soluble"
    INSOLUBLE = "insoluble"


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


class Kind(StrEnum):
    """What a printed figure says: the grade, a guarantee, a part of one, or something apart."""

    GRADE = "grade"
    GUARANTEE = "guarantee"
    PART = "part of a guarantee"
    TOTAL_PHOSPHATE = "total phosphate"
    APART = "not a guarantee"


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """One figure of a label, as printed: its line, its basis, its value and its last digit.

    `stated` is the formula the figure counts ("P2O5", "P", "CaO"), `assumed` where the words leave
    it open; `percent` [percent]; `last_digit` is one unit of the last printed digit [percent].
    """

    line: int
    text: str
    nutrient: Nutrient
    stated: str
    kind: Kind
    percent: Fraction
    last_digit: Fraction
    form: NitrogenForm | None = None
    assumed: bool = False

    def share_of(self, percent: Fraction) -> Fraction:
        """A percentage on this statement's basis as a share on the nutrient's own [kg/kg]."""
        through = self.nutrient.element
        return percent / 100 * factor(self.stated, self.nutrient.value, through)

    @property
    def share(self) -> Fraction:
        """The stated share on the nutrient's own basis [kg/kg]."""
        return self.share_of(self.percent)

    @property
    def lowest(self) -> Fraction:
        """The least the figure can stand for, if it was rounded to the nearest digit [kg/kg]."""
        return self.share_of(self.percent - self.last_digit / 2)

    @property
    def highest(self) -> Fraction:
        """What the figure stays below, if it was rounded down as a guarantee is [kg/kg]."""
        return self.share_of(self.percent + self.last_digit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label, understood: the text as typed, its analysis and the sources it names.

    `statements` are its figures as printed; `unread` the lines that hold a percentage which is
    not a plant nutrient; `net_weight` the words after "net weight".
    """

    text: str
    analysis: Analysis
    derived_from: tuple[str, ...] = ()
    statements: tuple[Statement, ...] = ()
    unread: tuple[str, ...] = ()
    net_weight: str = ""
