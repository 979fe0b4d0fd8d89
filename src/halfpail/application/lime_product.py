"""Which liming material is spread, and what a kilogram of it does."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.lime_question import Found, LimeProduct, LimeQuestion
from halfpail.domain.liming_value import effective_value, fineness_factor
from halfpail.domain.material import Material
from halfpail.domain.matter import Nutrient
from halfpail.findings import Fault, Refusal
from halfpail.quantities.rounding import shortest
from halfpail.reference.lime_rates import fineness_citation, fineness_steps
from halfpail.reference.materials import material, materials
from halfpail.sources import Citation, Mark
from halfpail.working import Step

ASH = "wood_ash"
DOLOMITE = "dolomitic_lime"
CALCITE = "calcitic_lime"
_FAMILIES = ("limestone", "caustic_lime")
_TYPED = Citation(mark=Mark.TYPED)


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeValue:
    """A liming material with its calcium carbonate equivalent and effective value [kg/kg]."""

    material: Material
    cce: Fraction
    effective: Fraction
    step: Step

    @property
    def is_ash(self) -> bool:
        """Whether it is wood ash, which has a yearly limit of its own."""
        return self.material.key == ASH

    @property
    def counted(self) -> Fraction:
        """Kilograms a limit counts for each kilogram: by weight or lime value, what is more."""
        return max(Fraction(1), self.cce)


def value_of(question: LimeQuestion) -> LimeValue:
    """The material asked for, else dolomite where magnesium is low and calcite elsewhere.

    Raises:
        Refusal: there is no such material, it does not lime, or its sieves do not add up.
    """
    product = question.product or LimeProduct(
        key=DOLOMITE if question.magnesium is Found.LOW else CALCITE
    )
    found = _limes(product.key)
    cce = found.cce if product.cce is None else product.cce
    citation = found.cce_citation if product.cce is None else _TYPED
    if product.effective is not None:
        return _by_its_bag(found, product, cce)
    if not product.passing:
        step = Step(
            reason=f"{found.name}: what a pound does against pure calcium carbonate; its "
            "fineness is not known and is taken as fine.",
            sum=f"CCE {_percent(cce)} %",
            citation=citation,
        )
        return LimeValue(material=found, cce=cce, effective=cce, step=step)
    fineness = _fineness(product)
    effective = effective_value(cce, fineness)
    return LimeValue(
        material=found,
        cce=cce,
        effective=effective,
        step=Step(
            reason=f"{found.name}: CCE times the share that counts, by {product.system}.",
            sum=f"{_sieves(product)} = {_percent(fineness)} %\n"
            f"{_percent(cce)} % x {_percent(fineness)} % = {_percent(effective)} %",
            citation=fineness_citation(product.system),
        ),
    )


def is_lime(one: Material) -> bool:
    """Whether a material is spread for its lime: of a lime family, with calcium, or wood ash."""
    spread_for_it = one.key == ASH or Nutrient.CA in one.contents
    return one.family in _FAMILIES and one.cce > 0 and spread_for_it


def _by_its_bag(found: Material, product: LimeProduct, cce: Fraction) -> LimeValue:
    assert product.effective is not None
    return LimeValue(
        material=found,
        cce=max(cce, product.effective),
        effective=product.effective,
        step=Step(
            reason=f"{found.name}: the effective value on the bag, fineness counted in.",
            sum=f"{_percent(product.effective)} %",
            citation=_TYPED,
        ),
    )


def _limes(key: str) -> Material:
    able = [one.key for one in materials() if is_lime(one)]
    if key not in able:
        raise Refusal(
            Fault(
                place="material",
                read=key,
                sentence="This is not a liming material known here.",
                remedy=f"Write one of {', '.join(sorted(able))}.",
            )
        )
    return material(key)


def _fineness(product: LimeProduct) -> Fraction:
    try:
        return fineness_factor(dict(product.passing), fineness_steps(product.system))
    except ValueError as why:
        raise Refusal(
            Fault(
                place="fineness",
                read=", ".join(f"{mesh}:{_percent(share)}" for mesh, share in product.passing),
                sentence=f"These sieves do not fit {product.system}: {why}.",
                remedy="Write mesh:percent passing, such as 20:98, 60:75, 100:60.",
            )
        ) from None


def _sieves(product: LimeProduct) -> str:
    passing = {0: Fraction(0), **dict(product.passing)}
    return " + ".join(
        f"({_percent(passing[one.through_mesh])} - {_percent(passing[one.not_through_mesh or 0])})"
        f" x {shortest(one.counted, 2)}"
        for one in fineness_steps(product.system)
    )


def _percent(share: Fraction) -> str:
    return shortest(100 * share, 1)
