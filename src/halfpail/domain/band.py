"""How far each number of a mix may be off: scoops, the weight of a scoop, and the label itself.

Every part may weigh anything between its low and high figure, each on its own, so the worst
case of a number is a corner of that box. Legal allowances are one-sided: a product may hold
that much less than its label, and the label promises no more, so the label is the high side.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, Part
from halfpail.domain.stock import UsableNitrogen

Allowance = Callable[[Nutrient, Fraction], Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A number with the least and the most it may be."""

    low: Fraction
    value: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class MixBands:
    """The bands of a mix: shares [kg/kg], weight of a round [kg], money and P2O5 per usable N."""

    mass_kg: Band
    shares: Mapping[Nutrient, Band] = field(hash=False)
    usable_n: Band
    cost_per_kg: Band | None
    p2o5_per_usable_n: Band | None


def no_allowance(nutrient: Nutrient, share: Fraction) -> Fraction:
    """The label taken at its word: no allowance below it [kg/kg].

    >>> no_allowance(Nutrient.N, Fraction(4, 100))
    Fraction(0, 1)
    """
    return Fraction(0)


def mix_bands(mix: Mix, scoop_error: Fraction, allowance: Allowance = no_allowance) -> MixBands:
    """The exact worst and best case of each number of a mix.

    Args:
        mix: the round as meant.
        scoop_error: how much more or less than level a scoop may hold [share of it, 0-1].
        allowance: what a product may hold below its label [kg/kg], by nutrient and label share.

    Raises:
        ValueError: where the scoop error is not at least 0 and below 1.

    >>> from halfpail.domain.mix import stir
    >>> parts = [Part(bag=bag("a", 10), scoops=1), Part(bag=bag("b", 0), scoops=1)]
    >>> nitrogen = mix_bands(stir(parts, Fraction(1)), Fraction(1, 10)).shares[Nutrient.N]
    >>> float(nitrogen.low), float(nitrogen.high)
    (0.045, 0.055)
    """
    if not 0 <= scoop_error < 1:
        raise ValueError("a scoop error is a share of the scoop, at least 0 and below 1")
    box = _box(mix, scoop_error)
    one = [Fraction(1)] * len(mix.parts)
    shares = {
        nutrient: _share_band(mix, box, nutrient, allowance) for nutrient in mix.analysis.shares
    }
    return MixBands(
        mass_kg=Band(
            low=sum((low for low, _ in box), Fraction(0)),
            value=mix.mass_kg,
            high=sum((high for _, high in box), Fraction(0)),
        ),
        shares=shares,
        usable_n=Band(
            low=_extreme(box, _usable(mix, _low), one, most=False),
            value=mix.usable_n.typical,
            high=_extreme(box, _usable(mix, _high), one, most=True),
        ),
        cost_per_kg=_cost_band(mix, box),
        p2o5_per_usable_n=_p2o5_band(mix, box, allowance),
    )


Box = Sequence[tuple[Fraction, Fraction]]


def _box(mix: Mix, scoop_error: Fraction) -> Box:
    return [_part_range(part, mix.scoop_l, scoop_error) for part in mix.parts]


def _part_range(part: Part, scoop_l: Fraction, scoop_error: Fraction) -> tuple[Fraction, Fraction]:
    volume = part.scoops * scoop_l
    density = part.bag.density
    return volume * (1 - scoop_error) * density.low, volume * (1 + scoop_error) * density.high


def _share_band(mix: Mix, box: Box, nutrient: Nutrient, allowance: Allowance) -> Band:
    one = [Fraction(1)] * len(mix.parts)
    high = [part.bag.label.analysis.of(nutrient) for part in mix.parts]
    low = [max(share - allowance(nutrient, share), Fraction(0)) for share in high]
    return Band(
        low=_extreme(box, low, one, most=False),
        value=mix.analysis.of(nutrient),
        high=_extreme(box, high, one, most=True),
    )


def _cost_band(mix: Mix, box: Box) -> Band | None:
    if mix.cost_per_kg is None:
        return None
    one = [Fraction(1)] * len(mix.parts)
    prices = [part.bag.price_per_kg or Fraction(0) for part in mix.parts]
    return Band(
        low=_extreme(box, prices, one, most=False),
        value=mix.cost_per_kg,
        high=_extreme(box, prices, one, most=True),
    )


def _p2o5_band(mix: Mix, box: Box, allowance: Allowance) -> Band | None:
    value = mix.p2o5_per_usable_n
    scarce, plenty = _usable(mix, _low), _usable(mix, _high)
    if value is None or not any(scarce):
        return None
    label = [part.bag.label.analysis.of(Nutrient.P2O5) for part in mix.parts]
    short = [max(share - allowance(Nutrient.P2O5, share), Fraction(0)) for share in label]
    return Band(
        low=_extreme(box, short, plenty, most=False),
        value=value,
        high=_extreme(box, label, scarce, most=True),
    )


def _usable(mix: Mix, figure: Callable[[UsableNitrogen], Fraction]) -> list[Fraction]:
    return [figure(part.bag.usable_n) for part in mix.parts]


def _low(usable: UsableNitrogen) -> Fraction:
    return usable.low


def _high(usable: UsableNitrogen) -> Fraction:
    return usable.high


def _extreme(
    box: Box, above: Sequence[Fraction], below: Sequence[Fraction], most: bool
) -> Fraction:
    """Greatest or least of sum(m a) / sum(m b) over all masses m of the box, exactly.

    At the answer r each mass sits at the end of its range that the sign of a - r b asks for
    (Dinkelbach's rule for a ratio); starting from any r, a few rounds reach it.
    """
    ratio: Fraction | None = None
    while True:
        masses = [
            (low + high) / 2 if ratio is None else high if (a - ratio * b > 0) == most else low
            for (low, high), a, b in zip(box, above, below, strict=True)
        ]
        better = _weighed(masses, above) / _weighed(masses, below)
        if better == ratio:
            return better
        ratio = better


def _weighed(masses: Sequence[Fraction], values: Sequence[Fraction]) -> Fraction:
    return sum((mass * value for mass, value in zip(masses, values, strict=True)), Fraction(0))
