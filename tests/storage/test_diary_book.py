"""The diary moves the stock, an undo gives it back, and names follow what they name."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from halfpail.application.gather_garden import gather_garden
from halfpail.application.kept import MixEntry
from halfpail.application.open_garden import open_garden
from halfpail.application.store_trouble import Missing
from halfpail.application.write_diary import BatchDone, FeedingDone, batch_made, bed_fed
from halfpail.domain.diary import Bought, Event, Harvested, Made, Noted, Taken
from halfpail.storage.shelf import RowShelf

DAY = date(2027, 4, 1)
MEAL, BLOOD = "All-purpose meal blend", "Blood meal"


def shed(shelf: RowShelf, name: str = MEAL) -> Fraction:
    return next(kept.value.shed_kg for kept in shelf.bags.all() if kept.value.name == name)


def first_bed(shelf: RowShelf) -> str:
    return shelf.beds.all()[0].value.name


def everything(shelf: RowShelf) -> tuple[Event, ...]:
    """One event of each kind."""
    garden = open_garden(shelf.garden()).garden
    recipe = {MEAL: 2, BLOOD: 1}
    bed = first_bed(shelf)
    return (
        Bought(on=DAY, bag=MEAL, bags=1, bag_kg=Fraction(10), paid=Fraction(12), note="last one"),
        batch_made(garden, BatchDone(on=DAY, mix="Leafy", scoops=recipe, rounds=3)),
        bed_fed(
            garden,
            FeedingDone(on=DAY, bed=bed, of="Leafy", scoops=Fraction(5, 4), recipe=recipe),
        ),
        bed_fed(garden, FeedingDone(on=DAY, bed=bed, of=BLOOD, scoops=Fraction(1, 4))),
        Harvested(on=DAY, bed=bed, crop="tomato", mass_kg=Fraction(1, 3)),
        Noted(on=DAY, note="frost"),
        Noted(on=DAY, note="slugs", bed=bed),
    )


def test_every_kind_comes_back_as_written(shelf):
    events = everything(shelf)
    for event in events:
        shelf.diary.record(event)
    assert [kept.value for kept in shelf.diary.all()] == list(events)


def test_the_diary_is_in_order_of_days_and_then_as_written(shelf):
    for day, words in ((3, "c"), (1, "a"), (3, "d"), (2, "b")):
        shelf.diary.record(Noted(on=date(2027, 5, day), note=words))
    assert "".join(kept.value.note for kept in shelf.diary.all()) == "abcd"
    assert "".join(kept.value.note for kept in shelf.diary.all(date(2027, 5, 2))) == "bcd"


def test_stock_goes_down_and_an_undo_gives_it_back(shelf):
    before = shed(shelf)
    bought, made, *_ = (shelf.diary.record(event) for event in everything(shelf))
    taken_kg = made.value.taken[0].mass_kg
    assert shed(shelf) == before + 10 - taken_kg
    shelf.diary.undo(made.key)
    assert shed(shelf) == before + 10
    assert [kept.value for kept in shelf.diary.undone()] == [made.value]
    shelf.diary.redo(made.key)
    shelf.diary.undo(bought.key)
    assert shed(shelf) == before - taken_kg
    with pytest.raises(Missing):
        shelf.diary.undo(bought.key)
    with pytest.raises(Missing):
        shelf.diary.redo(made.key)


def test_more_taken_than_there_is_leaves_nothing_and_comes_back_exactly(shelf):
    before = shed(shelf)
    made = Made(
        on=DAY, mix="Big", rounds=1, taken=(Taken(bag=MEAL, scoops=99, mass_kg=before + 5),)
    )
    kept = shelf.diary.record(made)
    assert shed(shelf) == 0
    shelf.diary.undo(kept.key)
    assert shed(shelf) == before


def test_a_move_makes_a_bag_seen_before_out_of_date(shelf):
    """A form that was open while a batch was recorded must not put the old stock back."""
    seen = next(kept for kept in shelf.bags.all() if kept.value.name == MEAL)
    shelf.diary.record(everything(shelf)[1])
    now = shelf.bags.get(seen.key)
    assert now.version == seen.version + 1
    assert "in_shed" not in now.value.typed


def test_a_line_sent_twice_moves_the_stock_once(shelf):
    before = shed(shelf)
    bought = everything(shelf)[0]
    first = shelf.diary.record(bought, token="tap-tap")
    assert shelf.diary.record(bought, token="tap-tap") == first
    assert shed(shelf) == before + 10
    assert len(shelf.diary.all()) == 1


def test_names_follow_what_they_name(shelf):
    mix = shelf.mixes.add(MixEntry(name="Leafy", scoops={MEAL: 2, BLOOD: 1}))
    events = everything(shelf)
    for event in events:
        shelf.diary.record(event)
    bed = shelf.beds.all()[0]
    shelf.beds.change(bed.key, bed.version, replace(bed.value, name="Sunny bed"))
    blood = next(kept for kept in shelf.bags.all() if kept.value.name == BLOOD)
    shelf.bags.change(blood.key, blood.version, replace(blood.value, name="Dried blood"))
    mix = shelf.mixes.get(mix.key)
    shelf.mixes.change(mix.key, mix.version, replace(mix.value, name="Greens"))
    bought, made, fed, straight, harvested, frost, slugs = (k.value for k in shelf.diary.all())
    assert {fed.bed, straight.bed, harvested.bed, slugs.bed} == {"Sunny bed"}
    assert (straight.of, fed.of, made.mix) == ("Dried blood", "Greens", "Greens")
    assert [one.bag for one in made.taken] == [MEAL, BLOOD]
    assert (bought, frost) == (events[0], events[5])


@pytest.mark.parametrize(
    "event",
    [
        Bought(on=DAY, bag="none of ours", bags=1, bag_kg=Fraction(1), paid=Fraction(1)),
        Harvested(on=DAY, bed="none of ours", crop="tomato", mass_kg=Fraction(1)),
        Made(on=DAY, mix="x", rounds=1, taken=(Taken(bag="?", scoops=1, mass_kg=Fraction(1)),)),
    ],
)
def test_what_is_not_known_is_not_written(shelf, event):
    with pytest.raises(Missing):
        shelf.diary.record(event)
    assert shelf.diary.all() == ()


def test_a_diary_that_is_brought_in_leaves_the_stock_and_can_be_undone(store, shelf):
    """The shed of a file is as it was after all its lines; undoing one gives back what it took."""
    garden = gather_garden(store.gardens.all()[0].value, shelf)
    bag = garden.garden.bags[0]
    gone = Taken(bag="a bag long gone", scoops=1, mass_kg=Fraction(9))
    taken = Taken(bag=bag.name, scoops=1, mass_kg=Fraction(1, 7))
    made = Made(on=date(2027, 4, 1), mix="of old", rounds=1, taken=(taken, gone))
    mix = MixEntry(name="With a bag in the bin", scoops={bag.name: 1, "Binned": 2})
    binned = replace(bag, name="Binned", place="")
    whole = replace(garden, diary=(made,), mixes=(mix,), put_away=(binned,))
    key = store.put_in_whole(whole)
    again = store.shelf(key)
    assert gather_garden(store.gardens.get(key).value, again) == whole
    assert [one.value.name for one in again.bags.bin()] == ["Binned"]
    again.diary.undo(again.diary.all()[0].key)
    assert again.garden().bags[0].shed_kg == bag.shed_kg + Fraction(1, 7)
