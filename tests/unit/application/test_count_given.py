"""What the diary says was given, counted into beds: a mix by the shares of its last batch."""

from datetime import date
from fractions import Fraction

from halfpail.application.count_given import with_given
from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.open_garden import open_garden
from halfpail.domain.bed import Content
from halfpail.domain.diary import Event, Fed, Made, Taken
from halfpail.domain.garden import Preferences, Tools

MAY, JUNE = date(2027, 5, 1), date(2027, 6, 1)
GARDEN = GardenEntry(
    name="A",
    bags=(
        BagEntry(name="Meal", place="bags[1]", label="4-3-2"),
        BagEntry(name="Blood", place="bags[2]", label="12-0-0"),
    ),
    beds=(BedEntry(name="East", place="beds[1]", area_m2=Fraction(10), crop="tomato"),),
    tools=Tools(scoop_l=Fraction(1), pail_l=Fraction(20)),
    preferences=Preferences(),
)
HOLDS = {Content.N_LABEL: Fraction(6, 100), Content.P2O5: Fraction(9, 400)}


def fed(of: str, on: date = MAY, straight: bool = False) -> Fed:
    return Fed(
        on=on,
        bed="East",
        of=of,
        straight=straight,
        scoops=Fraction(1),
        mass_kg=Fraction(4),
        holds=HOLDS,
    )


def made(on: date, meal_kg: int) -> Made:
    taken = (
        Taken(bag="Meal", scoops=meal_kg, mass_kg=Fraction(meal_kg)),
        Taken(bag="Blood", scoops=1, mass_kg=Fraction(1)),
    )
    return Made(on=on, mix="pail", rounds=1, taken=taken)


def given(*events: Event) -> dict[str, Fraction]:
    bed = with_given(GARDEN, events, date(2027, 1, 1)).beds[0]
    return {one.of: one.mass_kg for one in bed.given}


def test_a_bag_given_straight_counts_as_itself():
    assert given(fed("Meal", straight=True)) == {"Meal": 4}


def test_a_mix_counts_by_the_shares_of_the_last_batch_before_it():
    events = made(date(2027, 4, 1), 1), made(date(2027, 4, 20), 3), made(JUNE, 9), fed("pail")
    assert given(*events) == {"Meal": 3, "Blood": 1}


def test_a_mix_of_no_known_batch_counts_by_its_grade():
    assert given(fed("pail")) == {"6-2.3-0": 4}


def test_what_was_given_before_the_day_does_not_count():
    assert given(fed("Meal", on=date(2026, 12, 31), straight=True)) == {}


def test_what_is_counted_is_taken_off_the_need():
    before = open_garden(GARDEN).garden.beds[0].need("N")
    counted = with_given(GARDEN, [fed("Blood", straight=True)], date(2027, 1, 1))
    after = open_garden(counted).garden.beds[0].need("N")
    assert before and after and after.aim < before.aim
