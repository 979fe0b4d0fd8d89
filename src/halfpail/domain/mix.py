"""Scoops of several bags stirred together: weight, volume, analysis, usable nitrogen and cost."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import lcm

from halfpail.domain.label import Analysis, Grade, Label
from halfpail.domain.matter import Nutrient
from halfpail.domain.stock import Bag, Density, DensityBasis, UsableNitrogen
from halfpail.quantities.rounding import down_to, shortest


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """So many level scoops of one bag."""

    bag: Bag
    scoops: Fraction | int


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """One round of a recipe, stirred.

    `analysis` and `usable_n` are by weight [kg/kg]; `by_volume` is what the analysis would be
    if a scoop of every bag weighed the same. `cost` is in the garden's currency, None where a
    bag has no price.
    """

    parts: tuple[Part, ...]
    scoop_l: Fraction
    mass_kg: Fraction
    volume_l: Fraction
    analysis: Analysis
    by_volume: Analysis
    usable_n: UsableNitrogen
    cost: Fraction | None

    @property
    def density_kg_per_l(self) -> Fraction:
        """Bulk density of the mix [kg/L], if the volumes of the bags simply add."""
        return self.mass_kg / self.volume_l

    @property
    def cost_per_kg(self) -> Fraction | None:
        """Price of the mix [money per kg]; None where a bag has no price."""
        return None if self.cost is None else self.cost / self.mass_kg

    @property
    def scoops(self) -> Fraction:
        """Level scoops in one round [1]."""
        return sum((Fraction(part.scoops) for part in self.parts), Fraction(0))

    @property
    def p2o5_per_usable_n(self) -> Fraction | None:
        """P2O5 that comes with each kilogram of usable nitrogen [kg/kg]; None without nitrogen."""
        if not self.usable_n.typical:
            return None
        return self.analysis.of(Nutrient.P2O5) / self.usable_n.typical


def part_mass_kg(part: Part, scoop_l: Fraction) -> Fraction:
    """Weight of one part [kg], from the typical bulk density of its bag.

    >>> part_mass_kg(Part(bag=bag("meal", density="0.5"), scoops=3), Fraction(2))
    Fraction(3, 1)
    """
    return part.scoops * part.bag.scoop_kg(scoop_l)


def stir(parts: Iterable[Part], scoop_l: Fraction) -> Mix:
    """What one round of these parts is, with a level scoop of `scoop_l` [L].

    Volumes are taken to add. Parts of the same bag are counted together; parts of no scoops
    fall out.

    Raises:
        ValueError: without a single scoop, with a negative number of scoops, or an empty scoop.

    >>> parts = [Part(bag=bag("a", 3, 4, 4), scoops=1), Part(bag=bag("b", 5, 2, 0), scoops=1)]
    >>> stir(parts, Fraction(1)).analysis.grade
    Grade(n=Fraction(4, 1), p2o5=Fraction(3, 1), k2o=Fraction(2, 1))
    """
    together = _together(parts)
    if not together or scoop_l <= 0:
        raise ValueError("a mix needs at least one scoop, and the scoop must hold something")
    masses = [part_mass_kg(part, scoop_l) for part in together]
    volumes = [part.scoops * scoop_l for part in together]
    bags = [part.bag for part in together]
    prices = [bag.price_per_kg for bag in bags]
    return Mix(
        parts=together,
        scoop_l=scoop_l,
        mass_kg=sum(masses, Fraction(0)),
        volume_l=sum(volumes, Fraction(0)),
        analysis=_blend_analysis(bags, masses),
        by_volume=_blend_analysis(bags, volumes),
        usable_n=_blend_usable(bags, masses),
        cost=_cost(prices, masses),
    )


def one_scoop_more(mix: Mix, bag: Bag) -> Mix:
    """The same round with one more scoop of a bag, in the mix or not.

    >>> mix = stir([Part(bag=bag("a", 4), scoops=1)], Fraction(1))
    >>> one_scoop_more(mix, bag("b", 2)).analysis.grade.n
    Fraction(3, 1)
    """
    return stir((*mix.parts, Part(bag=bag, scoops=1)), mix.scoop_l)


def one_scoop_less(mix: Mix, bag: Bag) -> Mix | None:
    """The same round with one scoop of a bag taken out; None where that leaves no such mix.

    >>> mix = stir([Part(bag=bag("a", 4), scoops=1)], Fraction(1))
    >>> one_scoop_less(mix, bag("a", 4)) is None
    True
    """
    parts = tuple(
        replace(part, scoops=part.scoops - 1) if part.bag.key == bag.key else part
        for part in mix.parts
    )
    left = [part.scoops for part in parts]
    if parts == mix.parts or min(left) < 0 or not any(left):
        return None
    return stir(parts, mix.scoop_l)


def guarantee(grade: Grade, step: Fraction = Fraction(1)) -> Grade:
    """A grade as it may be printed: each number rounded down to a multiple of `step` [percent].

    A guarantee is a least, so it is never rounded up (labels of New York, Maryland and Kansas
    guarantee minimum percentages).

    >>> guarantee(Grade(n=Fraction("5.25"), p2o5=Fraction("8.28"), k2o=Fraction(10)))
    Grade(n=Fraction(5, 1), p2o5=Fraction(8, 1), k2o=Fraction(10, 1))
    """
    n, p2o5, k2o = (down_to(number, step) for number in (grade.n, grade.p2o5, grade.k2o))
    return Grade(n=n, p2o5=p2o5, k2o=k2o)


def as_bag(mix: Mix, key: str, name: str) -> Bag:
    """The mix as a bag of its own, so that an old pail can be an ingredient of a new mix.

    >>> mix = stir([Part(bag=bag("a", 4), scoops=1), Part(bag=bag("b", 1), scoops=1)], Fraction(1))
    >>> as_bag(mix, "pail", "last year's pail").label.text
    '2.5-0-0'
    """
    grade = guarantee(mix.analysis.grade, Fraction(1, 10))
    text = "-".join(shortest(number, 1) for number in (grade.n, grade.p2o5, grade.k2o))
    sources = tuple(dict.fromkeys(word for p in mix.parts for word in p.bag.label.derived_from))
    volume = mix.volume_l
    return Bag(
        key=key,
        name=name,
        label=Label(text=text, analysis=mix.analysis, derived_from=sources),
        density=Density(
            low=_volume_sum(mix, lambda bag: bag.density.low) / volume,
            typical=mix.density_kg_per_l,
            high=_volume_sum(mix, lambda bag: bag.density.high) / volume,
            basis=DensityBasis.INGREDIENTS,
        ),
        usable_n=mix.usable_n,
        materials=tuple(dict.fromkeys(key for p in mix.parts for key in p.bag.materials)),
        bag_kg=mix.mass_kg,
        price=mix.cost,
    )


def _together(parts: Iterable[Part]) -> tuple[Part, ...]:
    by_key: dict[str, Part] = {}
    for part in parts:
        if part.scoops < 0:
            raise ValueError(f"{part.bag.name}: fewer than no scoops")
        before = by_key.get(part.bag.key)
        scoops = part.scoops + before.scoops if before else part.scoops
        by_key[part.bag.key] = replace(part, scoops=scoops)
    return tuple(part for part in by_key.values() if part.scoops)


def _blend_analysis(bags: list[Bag], amounts: list[Fraction]) -> Analysis:
    analyses = [bag.label.analysis for bag in bags]
    weights = _whole(amounts)
    claimed = [n for n in Nutrient if any(n in analysis.shares for analysis in analyses)]
    total = None
    if any(analysis.total_p2o5 is not None for analysis in analyses):
        total = _mean([_total_p2o5(analysis) for analysis in analyses], weights)
    return Analysis(
        shares={n: _mean([analysis.of(n) for analysis in analyses], weights) for n in claimed},
        total_p2o5=total,
    )


def _total_p2o5(analysis: Analysis) -> Fraction:
    available = analysis.of(Nutrient.P2O5)
    return available if analysis.total_p2o5 is None else max(analysis.total_p2o5, available)


def _blend_usable(bags: list[Bag], masses: list[Fraction]) -> UsableNitrogen:
    usable, weights = [bag.usable_n for bag in bags], _whole(masses)
    return UsableNitrogen(
        low=_mean([one.low for one in usable], weights),
        typical=_mean([one.typical for one in usable], weights),
        high=_mean([one.high for one in usable], weights),
        quick=_mean([one.quick for one in usable], weights),
        label=_mean([one.label for one in usable], weights),
    )


def _whole(amounts: list[Fraction]) -> list[int]:
    """Whole numbers that stand to each other as the amounts do."""
    below = lcm(*(amount.denominator for amount in amounts))
    return [amount.numerator * (below // amount.denominator) for amount in amounts]


def _mean(values: list[Fraction], weights: list[int]) -> Fraction:
    """The exact mean in whole numbers; a mix page asks for thousands of them at each tap."""
    below = lcm(*(value.denominator for value in values))
    above = sum(
        value.numerator * (below // value.denominator) * weight
        for value, weight in zip(values, weights, strict=True)
    )
    return Fraction(above, below * sum(weights))


def _cost(prices: list[Fraction | None], masses: list[Fraction]) -> Fraction | None:
    known = [price for price in prices if price is not None]
    if len(known) < len(prices):
        return None
    return sum((price * mass for price, mass in zip(known, masses, strict=True)), Fraction(0))


def _volume_sum(mix: Mix, density: Callable[[Bag], Fraction]) -> Fraction:
    return sum((p.scoops * mix.scoop_l * density(p.bag) for p in mix.parts), Fraction(0))
