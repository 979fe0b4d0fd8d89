"""From a plan of measures and rounds to what a gardener wants to know of it, exactly."""

from collections.abc import Mapping
from fractions import Fraction
from math import ceil

from halfpail.application.pose_season import contents
from halfpail.application.season_answer import (
    BagAnswer,
    BedAnswer,
    FeedAnswer,
    FitAnswer,
    MixAnswer,
)
from halfpail.domain.bed import Bed, Content, NeedRange, fit
from halfpail.domain.garden import Garden, Tools
from halfpail.domain.mix import Mix, Part, as_bag, guarantee, stir
from halfpail.domain.pail import pailful, pails_for
from halfpail.domain.season import Feeding, SeasonPlan
from halfpail.domain.season_check import SeasonCheck
from halfpail.domain.stock import Bag
from halfpail.reference.defaults import default

TENTH = Fraction(1, 10)
NONE = Fraction(0)

# Our default, not published: nearer to a limit than this no scoop can tell, so it counts as met.
LEEWAY = Fraction(1, 20)

Foods = Mapping[int | str, Bag]

COUNTED = {
    "N": (Content.N_LOW, Content.N_TYPICAL, Content.N_HIGH),
    "P2O5": (Content.P2O5, Content.P2O5, Content.P2O5_TOTAL),
    "K2O": (Content.K2O,) * 3,
    "Ca": (Content.CA,) * 3,
    "Mg": (Content.MG,) * 3,
    "S": (Content.S,) * 3,
}


def foods(garden: Garden, plan: SeasonPlan) -> Foods:
    """All a bed can get: mixes by their number in the plan, as bags of their own; bags by key."""
    known: dict[int | str, Bag] = {bag.key: bag for bag in garden.bags}
    for number, each in enumerate(plan.stirs):
        mix = _round(garden, each.scoops)
        known[number] = as_bag(mix, key=str(number), name=mix_name(number))
    return known


def mix_name(number: int) -> str:
    """What a mix is called; `number` counts from nought as in the plan."""
    return f"Mix {number + 1}"


def tell_mixes(garden: Garden, plan: SeasonPlan) -> tuple[MixAnswer, ...]:
    """Each mix of the plan: a round of it, its grade, how much is made and how much of it used."""
    return tuple(_tell_mix(garden, plan, number) for number in range(len(plan.stirs)))


def _round(garden: Garden, scoops: Mapping[str, int]) -> Mix:
    bags = {bag.key: bag for bag in garden.bags}
    parts = [Part(bag=bags[key], scoops=count) for key, count in scoops.items()]
    return stir(parts, garden.tools.scoop_l)


def _tell_mix(garden: Garden, plan: SeasonPlan, number: int) -> MixAnswer:
    planned = plan.stirs[number]
    mix = _round(garden, planned.scoops)
    one_pail = pailful(mix, garden.tools.pail_l)
    measures = sum(feeding.measures for feeding in plan.feedings if feeding.of == number)
    made_kg = planned.rounds * mix.mass_kg
    return MixAnswer(
        number=number + 1,
        round=mix,
        printed=guarantee(mix.analysis.grade, TENTH),
        rounds=planned.rounds,
        pailful=one_pail,
        pails=pails_for(made_kg, one_pail),
        made_kg=made_kg,
        used_kg=measures * garden.tools.measure * mix.mass_kg / mix.scoops,
    )


def tell_bags(garden: Garden, plan: SeasonPlan, check: SeasonCheck) -> tuple[BagAnswer, ...]:
    """Each bag that is bought, used or in the shed."""
    told = (
        _tell_bag(bag, plan.purchases.get(bag.key, 0), check.used_kg.get(bag.key, NONE))
        for bag in garden.bags
    )
    return tuple(one for one in told if one.bought or one.used_kg or one.bag.shed_kg)


def _tell_bag(bag: Bag, bought: int, used_kg: Fraction) -> BagAnswer:
    price, bag_kg = bag.price or NONE, bag.bag_kg or NONE
    return BagAnswer(
        bag=bag,
        bought=bought,
        cost=bought * price,
        saved=None if bag.list_price is None else bought * (bag.list_price - price),
        used_kg=used_kg,
        left_kg=bag.shed_kg + bought * bag_kg - used_kg,
    )


def tell_beds(garden: Garden, plan: SeasonPlan, check: SeasonCheck) -> tuple[BedAnswer, ...]:
    """What each bed gets and how it fits."""
    known = foods(garden, plan)
    feedings: dict[str, list[FeedAnswer]] = {bed.key: [] for bed in garden.beds}
    for each in plan.feedings:
        feedings[each.plot].append(_feed(each, known[each.of], garden.tools))
    return tuple(
        _tell_bed(
            bed,
            tuple(feedings[bed.key]),
            {
                content: check.received.get((bed.key, content), NONE) / bed.area_m2
                for content in Content
            },
        )
        for bed in garden.beds
    )


def _feed(feeding: Feeding, food: Bag, tools: Tools) -> FeedAnswer:
    scoops = feeding.measures * tools.measure
    mass_kg = scoops * food.scoop_kg(tools.scoop_l)
    return FeedAnswer(
        name=food.name,
        scoops=scoops,
        volume_l=scoops * tools.scoop_l,
        mass_kg=mass_kg,
        quick_n_kg=mass_kg * food.usable_n.quick,
        cost=mass_kg * (food.price_per_kg or NONE),
        scoop_kg=food.scoop_kg(tools.scoop_l),
        holds=contents(food),
    )


def _tell_bed(
    bed: Bed, feeds: tuple[FeedAnswer, ...], rates: Mapping[Content, Fraction]
) -> BedAnswer:
    quick_n = sum((feed.quick_n_kg for feed in feeds), NONE) / bed.area_m2
    return BedAnswer(
        bed=bed,
        feeds=feeds,
        fits=tuple(fit_of(need, rates) for need in bed.needs),
        label_n_kg_per_m2=rates[Content.N_LABEL],
        quick_n_kg_per_m2=quick_n,
        p2o5_given_kg_per_m2=rates[Content.P2O5_TOTAL],
        p2o5_removed_kg_per_m2=bed.facts.p2o5_removed_kg_per_m2 or default("p2o5_removal").value,
        doses=_doses(bed, quick_n) if feeds else 0,
        cost=sum((feed.cost for feed in feeds), NONE),
    )


def fit_of(need: NeedRange, rates_kg_per_m2: Mapping[Content, Fraction]) -> FitAnswer:
    """One nutrient given beside its range, all [kg/m²]; what is within the leeway is right."""
    low, typical, high = (rates_kg_per_m2.get(what, NONE) for what in COUNTED[need.nutrient])
    return FitAnswer(
        need=need,
        low_kg_per_m2=low,
        typical_kg_per_m2=typical,
        high_kg_per_m2=high,
        word=fit(need, low * (1 + LEEWAY), high * (1 - LEEWAY)),
    )


def _doses(bed: Bed, quick_n_kg_per_m2: Fraction) -> int:
    """Doses the amount is split into: the crop's own number, and no more quick N than one bears."""
    return max(bed.doses, ceil(quick_n_kg_per_m2 / default("quick_n_per_dose").value))
