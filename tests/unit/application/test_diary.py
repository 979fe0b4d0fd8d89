"""What was done becomes lines of the diary, and the lines add up as by hand."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from halfpail.application.read_diary import bed_total, in_single_bags, phosphorus_years, read_diary
from halfpail.application.write_diary import BatchDone, FeedingDone, batch_made, bed_fed
from halfpail.domain.bed import Bed, Content, Fit, NeedRange
from halfpail.domain.diary import Bought, Harvested, Noted
from halfpail.domain.garden import Garden, Tools
from halfpail.findings import Refusal
from halfpail.reference.harvests import food_composition
from halfpail.sources import Citation, Mark
from tests.unit.domain.bags import bag

SPRING = date(2027, 4, 10)
SUMMER = date(2027, 7, 2)


def need(nutrient: str, least: str, aim: str, most: str) -> NeedRange:
    return NeedRange(
        nutrient=nutrient,
        least=Fraction(least),
        aim=Fraction(aim),
        most=Fraction(most),
        cap=Fraction(most),
        citation=Citation(mark=Mark.TYPED),
    )


def priced(name: str, n: int, p2o5: int, k2o: int, price: int, list_price: int | None):
    """A bag of 10 kg whose litre weighs a kilogram."""
    plain = bag(name, n, p2o5, k2o)
    return replace(
        plain,
        bag_kg=Fraction(10),
        price=Fraction(price),
        list_price=None if list_price is None else Fraction(list_price),
    )


BED = Bed(
    key="East",
    name="East",
    area_m2=Fraction(10),
    crop="tomato",
    needs=(need("N", "0.005", "0.010", "0.015"), need("P2O5", "0", "0", "0.003")),
)
GARDEN = Garden(
    name="Ours",
    bags=(
        priced("meal", 4, 4, 4, 10, 30),
        priced("blood", 12, 0, 0, 40, 60),
        priced("potash", 0, 0, 50, 20, None),
    ),
    beds=(BED, Bed(key="West", name="West", area_m2=Fraction(5), crop="beet", needs=())),
    tools=Tools(scoop_l=Fraction(1), pail_l=Fraction(20)),
)
RECIPE = {"meal": 3, "blood": 1}


def test_a_batch_takes_rounds_times_scoops_of_each_bag():
    made = batch_made(GARDEN, BatchDone(on=SPRING, mix="Pail", scoops=RECIPE, rounds=2))
    assert [(one.bag, one.scoops, one.mass_kg) for one in made.taken] == [
        ("meal", 6, 6),
        ("blood", 2, 2),
    ]
    assert made.mass_kg == 8


def test_a_feeding_takes_along_what_it_held_and_cost():
    """Three scoops of a 4-4-4 and one of a 12-0-0, each of a kilogram: 6-3-3 at 7/4 a kilogram."""
    fed = bed_fed(
        GARDEN, FeedingDone(on=SPRING, bed="East", of="Pail", scoops=Fraction(2), recipe=RECIPE)
    )
    assert (fed.straight, fed.mass_kg) == (False, 2)
    assert fed.holds[Content.N_LABEL] == Fraction(6, 100)
    assert fed.holds[Content.P2O5] == Fraction(3, 100)
    assert fed.cost == Fraction(2 * 7, 4)
    assert fed.list_cost == Fraction(2 * 15, 4)


def test_a_straight_feeding_without_a_list_price():
    fed = bed_fed(GARDEN, FeedingDone(on=SPRING, bed="West", of="potash", scoops=Fraction(1, 4)))
    assert (fed.straight, fed.cost, fed.list_cost) == (True, Fraction(1, 2), None)
    assert fed.holds[Content.K2O] == Fraction(1, 2)


@pytest.mark.parametrize(
    ("bed", "of", "recipe", "place"),
    [
        ("North", "meal", None, "bed"),
        ("East", "bone", None, "bag"),
        ("East", "Pail", {"bone": 1}, "bag"),
        ("East", "Pail", {"meal": 0}, "scoops"),
    ],
)
def test_what_the_garden_has_not_is_refused(bed, of, recipe, place):
    done = FeedingDone(on=SPRING, bed=bed, of=of, scoops=Fraction(1), recipe=recipe)
    with pytest.raises(Refusal) as told:
        bed_fed(GARDEN, done)
    assert told.value.faults[0].place == place


def feeding(scoops: int, bed: str = "East", on: date = SPRING):
    done = FeedingDone(on=on, bed=bed, of="Pail", scoops=Fraction(scoops), recipe=RECIPE)
    return bed_fed(GARDEN, done)


def test_a_bed_adds_up_against_its_need():
    """Two kilograms of 6-3-3 on 10 m²: 12 g N, above the aim of 10, and 6 g P2O5, above its 3."""
    total = bed_total(BED, [feeding(1), feeding(1, on=SUMMER), feeding(9, bed="West")])
    nitrogen, phosphate = total.fits
    assert nitrogen.typical_kg_per_m2 == Fraction(12, 1000) and nitrogen.word is Fit.RIGHT
    assert phosphate.high_kg_per_m2 == Fraction(6, 1000) and phosphate.word is Fit.TOO_MUCH
    assert total.left_to_aim_kg_per_m2 == {"N": 0, "P2O5": 0}
    assert total.cost.mass_kg == 2 and total.cost.cost == Fraction(7, 2)
    half = bed_total(BED, [feeding(1)])
    assert half.left_to_aim_kg_per_m2["N"] == Fraction(4, 1000)


def test_phosphorus_runs_year_by_year():
    """Given: 3 % of what was fed. Taken: the harvest's phosphorus, as its oxide."""
    tomatoes = Harvested(on=SUMMER, bed="East", crop="tomato", mass_kg=Fraction(40))
    later = feeding(1, on=date(2028, 4, 1))
    first, second = phosphorus_years(BED, [feeding(2), tomatoes, later, feeding(7, bed="West")])
    assert (first.year, second.year) == (2027, 2028)
    assert first.given_kg_per_m2 == Fraction(6, 1000)
    assert second.given_kg_per_m2 == Fraction(3, 1000)
    phosphorus = 4 * food_composition()["tomato"].phosphorus_share
    assert float(first.removed_kg_per_m2) == pytest.approx(float(phosphorus) * 2.2914, rel=1e-4)
    assert second.removed_kg_per_m2 == 0


