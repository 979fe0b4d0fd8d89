"""Random wishes for recipes, the same for the same seed: bags, targets, limits and edges.

The bags look like those of a shop; all is invented. A third of the targets are the exact
numbers of some mix, with tolerances such that this mix stands exactly on an edge.
"""

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from halfpail.domain.label import Analysis, Label
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Part, stir
from halfpail.domain.recipe import (
    GradeTarget,
    PerNitrogen,
    Prefer,
    RatioTarget,
    RecipeWish,
    Target,
)
from halfpail.domain.stock import Bag, Density, DensityBasis, UsableNitrogen

_BLENDS = ("4-4-4", "3-4-6", "5-3-3", "2-6-4", "4-6-2", "3-3-3", "5-5-5", "2-3-1", "7-1-2", "4-3-6")
_STRAIGHTS = ("12-0-0", "0-0-50", "3-15-0", "0-0-22", "6-1-1", "13-1-0", "0-3-0", "2-0-10")


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How large a problem is: bags on the bench, most scoops and most bags in the mix."""

    bags: int
    scoops: int
    in_mix: int


def random_wish(seed: int, size: Size) -> RecipeWish:
    """One wish."""
    draw = Random(seed)
    bags = tuple(_bag(draw, f"bag {number}") for number in range(size.bags))
    keys = [bag.key for bag in bags]
    apart = frozenset(frozenset(draw.sample(keys, 2)) for _ in range(draw.choice((0, 0, 1, 2))))
    return RecipeWish(
        target=_target(draw, bags),
        bags=bags,
        prefer=draw.choice(list(Prefer)),
        most_scoops=size.scoops,
        most_bags=size.in_mix,
        avoid=frozenset(draw.sample(keys, draw.choice((0, 0, 1)))),
        apart=apart,
        scoop_l=Fraction(draw.randint(200, 1000), 1000),
    )


def _bag(draw: Random, key: str) -> Bag:
    text = draw.choice(_BLENDS if draw.random() < 0.65 else _STRAIGHTS)
    numbers = [max(Fraction(0), Fraction(n) + draw.choice((0, 0, 0, 1))) for n in text.split("-")]
    shares = {n: number / 100 for n, number in zip(PRIMARY, numbers, strict=True) if number}
    label_n = shares.get(Nutrient.N, Fraction(0))
    usable = label_n * draw.choice((Fraction(9, 20), Fraction(1, 2), Fraction(4, 5), Fraction(1)))
    weight = Fraction(draw.randint(60, 110), 100)
    pounds = draw.choice((4, 8, 15, 20, 25, 36))
    return Bag(
        key=key,
        name=key,
        label=Label(text="-".join(map(str, numbers)), analysis=Analysis(shares=shares)),
        density=Density(low=weight, typical=weight, high=weight, basis=DensityBasis.WEIGHED),
        usable_n=UsableNitrogen(
            low=usable, typical=usable, high=usable, quick=Fraction(0), label=label_n
        ),
        bag_kg=Fraction(pounds * 45359237, 10**8),
        price=Fraction(draw.choice((0, *range(299, 3999, 50))), 100),
    )


def _target(draw: Random, bags: tuple[Bag, ...]) -> Target:
    kind = draw.randrange(6)
    if kind < 2:
        return _grade_on_an_edge(draw, bags)
    if kind < 4:
        off = draw.choice((Fraction(1, 4), Fraction(1, 2), Fraction(1)))
        percent = {n.value: Fraction(draw.randint(2, 6)) for n in draw.sample(PRIMARY, 3)}
        if draw.random() < 0.3:
            percent.popitem()
        return GradeTarget(percent=percent, tolerance=dict.fromkeys(percent, off))
    aim = draw.choice((Fraction(1, 2), Fraction(1), Fraction(3, 2), Fraction(2)))
    high = {"K2O": aim * Fraction(13, 10)}
    if kind == 5:
        high["P2O5"] = draw.choice((Fraction(2, 5), Fraction(1), Fraction(3, 2)))
    return RatioTarget(
        low={"K2O": aim * Fraction(7, 10)},
        aim={"K2O": aim},
        high=high,
        per=draw.choice(list(PerNitrogen)),
    )


def _grade_on_an_edge(draw: Random, bags: tuple[Bag, ...]) -> GradeTarget:
    """The numbers of a mix, moved by exactly the tolerance."""
    chosen = draw.sample(bags, 2)
    parts = [Part(bag=bag, scoops=draw.randint(1, 3)) for bag in chosen]
    analysis = stir(parts, Fraction(1)).analysis
    off = draw.choice((Fraction(0), Fraction(1, 10), Fraction(1, 2)))
    percent = {n.value: max(off, 100 * analysis.of(n) + draw.choice((-off, off))) for n in PRIMARY}
    return GradeTarget(percent=percent, tolerance=dict.fromkeys(percent, off))
