"""Reference gardens from fixed seeds: made up, the same on every machine, never a test's truth.

Ordinary gardens take the ranges of a bed without a soil test; hard ones have narrow ranges and a
tenth of the beds at zero phosphorus.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from random import Random

from halfpail.domain.bed import Content
from halfpail.domain.season import Ingredient, Limit, Plot, SeasonProblem

POUND_PER_100_SQ_FT = Fraction(45359237, 929030400)
"""One lb per 100 sq ft in kg per m² (exact)."""

SIZES = (
    (8, 6, 2),
    (14, 12, 1),
    (14, 12, 2),
    (14, 12, 3),
    (30, 40, 3),
    (40, 100, 3),
)

# N, P2O5, K2O of the bag [percent], share of N usable this season, weight of a litre [g].
_BLENDS = (
    (3, 4, 4, 45, 680),
    (4, 4, 4, 50, 700),
    (5, 3, 3, 50, 690),
    (2, 6, 4, 45, 720),
    (4, 6, 2, 45, 700),
    (5, 5, 5, 50, 710),
    (8, 3, 5, 60, 740),
    (7, 2, 2, 55, 650),
    (4, 8, 4, 45, 730),
    (3, 2, 5, 45, 690),
    (6, 1, 1, 55, 600),
    (2, 3, 1, 40, 650),
    (10, 5, 5, 80, 850),
    (1, 1, 6, 50, 700),
)
_STRAIGHTS = (
    (12, 0, 0, 70, 700),
    (0, 0, 22, 0, 1150),
    (21, 0, 0, 100, 950),
)
# Usable N least, aim, most in lb per 100 sq ft by how much the crop asks.
_ORDINARY_N = {
    "legume": ("0", "0", "0.05"),
    "light": ("0.05", "0.10", "0.15"),
    "medium": ("0.10", "0.18", "0.25"),
    "heavy": ("0.20", "0.25", "0.35"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Garden:
    """What a reference garden is made of."""

    bags: int
    beds: int
    mixes: int
    seed: int
    hard: bool = False
    straight: bool = True

    @property
    def name(self) -> str:
        """Short name for a table."""
        kind = "hard" if self.hard else "ordinary"
        straight = "straights" if self.straight else "no straights"
        return f"{self.bags}x{self.beds}x{self.mixes} {kind}, {straight}, seed {self.seed}"


def problem_of(garden: Garden) -> SeasonProblem:
    """The season problem of a reference garden."""
    chance = Random(f"{garden.bags} {garden.beds} {garden.seed} {garden.hard}")
    bags = _bags(garden.bags, chance)
    plots = tuple(Plot(key=f"bed {i + 1}") for i in range(garden.beds))
    limits: list[Limit] = []
    zero = set(chance.sample(range(garden.beds), max(1, garden.beds // 10)))
    for i, plot in enumerate(plots):
        area_m2 = Fraction(chance.randint(30, 150), 10)
        limits += (
            _hard_limits(plot.key, area_m2, i in zero, chance)
            if garden.hard
            else _ordinary_limits(plot.key, area_m2, chance)
        )
    if not garden.straight:
        bags = tuple(replace(bag, may_go_straight=False) for bag in bags)
    return SeasonProblem(
        ingredients=bags,
        plots=plots,
        limits=tuple(limits),
        mixes=garden.mixes,
        most_scoops=12,
        most_bags=4,
    )


def _bags(count: int, chance: Random) -> tuple[Ingredient, ...]:
    straights = list(_STRAIGHTS[:2]) if count < 20 else list(_STRAIGHTS)
    kinds = straights + [chance.choice(_BLENDS) for _ in range(count - len(straights))]
    bags = []
    for number, (n, p, k, usable, litre_g) in enumerate(kinds):
        is_straight = number < len(straights)
        weight_kg = Fraction(chance.choice((181, 227, 363, 544, 907, 1134)), 50)
        per_kg = Fraction(chance.randint(60, 320), 100) * (2 if is_straight else 1)
        label_n = Fraction(n, 100)
        in_shed = chance.random() < 0.15
        bags.append(
            Ingredient(
                key=f"bag {number + 1}",
                contents={
                    Content.N_LOW: label_n * (usable - 10 if usable > 10 else 0) / 100,
                    Content.N_TYPICAL: label_n * usable / 100,
                    Content.N_HIGH: label_n * min(usable + 10, 100) / 100,
                    Content.N_LABEL: label_n,
                    Content.P2O5: Fraction(p, 100),
                    Content.K2O: Fraction(k, 100),
                },
                scoop_kg=Fraction(litre_g * chance.randint(95, 105), 100_000) * Fraction(473, 1000),
                bag_kg=weight_kg,
                price=Fraction(round(weight_kg * per_kg * 4), 4),
                shed_kg=Fraction(chance.randint(5, 40), 10) if in_shed else Fraction(0),
                offered=chance.randint(1, 6),
                may_go_straight=is_straight,
            )
        )
    return tuple(bags)


def _ordinary_limits(plot: str, area_m2: Fraction, chance: Random) -> list[Limit]:
    demand = chance.choices(list(_ORDINARY_N), weights=(2, 3, 4, 3))[0]
    per_bed = area_m2 * POUND_PER_100_SQ_FT
    least, aim, most = (Fraction(figure) * per_bed for figure in _ORDINARY_N[demand])
    virgin = chance.random() < 0.25
    removal = Fraction("0.05") * per_bed
    p_aim, p_most = (removal, 4 * removal) if virgin else (Fraction(0), removal)
    k_aim, k_most = Fraction("0.10") * per_bed, Fraction("0.25") * per_bed

    def need(content: Content, kg: Fraction, price: int) -> Limit:
        return Limit(plot=plot, content=content, at_least=kg, price_per_kg=Fraction(price))

    def most_of(content: Content, kg: Fraction, price: int | None = None) -> Limit:
        weight = None if price is None else Fraction(price)
        return Limit(plot=plot, content=content, at_most=kg, price_per_kg=weight)

    limits = [
        need(Content.N_LOW, least, 440),
        need(Content.N_TYPICAL, aim, 132),
        most_of(Content.N_HIGH, most),
        most_of(Content.N_LABEL, Fraction(3, 2) * (aim or most)),
        need(Content.P2O5, p_aim, 26),
        most_of(Content.P2O5, p_most, 44),
        most_of(Content.P2O5, 10 * removal),
        need(Content.K2O, k_aim, 26),
        most_of(Content.K2O, k_most, 26),
        most_of(Content.K2O, 2 * k_most),
    ]
    return [limit for limit in limits if limit.at_least != 0]


def _hard_limits(plot: str, area_m2: Fraction, zero: bool, chance: Random) -> list[Limit]:
    per_bed = area_m2 * POUND_PER_100_SQ_FT
    limits = []
    for content, low, high, price in (
        (Content.N_TYPICAL, 8, 28, 400),
        (Content.P2O5, 6, 24, 200),
        (Content.K2O, 6, 28, 150),
    ):
        need = Fraction(chance.randint(low, high), 100) * per_bed
        if zero and content is Content.P2O5:
            need = Fraction(0)
        else:
            limits.append(
                Limit(plot=plot, content=content, at_least=need, price_per_kg=Fraction(price))
            )
        limits.append(Limit(plot=plot, content=content, at_most=need * Fraction(13, 10)))
    return limits
