"""From a plan of measures and rounds to what a gardener wants to know of it, exactly."""

from collections.abc import Mapping
from dataclasses import dataclass
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
from halfpail.domain.mix import Mix, Part, guarantee, stir
from halfpail.domain.pail import pailful, pails_for
from halfpail.domain.season import Feeding, SeasonPlan
from halfpail.domain.stock import Bag
from halfpail.reference.defaults import default

TENTH = Fraction(1, 10)
NONE = Fraction(0)

_COUNTED = {
    "N": (Content.N_LOW, Content.N_TYPICAL, Content.N_HIGH),
    "P2O5": (Content.P2O5, Content.P2O5, Content.P2O5_TOTAL),
    "K2O": (Content.K2O,) * 3,
    "Ca": (Content.CA,) * 3,
    "Mg": (Content.MG,) * 3,
    "S": (Content.S,) * 3,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuff:
    """What one level scoop of a mix or a bag weighs [kg], holds [kg] and costs."""

    name: str
    scoop_kg: Fraction
    scoop_holds_kg: Mapping[Content, Fraction]
    scoop_cost: Fraction
    scoop_quick_n_kg: Fraction


def bags_by_key(garden: Garden) -> dict[str, Bag]:
    """The bags of a garden by their keys."""
    return {bag.key: bag for bag in garden.bags}


def stirred(garden: Garden, plan: SeasonPlan) -> tuple[Mix, ...]:
    """One round of each mix of the plan."""
    bags = bags_by_key(garden)
    return tuple(
        stir(
            [Part(bag=bags[key], scoops=scoops) for key, scoops in each.scoops.items() if scoops],
            garden.tools.scoop_l,
        )
        for each in plan.stirs
    )


def stuffs(garden: Garden, plan: SeasonPlan) -> dict[int | str, Stuff]:
    """A level scoop of every mix (by number from nought) and of every bag that goes straight."""
    bags = bags_by_key(garden)
    found: dict[int | str, Stuff] = {
        number: _mixed(number, mix) for number, mix in enumerate(stirred(garden, plan))
    }
    straight = {feeding.of for feeding in plan.feedings if isinstance(feeding.of, str)}
    for key in sorted(straight):
        found[key] = _straight(bags[key], garden.tools.scoop_l)
    return found


def mix_name(number: int) -> str:
    """What a mix is called; `number` counts from nought."""
    return f"Mix {number + 1}"


def _straight(bag: Bag, scoop_l: Fraction) -> Stuff:
    scoop_kg = bag.scoop_kg(scoop_l)
    return Stuff(
        name=bag.name,
        scoop_kg=scoop_kg,
        scoop_holds_kg={what: share * scoop_kg for what, share in contents(bag).items()},
        scoop_cost=scoop_kg * (bag.price_per_kg or NONE),
        scoop_quick_n_kg=scoop_kg * bag.usable_n.quick,
    )


def _mixed(number: int, mix: Mix) -> Stuff:
    parts = [(_straight(part.bag, mix.scoop_l), part.scoops / mix.scoops) for part in mix.parts]
    return Stuff(
        name=mix_name(number),
        scoop_kg=mix.mass_kg / mix.scoops,
        scoop_holds_kg={
            what: sum((part.scoop_holds_kg[what] * share for part, share in parts), NONE)
            for what in Content
        },
        scoop_cost=sum((part.scoop_cost * share for part, share in parts), NONE),
        scoop_quick_n_kg=sum((part.scoop_quick_n_kg * share for part, share in parts), NONE),
    )


def given_kg(
    plan: SeasonPlan, found: Mapping[int | str, Stuff], measure: Fraction
) -> dict[str, dict[Content, Fraction]]:
    """What each bed gets of everything that is counted [kg], by bed key."""
    total: dict[str, dict[Content, Fraction]] = {}
    for feeding in plan.feedings:
        bed = total.setdefault(feeding.plot, dict.fromkeys(Content, NONE))
        for what, held in found[feeding.of].scoop_holds_kg.items():
            bed[what] += held * measure * feeding.measures
    return total


def tell_mixes(garden: Garden, plan: SeasonPlan) -> tuple[MixAnswer, ...]:
    """Each mix of the plan: a round of it, its grade, how much is made and how much of it used."""
    return tuple(
        _tell_mix(garden, plan, number, mix) for number, mix in enumerate(stirred(garden, plan))
    )


def _tell_mix(garden: Garden, plan: SeasonPlan, number: int, mix: Mix) -> MixAnswer:
    one_pail = pailful(mix, garden.tools.pail_l)
    measures = sum(feeding.measures for feeding in plan.feedings if feeding.of == number)
    rounds = plan.stirs[number].rounds
    return MixAnswer(
        number=number + 1,
        round=mix,
        printed=guarantee(mix.analysis.grade, TENTH),
        rounds=rounds,
        pailful=one_pail,
        pails=pails_for(rounds * mix.mass_kg, one_pail),
        made_kg=rounds * mix.mass_kg,
        used_kg=measures * garden.tools.measure * mix.mass_kg / mix.scoops,
    )


def tell_bags(garden: Garden, plan: SeasonPlan) -> tuple[BagAnswer, ...]:
    """Each bag that is bought, used or in the shed."""
    used = _used_kg(garden, plan)
    return tuple(
        _tell_bag(bag, plan.purchases.get(bag.key, 0), used.get(bag.key, NONE))
        for bag in garden.bags
        if used.get(bag.key) or plan.purchases.get(bag.key) or bag.shed_kg
    )


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


def _used_kg(garden: Garden, plan: SeasonPlan) -> dict[str, Fraction]:
    """Weight taken out of each bag [kg]: whole rounds of the mixes, and what goes straight."""
    bags, scoop_l = bags_by_key(garden), garden.tools.scoop_l
    used: dict[str, Fraction] = {}
    for each in plan.stirs:
        for key, scoops in each.scoops.items():
            used[key] = used.get(key, NONE) + each.rounds * scoops * bags[key].scoop_kg(scoop_l)
    for feeding in plan.feedings:
        if isinstance(feeding.of, str):
            taken = feeding.measures * garden.tools.measure * bags[feeding.of].scoop_kg(scoop_l)
            used[feeding.of] = used.get(feeding.of, NONE) + taken
    return used


def tell_beds(garden: Garden, plan: SeasonPlan) -> tuple[BedAnswer, ...]:
    """What each bed gets and how it fits."""
    found = stuffs(garden, plan)
    given = given_kg(plan, found, garden.tools.measure)
    by_bed: dict[str, list[Feeding]] = {bed.key: [] for bed in garden.beds}
    for feeding in plan.feedings:
        by_bed[feeding.plot].append(feeding)
    measure = garden.tools.measure
    return tuple(
        _tell_bed(
            bed,
            feeds=tuple(_feed(each, found[each.of], garden.tools) for each in by_bed[bed.key]),
            given=given.get(bed.key, {}),
            quick_n_kg=sum(
                (
                    found[each.of].scoop_quick_n_kg * each.measures * measure
                    for each in by_bed[bed.key]
                ),
                NONE,
            ),
        )
        for bed in garden.beds
    )


def _tell_bed(
    bed: Bed,
    feeds: tuple[FeedAnswer, ...],
    given: Mapping[Content, Fraction],
    quick_n_kg: Fraction,
) -> BedAnswer:
    rates = {what: kg / bed.area_m2 for what, kg in given.items()}
    quick_n = quick_n_kg / bed.area_m2
    return BedAnswer(
        bed=bed,
        feeds=feeds,
        fits=tuple(fit_of(need, rates) for need in bed.needs),
        label_n_kg_per_m2=rates.get(Content.N_LABEL, NONE),
        quick_n_kg_per_m2=quick_n,
        p2o5_given_kg_per_m2=rates.get(Content.P2O5_TOTAL, NONE),
        p2o5_removed_kg_per_m2=default("p2o5_removal").value,
        doses=_doses(bed, quick_n) if feeds else 0,
        cost=sum((each.cost for each in feeds), NONE),
    )


def _feed(feeding: Feeding, stuff: Stuff, tools: Tools) -> FeedAnswer:
    scoops = feeding.measures * tools.measure
    return FeedAnswer(
        of=feeding.of if isinstance(feeding.of, str) else feeding.of + 1,
        name=stuff.name,
        scoops=scoops,
        volume_l=scoops * tools.scoop_l,
        mass_kg=scoops * stuff.scoop_kg,
        cost=scoops * stuff.scoop_cost,
    )


def fit_of(need: NeedRange, rates_kg_per_m2: Mapping[Content, Fraction]) -> FitAnswer:
    """One nutrient given beside its range, all [kg/m²]."""
    low, typical, high = (rates_kg_per_m2.get(what, NONE) for what in _COUNTED[need.nutrient])
    return FitAnswer(
        need=need,
        low_kg_per_m2=low,
        typical_kg_per_m2=typical,
        high_kg_per_m2=high,
        word=fit(need, low, high),
    )


def _doses(bed: Bed, quick_n_kg_per_m2: Fraction) -> int:
    """Doses the amount is split into: the crop's own number, and no more quick N than one bears."""
    return max(bed.doses, ceil(quick_n_kg_per_m2 / default("quick_n_per_dose").value))
