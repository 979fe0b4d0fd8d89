"""What a bag costs: by weight, by what it supplies, against a ceiling and against list price."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.stock import Bag


class Verdict(StrEnum):
    """A price beside the highest price the gardener will pay for a weight."""

    BELOW = "below your ceiling"
    AT = "at your ceiling"
    ABOVE = "above your ceiling"


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceView:
    """Prices of one bag, money per kilogram.

    `per_kg_of` holds N, P2O5 and K2O where the label claims them; `per_kg_usable_n` is on the
    typical figure, None where there is none. `saved` is list price less price, for the bag, and
    `saved_share` that as a share of the list price [0-1].
    """

    per_kg: Fraction
    per_kg_of: Mapping[Nutrient, Fraction] = field(hash=False)
    per_kg_usable_n: Fraction | None
    verdict: Verdict | None
    saved: Fraction | None
    saved_share: Fraction | None


def price_per_kg_of(price_per_kg: Fraction, share: Fraction) -> Fraction | None:
    """Price of a nutrient that bears the whole price [money per kg]; None where there is none.

    Urea of 46 % N at $412 a ton: $412 / 920 lb, 45 cents a pound of N ("Fertilizer - buy
    the numbers", a research institute, June 2007).

    >>> round(price_per_kg_of(Fraction(412, 2000), Fraction(46, 100)), 4)
    Fraction(2239, 5000)
    """
    return price_per_kg / share if share else None


def judge(price_per_kg: Fraction, ceiling_per_kg: Fraction) -> Verdict:
    """A price beside the ceiling [money per kg, both].

    >>> judge(Fraction(3), Fraction(2)).value
    'above your ceiling'
    """
    if price_per_kg == ceiling_per_kg:
        return Verdict.AT
    return Verdict.BELOW if price_per_kg < ceiling_per_kg else Verdict.ABOVE


def highest_price(bag_kg: Fraction, ceiling_per_kg: Fraction) -> Fraction:
    """The most a bag may cost before it passes the ceiling [money].

    >>> highest_price(Fraction(10), Fraction(2))
    Fraction(20, 1)
    """
    return bag_kg * ceiling_per_kg


def price_view(bag: Bag, ceiling_per_kg: Fraction | None = None) -> PriceView | None:
    """All prices of a bag [money per kg]; None where its price or weight is not known.

    >>> view = price_view(bag("meal", 4, price_per_kg=2), ceiling_per_kg=Fraction(3))
    >>> view.per_kg_of[Nutrient.N], view.verdict.value
    (Fraction(50, 1), 'below your ceiling')
    """
    per_kg = bag.price_per_kg
    if per_kg is None:
        return None
    analysis = bag.label.analysis
    by_nutrient = {n: price_per_kg_of(per_kg, analysis.of(n)) for n in PRIMARY}
    saved = None if bag.list_price is None or bag.price is None else bag.list_price - bag.price
    return PriceView(
        per_kg=per_kg,
        per_kg_of={n: price for n, price in by_nutrient.items() if price is not None},
        per_kg_usable_n=price_per_kg_of(per_kg, bag.usable_n.typical),
        verdict=None if ceiling_per_kg is None else judge(per_kg, ceiling_per_kg),
        saved=saved,
        saved_share=saved / bag.list_price if saved is not None and bag.list_price else None,
    )