def test_single_purpose_bags_serve_each_nutrient_alone():
    """Nitrogen from blood meal at list: 60 for 1.2 kg, 50 a kilogram; no bag has only P2O5."""
    alone = in_single_bags(
        GARDEN.bags, [{Content.N_TYPICAL: Fraction(2), Content.P2O5: Fraction(1)}]
    )
    assert alone.cost == 100
    assert (alone.bags, alone.without) == ({"N": "blood"}, ("P2O5",))


def test_the_season_adds_up():
    made = batch_made(GARDEN, BatchDone(on=SPRING, mix="Pail", scoops=RECIPE, rounds=2))
    bought = Bought(
        on=SPRING,
        bag="meal",
        bags=3,
        bag_kg=Fraction(10),
        paid=Fraction(30),
        list_price=Fraction(30),
    )
    noted = Noted(on=SUMMER, note="rain at last", bed="West")
    events = [bought, made, feeding(1), feeding(2, bed="West"), noted]
    answer = read_diary(GARDEN, events, events)
    assert answer.left_in_pails_kg == {"Pail": 5}
    assert (answer.spent.paid, answer.spent.at_list, answer.spent.saved) == (30, 90, 60)
    assert answer.fed.cost == Fraction(3 * 7, 4)
    assert answer.fed.saved == Fraction(3 * 8, 4)
    assert answer.fed.cost_per_kg == Fraction(7, 4)
    assert [total.cost.mass_kg for total in answer.beds] == [1, 2]
    assert "$30.00 paid; $90.00 at list price; $60.00 saved" in answer.working[-2].sum


def test_a_diary_without_a_line():
    answer = read_diary(GARDEN, [], [])
    assert answer.fed.cost_per_kg is None
    assert answer.spent.paid == 0
    assert [fit.word for fit in answer.beds[0].fits] == [Fit.SHORT, Fit.RIGHT]
