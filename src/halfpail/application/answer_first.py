"""The first answer: from a few bags and the ground to feed, all the numbers, nothing set up.

The mix is fed in two ways: alone, up to the nitrogen aim, and beside a straight nitrogen source,
with no more of it than the phosphorus allows. The first is the answer where it brings enough
nitrogen and no more phosphorus than a bed loses; else the second is.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial
from math import ceil

from halfpail.application.feed_ground import Limits, Portion, Way, feed
from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry
from halfpail.application.hold_way_to_gate import hold_way_to_gate, way_notices
from halfpail.application.keep_apart import cautions_of
from halfpail.application.pass_gate import bag_dose, mix_dose
from halfpail.application.sum_mix import MixQuestion, MixSum, sum_mix
from halfpail.domain.bed import Fit, Ground, needs_without_test
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, Part, as_bag
from halfpail.domain.pail import pails_for
from halfpail.domain.price import PriceView, highest_price, price_view
from halfpail.domain.safe_gate import Dose
from halfpail.domain.stock import Bag
from halfpail.findings import Notice
from halfpail.quantities.units import System
from halfpail.reference.cautions import caution
from halfpail.reference.crops import crop_group
from halfpail.reference.defaults import Default, default

MIX_KEY = "the mix"
CROPS = "medium"
FED = Ground()
STRAIGHT = BagEntry(name="Blood meal", place="", label="12-0-0\nDerived from: blood meal")
ASSUMED = (
    "plant_space",
    "row_space",
    "pail_fill",
    "scoop_error",
    "p2o5_removal",
    "p2o5_surplus_stop",
    "quick_n_per_dose",
    "label_n_times_usable_aim",
    "price_ceiling",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstQuestion:
    """Bags, those with scoops stirred together, the ground [m²], and the bench.

    `wish` is a wished grade [percent]; `ceiling_per_kg` the highest price worth paying.
    """

    parts: tuple[Part, ...]
    area_m2: Fraction
    scoop_l: Fraction
    pail_l: Fraction
    ground: Ground = FED
    others: tuple[Bag, ...] = ()
    wish: Mapping[Nutrient, Fraction] | None = field(default=None, hash=False)
    ceiling_per_kg: Fraction | None = None
    system: System = System.US
    currency: str = "USD"


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What the year takes of one bag [kg], and the whole bags that is, None without a weight."""

    bag: Bag
    needed_kg: Fraction
    bags: int | None
    money: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Year:
    """One way to feed the whole ground for a year.

    `mix_kg` is what of the mix that takes [kg]; `pails` how often it is stirred, None where no
    round fits the pail; `money` pays the whole bags but those of `unpriced`.
    """

    way: Way
    mix_kg: Fraction
    pails: int | None
    purchases: tuple[Purchase, ...]
    money: Fraction
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BagPrice:
    """One bag beside the highest price worth paying [money for the bag].

    `cheapest_n` says that there are others, and the usable nitrogen of none is as cheap.
    """

    bag: Bag
    view: PriceView
    highest: Fraction
    cheapest_n: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstAnswer:
    """All that `halfpail quick` says; `beside` is None where the mix alone will do."""

    sum: MixSum
    limits: Limits
    alone: Year
    beside: Year | None
    prices: tuple[BagPrice, ...]
    plant_area_m2: Fraction
    row_space_m: Fraction
    assumed: tuple[Default, ...]
    notices: tuple[Notice, ...]

    @property
    def advised(self) -> Year:
        """The way that does not build phosphorus, where there are two."""
        return self.beside or self.alone


def answer_first(question: FirstQuestion) -> FirstAnswer:
    """The grade, the price, the pounds, pails and cups, and the phosphorus, of a first look.

    Raises:
        ValueError: without a single scoop.
    """
    summed = sum_mix(
        MixQuestion(
            parts=question.parts,
            scoop_l=question.scoop_l,
            pail_l=question.pail_l,
            others=question.others,
            wish=question.wish,
            system=question.system,
            currency=question.currency,
        )
    )
    limits = limits_without_test(question.ground)
    food = as_bag(summed.mix, MIX_KEY, MIX_KEY)
    dose_of = partial(_dose, summed.mix)
    way, stops = hold_way_to_gate(feed([food], limits, spare_phosphorus=False), limits, dose_of)
    notices = list(way_notices("The mix alone", stops, question.system))
    alone = _year(way, summed, question)
    beside = None
    if alone.way.p2o5_fit is Fit.TOO_MUCH or alone.way.n_fit is Fit.SHORT:
        foods = [food, straight_nitrogen(_bags(question))]
        way, stops = hold_way_to_gate(feed(foods, limits, spare_phosphorus=True), limits, dose_of)
        notices += way_notices("The mix beside straight nitrogen", stops, question.system)
        beside = _year(way, summed, question)
    return FirstAnswer(
        sum=summed,
        limits=limits,
        alone=alone,
        beside=beside,
        prices=_prices(question),
        plant_area_m2=default("plant_space").value,
        row_space_m=default("row_space").value,
        assumed=tuple(default(key) for key in ASSUMED),
        notices=(*notices, *_findings(alone), *summed.notices, *_cautions(beside)),
    )


