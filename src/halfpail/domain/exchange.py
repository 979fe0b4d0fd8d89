"""What a soil holds by exchange: its CEC and base saturation, worked from a report."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.lime_method import Buffer
from halfpail.domain.soil_test import Element, SoilTest
from halfpail.sources import Citation

NONE = Fraction(0)
BASES = (Element.CA, Element.MG, Element.K, Element.NA)


@dataclass(frozen=True, slots=True, kw_only=True)
class ExchangeMethod:
    """How a laboratory works a CEC: equivalent weights [mg/kg], and acidity by one buffer.

    Acidity is `acidity_times` x (`neutral_ph` - buffer pH) [meq per 100 g]; each such formula
    belongs to its own buffers.
    """

    key: str
    name: str
    buffers: tuple[Buffer, ...]
    acidity_times: Fraction
    neutral_ph: Fraction
    equivalent_mg_per_kg: Mapping[Element, Fraction] = field(hash=False)
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchange:
    """Bases and acidity of a soil, and their sum, the CEC [all meq per 100 g]."""

    bases: Mapping[Element, Fraction] = field(hash=False)
    acidity: Fraction
    method: ExchangeMethod

    @property
    def cec(self) -> Fraction:
        """Cation exchange capacity by summation [meq per 100 g]."""
        return sum(self.bases.values(), self.acidity)

    @property
    def base_saturation_share(self) -> Fraction:
        """The bases' share of the CEC [0-1]."""
        return sum(self.bases.values(), NONE) / self.cec


def acidity(method: ExchangeMethod, buffer_ph: Fraction) -> Fraction:
    """Exchangeable acidity [meq per 100 g] from a buffer pH, never below nought.

    >>> from halfpail.sources import Mark
    >>> method = ExchangeMethod(key="one", name="One", buffers=(Buffer.ADAMS_EVANS,),
    ...                         acidity_times=Fraction(8), neutral_ph=Fraction(8),
    ...                         equivalent_mg_per_kg={}, citation=Citation(mark=Mark.PROPOSAL))
    >>> float(acidity(method, Fraction("7.7")))
    2.4
    """
    return max(NONE, method.acidity_times * (method.neutral_ph - buffer_ph))


def exchange(test: SoilTest, method: ExchangeMethod) -> Exchange | None:
    """CEC and base saturation of a report [meq per 100 g]; None where something is missing.

    Calcium, magnesium, potassium and the method's own buffer are needed; sodium counts where it
    was tested.

    >>> from halfpail.sources import Mark
    >>> method = ExchangeMethod(key="one", name="One", buffers=(), acidity_times=Fraction(8),
    ...                         neutral_ph=Fraction(8), equivalent_mg_per_kg={},
    ...                         citation=Citation(mark=Mark.PROPOSAL))
    >>> exchange(SoilTest(ph=Fraction(6)), method) is None
    True
    """
    tested = {element: test.figure(element) for element in BASES}
    missing = any(tested[element] is None for element in (Element.CA, Element.MG, Element.K))
    if missing or test.buffer is None or test.buffer.buffer not in method.buffers:
        return None
    return Exchange(
        bases={
            element: figure.value / method.equivalent_mg_per_kg[element]
            for element, figure in tested.items()
            if figure is not None
        },
        acidity=acidity(method, test.buffer.value),
        method=method,
    )
