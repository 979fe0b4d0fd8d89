"""Bags that are the same stuff under other names, and how far their prices lie apart."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.application.allow_for_label import label_allowance
from halfpail.application.read_label import sources_of
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.price import price_per_kg_of
from halfpail.domain.stock import Bag

# Our default, not published: bags worth the same to a plan within a tenth do the same for it.
SAME_WORTH = Fraction(1, 10)


class Sameness(StrEnum):
    """In what the bags of a group are the same."""

    INGREDIENTS = "made of the same ingredients"
    EFFECT = "one could pass for the other"


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceSpread:
    """The lowest and the highest price among some bags [money/kg]."""

    lowest_price_per_kg: Fraction
    highest_price_per_kg: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SameStuff:
    """Two or more bags that are the same in one way.

    `by_weight` and `by_usable_n` are the spreads of the price of a kilogram of the product and of
    usable nitrogen, None where fewer than two are known. `cheapest` is the bag with the lowest
    price for usable nitrogen, or by weight where they have none.
    """

    bags: tuple[str, ...]
    same_in: Sameness
    by_weight: PriceSpread | None
    by_usable_n: PriceSpread | None
    cheapest: str | None


def group_same_stuff(
    bags: Sequence[Bag], worth_per_kg: Mapping[str, Fraction] | None = None
) -> tuple[SameStuff, ...]:
    """Groups of at least two bags: first the same ingredients, then the same effect.

    Bags have the same effect if every one of a group could pass for every other: N, P2O5, K2O and
    usable N lie no further below the richer one than the law lets a product fall short of its
    label. Where it is known what a kilogram is worth to a plan, bags of one weight must agree in
    that as well; of a larger bag a kilogram is worth less, since a garden wants only so much.
    """
    by_ingredients: dict[frozenset[str], list[Bag]] = {}
    for bag in bags:
        sources = sources_of(bag.label, bag.name)
        if sources.all_known:
            key = frozenset(material.key for material in sources.materials)
            by_ingredients.setdefault(key, []).append(bag)
    by_effect: list[list[Bag]] = []
    for bag in bags:
        for group in by_effect:
            if all(_do_the_same(bag, other, worth_per_kg or {}) for other in group):
                group.append(bag)
                break
        else:
            by_effect.append([bag])
    return (
        *_groups(by_ingredients.values(), Sameness.INGREDIENTS),
        *_groups(by_effect, Sameness.EFFECT),
    )


def _groups(groups: Iterable[list[Bag]], same_in: Sameness) -> Iterable[SameStuff]:
    for bags in groups:
        if len(bags) < 2:
            continue
        weights = {bag.key: bag.price_per_kg for bag in bags}
        nitrogen = {
            bag.key: price_per_kg_of(bag.price_per_kg, bag.usable_n.typical)
            for bag in bags
            if bag.price_per_kg is not None
        }
        by_weight, by_usable_n = _known(weights), _known(nitrogen)
        prices = by_usable_n or by_weight
        yield SameStuff(
            bags=tuple(bag.key for bag in bags),
            same_in=same_in,
            by_weight=_spread(by_weight),
            by_usable_n=_spread(by_usable_n),
            cheapest=min(prices, key=lambda key: prices[key], default=None),
        )


def _known(prices: Mapping[str, Fraction | None]) -> dict[str, Fraction]:
    return {key: price for key, price in prices.items() if price is not None}


def _spread(prices: Mapping[str, Fraction]) -> PriceSpread | None:
    if len(prices) < 2:
        return None
    low, high = min(prices.values()), max(prices.values())
    return PriceSpread(lowest_price_per_kg=low, highest_price_per_kg=high)


def _do_the_same(one: Bag, other: Bag, worth_per_kg: Mapping[str, Fraction]) -> bool:
    figures = [
        (nutrient, one.label.analysis.of(nutrient), other.label.analysis.of(nutrient))
        for nutrient in PRIMARY
    ]
    figures.append((Nutrient.N, one.usable_n.typical, other.usable_n.typical))
    return all(
        max(mine, yours) - min(mine, yours) <= label_allowance(nutrient, max(mine, yours))
        for nutrient, mine, yours in figures
    ) and (
        one.bag_kg != other.bag_kg
        or _worth_the_same(worth_per_kg.get(one.key), worth_per_kg.get(other.key))
    )


def _worth_the_same(one: Fraction | None, other: Fraction | None) -> bool:
    if one is None or other is None:
        return True
    return max(one, other) - min(one, other) <= SAME_WORTH * max(one, other)