def limits_without_test(ground: Ground) -> Limits:
    """The ranges and gates of ground under crops of a medium need, without a soil test."""
    n, p2o5, k2o = needs_without_test(crop_group(CROPS).ranges, ground)
    loss = default("p2o5_removal")
    return Limits(
        n=n,
        p2o5=p2o5,
        k2o=k2o,
        label_n_most=default("label_n_times_usable_aim").value * n.aim,
        quick_n_per_dose=default("quick_n_per_dose").value,
        p2o5_loss=(loss.low or loss.value, loss.value, loss.high or loss.value),
        p2o5_stop=default("p2o5_surplus_stop").value,
    )


def straight_nitrogen(bags: Sequence[Bag]) -> Bag:
    """The cheapest bag at hand that holds nitrogen and neither P2O5 nor K2O; else blood meal."""
    straight = [
        bag
        for bag in bags
        if bag.usable_n.typical
        and not bag.label.analysis.of(Nutrient.P2O5)
        and not bag.label.analysis.of(Nutrient.K2O)
    ]
    if not straight:
        return fill_bag(STRAIGHT, Fraction(1))[0]
    return min(straight, key=_price_of_nitrogen)


def _price_of_nitrogen(bag: Bag) -> tuple[bool, Fraction, str]:
    """Bags of a known price first, the cheapest usable nitrogen first among them."""
    price = bag.price_per_kg
    return price is None, (price or Fraction(0)) / bag.usable_n.typical, bag.key


def _bags(question: FirstQuestion) -> tuple[Bag, ...]:
    return (*question.others, *(part.bag for part in question.parts))


def _year(way: Way, summed: MixSum, question: FirstQuestion) -> Year:
    needed = {bag.key: Fraction(0) for bag in _bags(question)}
    bags = {bag.key: bag for bag in _bags(question)}
    mix_kg = Fraction(0)
    for portion in way.portions:
        kg = portion.rate_kg_per_m2 * question.area_m2
        if portion.food.key == MIX_KEY:
            mix_kg = kg
            for part_kg, part in _shares(kg, summed.mix):
                needed[part.bag.key] += part_kg
        else:
            bags[portion.food.key] = portion.food
            needed[portion.food.key] = needed.get(portion.food.key, Fraction(0)) + kg
    purchases = tuple(_purchase(bags[key], kg) for key, kg in needed.items())
    return Year(
        way=way,
        mix_kg=mix_kg,
        pails=pails_for(mix_kg, summed.pail),
        purchases=purchases,
        money=sum((one.money or Fraction(0) for one in purchases), Fraction(0)),
        unpriced=tuple(one.bag.name for one in purchases if one.needed_kg and one.money is None),
    )


def _shares(mix_kg: Fraction, mix: Mix) -> list[tuple[Fraction, Part]]:
    """What of each part a weight of the mix holds [kg]."""
    return [
        (mix_kg * part.scoops * part.bag.scoop_kg(mix.scoop_l) / mix.mass_kg, part)
        for part in mix.parts
    ]


def _purchase(bag: Bag, needed_kg: Fraction) -> Purchase:
    count = None
    if not needed_kg:
        count = 0
    elif bag.bag_kg:
        count = ceil(needed_kg / bag.bag_kg)
    money = None if count is None or bag.price is None else count * bag.price
    return Purchase(bag=bag, needed_kg=needed_kg, bags=count, money=money)


def _prices(question: FirstQuestion) -> tuple[BagPrice, ...]:
    ceiling = question.ceiling_per_kg or default("price_ceiling").value
    viewed = [
        (bag, view) for bag in _bags(question) if (view := price_view(bag, ceiling)) is not None
    ]
    nitrogen = [view.per_kg_usable_n for _, view in viewed if view.per_kg_usable_n is not None]
    return tuple(
        BagPrice(
            bag=bag,
            view=view,
            highest=highest_price(bag.bag_kg, ceiling),
            cheapest_n=_is_cheapest(view.per_kg_usable_n, nitrogen),
        )
        for bag, view in viewed
        if bag.bag_kg
    )


def _is_cheapest(price: Fraction | None, prices: Sequence[Fraction]) -> bool:
    return price is not None and [one for one in prices if one <= price] == [price] != list(prices)


def _dose(mix: Mix, portion: Portion) -> Dose:
    """A year of a portion as the gate counts it: a mix bag by bag."""
    if portion.food.key == MIX_KEY:
        return mix_dose(mix, portion.rate_kg_per_m2)
    return bag_dose(portion.food, portion.rate_kg_per_m2)


def _findings(alone: Year) -> list[Notice]:
    found = [caution("soil_test")]
    if alone.way.p2o5_surplus > 0:
        found.append(caution("phosphorus_build"))
    return found


def _cautions(beside: Year | None) -> tuple[Notice, ...]:
    """Cautions of the straight source, which the mix may not hold."""
    portions: Sequence[Portion] = beside.way.portions if beside else ()
    return cautions_of(portion.food for portion in portions if portion.food.key != MIX_KEY)
