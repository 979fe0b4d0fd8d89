"""What lime in the pail does, told wherever a mix holds some."""

from fractions import Fraction

from halfpail.application.lime_product import is_lime
from halfpail.domain.mix import Mix, part_mass_kg
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_rate
from halfpail.quantities.units import System
from halfpail.reference.cautions import caution
from halfpail.reference.defaults import default
from halfpail.reference.materials import material


def lime_share(mix: Mix) -> Fraction:
    """Lime and ash by weight of a mix [0-1], as far as whole bags of it went in."""
    masses = (part_mass_kg(one, mix.scoop_l) for one in mix.parts if _is_lime_bag(one.bag))
    return sum(masses, Fraction(0)) / mix.mass_kg


def lime_in_mix_notices(mix: Mix, system: System) -> tuple[Notice, ...]:
    """One sentence with the numbers where there is lime in a mix; else nothing."""
    share = lime_share(mix)
    if not share or share == 1:
        return ()
    rate = default("pail_mix_rate").value
    percent = shortest(100 * share, 1)
    sentence = (
        f"Lime is {percent} % of this mix, so every number of the grade is {percent} % lower than "
        f"without it. Spread at {show_rate(rate, system)} it brings "
        f"{show_rate(rate * share, system)} of lime, which changes no pH to speak of: lime for the "
        "pH goes on by itself, by a soil test."
    )
    return (
        Notice(
            severity=Severity.NOTE,
            sentence=sentence,
            citation=caution("limestone_in_pail").citation,
        ),
    )


def _is_lime_bag(bag: Bag) -> bool:
    return bool(bag.materials) and all(is_lime(material(key)) for key in bag.materials)
