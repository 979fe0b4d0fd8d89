"""How the numbers of a mix are reached, step by step, with pencil and paper."""

from fractions import Fraction

from halfpail.application.chalk_sum import ChalkedSum, chalk_sum, grade_number
from halfpail.application.salt_of_mix import salt_steps
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Mix, Part
from halfpail.domain.pail import Pailful
from halfpail.domain.stock import Bag
from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.showing import (
    show_mass,
    show_percent,
    show_price_per_mass,
    show_volume,
)
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.reference.materials import material
from halfpail.reference.usable_nitrogen import unnamed_shares
from halfpail.sources import Citation
from halfpail.working import Step, Working


def p2o5_words(mix: Mix) -> str:
    """P2O5 that comes with a tenth of usable N, in one unit of weight or the other.

    >>> from halfpail.domain.mix import stir
    >>> p2o5_words(stir([Part(bag=bag("a", 4, 4, 4, usable="0.5"), scoops=1)], Fraction(1)))
    '0.20'
    """
    ratio = mix.p2o5_per_usable_n
    return "no usable N" if ratio is None else decimal(ratio / 10, 2)


def mix_working(mix: Mix, pail: Pailful, system: System, currency: str) -> Working:
    """How the numbers of a mix are reached, step by step."""
    chalked = chalk_sum(mix, system)
    steps = [_scoop_step(part, mix.scoop_l, system) for part in mix.parts]
    steps += [_nutrient_step(mix, chalked, nutrient) for nutrient in PRIMARY]
    steps += [_density_step(mix), *(_bag_usable_step(p.bag) for p in mix.parts), _usable_step(mix)]
    steps += [_p2o5_step(mix), _pail_step(mix, pail, system)]
    return (*steps, *_cost_steps(mix, system, currency), *salt_steps(mix, system))


def _scoop_step(part: Part, scoop_l: Fraction, system: System) -> Step:
    bag = part.bag
    one = show_mass(bag.scoop_kg(scoop_l), system)
    total = show_mass(part.scoops * bag.scoop_kg(scoop_l), system)
    return Step(
        reason=f"{bag.name}: what a scoop of {show_volume(scoop_l, system)} weighs "
        f"({bag.density.basis}).",
        sum=f"{mixed(Fraction(part.scoops))} x {one} = {total}",
    )


def _nutrient_step(mix: Mix, chalked: ChalkedSum, nutrient: Nutrient) -> Step:
    column = chalked.headings.index(nutrient)
    share = grade_number(100 * mix.analysis.of(nutrient))
    plain = grade_number(100 * mix.by_volume.of(nutrient))
    same = "" if plain == share else f"\nif every scoop weighed the same: {plain}%"
    rows = "\n".join(f"{row[0]}: {row[column]}" for row in chalked.rows)
    divisor = chalked.divide[0].removeprefix("divide by ")
    return Step(
        reason=f"{nutrient} of the mix; what is beyond a tenth is dropped, as a guarantee asks.",
        sum=f"{rows}\ntotal {chalked.total[column]} / {divisor} = {share}%{same}",
    )


def _density_step(mix: Mix) -> Step:
    kg, litres = decimal(mix.mass_kg, 3), decimal(mix.volume_l, 3)
    return Step(
        reason="Weight of the round over its volume, the volumes of the bags added.",
        sum=f"{kg} kg / {litres} L = {decimal(mix.density_kg_per_l, 3)} kg per L",
    )


def _bag_usable_step(bag: Bag) -> Step:
    usable = bag.usable_n
    if not usable.label:
        return Step(reason=f"{bag.name}: no nitrogen.")
    low, typical, high = (
        shortest(100 * one / usable.label, 0) for one in (usable.low, usable.typical, usable.high)
    )
    return Step(
        reason=f"{bag.name}: usable this season of its label N.",
        sum=f"{_percent(usable.label)} x {typical}% = {_percent(usable.typical)}"
        f" (from {low}% to {high}%)",
        citation=_usable_citation(bag),
    )


def _usable_citation(bag: Bag) -> Citation | None:
    """Who says so, where one row of a table does."""
    if not bag.materials:
        return unnamed_shares(bag.usable_n.label).citation
    return material(bag.materials[0]).usable_n_citation if len(bag.materials) == 1 else None


def _usable_step(mix: Mix) -> Step:
    usable = mix.usable_n
    low, typical, high = (
        show_percent(100 * one, 2) for one in (usable.low, usable.typical, usable.high)
    )
    return Step(
        reason="Usable N: the soluble part of each bag in full, the rest by what it is made of; "
        "by weight as above.",
        sum=f"{typical} of the mix, between {low} and {high}; label N {_percent(usable.label)}",
    )


def _p2o5_step(mix: Mix) -> Step:
    p2o5, usable = mix.analysis.of(Nutrient.P2O5), mix.usable_n.typical
    if not usable:
        return Step(reason="No usable N in this mix, so no P2O5 comes with it.")
    return Step(
        reason="P2O5 that comes with 0.1 of usable N.",
        sum=f"0.1 x {_percent(p2o5)} / {_percent(usable)} = {p2o5_words(mix)}",
    )


def _pail_step(mix: Mix, pail: Pailful, system: System) -> Step:
    fill = default("pail_fill")
    room = show_volume(pail.pail_l * fill.value, system)
    return Step(
        reason=f"Whole rounds in a pail that is at most {shortest(fill.printed, 0)}% full.",
        sum=f"{room} / {show_volume(mix.volume_l, system)} a round = {pail.rounds} rounds",
        citation=fill.citation,
    )


def _cost_steps(mix: Mix, system: System, currency: str) -> list[Step]:
    if mix.cost_per_kg is None:
        unpriced = ", ".join(p.bag.name for p in mix.parts if p.bag.price_per_kg is None)
        return [Step(reason=f"No price of the mix without a price and a weight for {unpriced}.")]
    terms = " + ".join(
        f"{show_mass(part.scoops * part.bag.scoop_kg(mix.scoop_l), system)} x "
        f"{show_price_per_mass(part.bag.price_per_kg or Fraction(0), currency, system)}"
        for part in mix.parts
    )
    price = show_price_per_mass(mix.cost_per_kg, currency, system)
    return [
        Step(
            reason="Price of the mix by weight.",
            sum=f"({terms}) / {show_mass(mix.mass_kg, system)} = {price}",
        )
    ]


def _percent(share: Fraction) -> str:
    return show_percent(100 * share, 2)
