"""What is put into a drawer comes out again, and of two windows only one saves."""

import threading
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from django.db import connection, connections
from django.test.utils import CaptureQueriesContext

from halfpail.application.kept import GardenSettings, MixEntry, SeasonEntry
from halfpail.application.store_trouble import Conflict, Missing, NameTaken
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.storage import models
from halfpail.storage.shelf import RowShelf, RowStore
from halfpail.wiring import services


def test_a_whole_garden_comes_out_as_it_went_in(store):
    sample = services().read_sample_garden()
    shelf = store.shelf(store.put_in(sample, is_sample=True))
    assert len(sample.bags) > 10 and len(sample.beds) > 10
    assert shelf.garden() == sample
    assert [bag.typed for bag in shelf.garden().bags] == [bag.typed for bag in sample.bags]


def test_gardens_are_kept_apart(store):
    sample = services().read_sample_garden()
    first, second = store.put_in(sample), store.put_in(replace(sample, name="Other", bags=()))
    assert store.shelf(second).garden().bags == ()
    assert store.shelf(first).garden() == sample
    assert [kept.value.about.name for kept in store.gardens.all()] == [sample.name, "Other"]
    with pytest.raises(Missing):
        store.shelf(first).bags.get(store.shelf(first).bags.all()[-1].key + 1)
    with pytest.raises(Missing):
        store.shelf(second + 1)


def test_settings_change(store, shelf):
    kept = store.gardens.get(shelf.key)
    assert kept.value.is_sample
    about = replace(kept.value.about, elemental_labels=True)
    own = GardenSettings(about=about, answers={"last_frost": "10 May"})
    store.gardens.change(kept.key, kept.version, own)
    assert store.gardens.get(shelf.key).value == own
    assert shelf.garden().elemental_labels


def test_a_change_names_the_version_it_saw(shelf):
    seen = shelf.bags.all()[0]
    changed = shelf.bags.change(seen.key, seen.version, replace(seen.value, offered=7))
    assert (changed.version, changed.value.offered) == (seen.version + 1, 7)
    with pytest.raises(Conflict) as told:
        shelf.bags.change(seen.key, seen.version, replace(seen.value, offered=8))
    assert told.value.theirs == changed
    with pytest.raises(Conflict):
        shelf.bags.remove(seen.key, seen.version)
    assert shelf.bags.get(seen.key) == changed


def test_of_three_writers_one_wins(shelf):
    """Three windows save the same bag at once, over and over; each round has one winner."""
    start = threading.Barrier(3)
    outcomes: list[str] = []

    def save(offered: int, version: int, key: int) -> None:
        bag = shelf.bags.get(key).value
        start.wait()
        try:
            shelf.bags.change(key, version, replace(bag, offered=offered))
            outcomes.append("won")
        except Conflict:
            outcomes.append("lost")
        finally:
            connections.close_all()

    for _ in range(5):
        seen = shelf.bags.all()[0]
        writers = [
            threading.Thread(target=save, args=(offered, seen.version, seen.key))
            for offered in (1, 2, 3)
        ]
        for writer in writers:
            writer.start()
        for writer in writers:
            writer.join()
    assert sorted(outcomes) == ["lost"] * 10 + ["won"] * 5


def test_what_is_removed_lies_in_the_bin_and_comes_back(shelf):
    first, second, *_ = shelf.beds.all()
    before = shelf.garden()
    shelf.beds.remove(first.key, first.version)
    assert [bed.name for bed in shelf.garden().beds] == [bed.name for bed in before.beds[1:]]
    assert shelf.garden().beds[0].place == "beds[1]"
    assert [kept.key for kept in shelf.beds.bin()] == [first.key]
    with pytest.raises(Missing):
        shelf.beds.get(first.key)
    shelf.beds.put_back(first.key)
    assert shelf.garden() == before
    assert shelf.beds.bin() == ()
    assert shelf.beds.put_back(second.key).version == second.version


def test_no_two_share_a_name_unless_one_lies_in_the_bin(shelf):
    first, second, *_ = shelf.bags.all()
    twin = replace(second.value, name=f" {first.value.name.upper()} ")
    with pytest.raises(NameTaken):
        shelf.bags.add(twin)
    with pytest.raises(NameTaken):
        shelf.bags.change(second.key, second.version, twin)
    shelf.bags.remove(first.key, first.version)
    shelf.bags.add(replace(twin, name=first.value.name))
    with pytest.raises(NameTaken):
        shelf.bags.put_back(first.key)
    assert shelf.bags.change(second.key, second.version, second.value).version == 2


def test_a_thing_sent_twice_is_kept_once(shelf):
    bag = replace(shelf.bags.all()[0].value, name="New meal")
    once = shelf.bags.add(bag, token="abc")
    assert shelf.bags.add(bag, token="abc") == once
    assert len([kept for kept in shelf.bags.all() if kept.value.name == "New meal"]) == 1


def test_a_mix_follows_its_bags(shelf):
    first, second, third, *_ = shelf.bags.all()
    scoops = {third.value.name: 1, first.value.name: 3}
    mix = shelf.mixes.add(MixEntry(name="Leafy", scoops=scoops, purpose="leafy"))
    assert list(mix.value.scoops.items()) == list(scoops.items())
    shelf.bags.change(first.key, first.version, replace(first.value, name="Meal, renamed"))
    shelf.bags.remove(third.key, third.version)
    assert shelf.mixes.get(mix.key).value.scoops == {third.value.name: 1, "Meal, renamed": 3}
    other = replace(mix.value, scoops={second.value.name: 2})
    assert shelf.mixes.change(mix.key, mix.version, other).value == other
    with pytest.raises(Missing):
        shelf.mixes.add(MixEntry(name="Odd", scoops={"nothing of ours": 1}))
    assert [kept.value for kept in shelf.mixes.all()] == [other]


def test_a_season_is_kept_as_it_was_made(shelf):
    plan = SeasonPlan(
        stirs=(Stir(scoops={"All-purpose meal blend": 3, "Blood meal": 1}, rounds=4),),
        feedings=(
            Feeding(plot="North", of=0, measures=7),
            Feeding(plot="South", of="Blood meal", measures=1),
        ),
        purchases={"All-purpose meal blend": 2},
        money=Fraction(2398, 100),
        missed=Fraction(1, 3),
        bound=Fraction(23),
        proven_by="every recipe tried",
        seconds=1.5,
    )
    entry = SeasonEntry(
        name="2027", made_on=date(2027, 2, 28), plan=plan, garden=shelf.garden(), chosen=True
    )
    kept = shelf.seasons.add(entry)
    bag = shelf.bags.all()[0]
    shelf.bags.change(bag.key, bag.version, replace(bag.value, price=Fraction(99)))
    assert shelf.seasons.all() == (kept,)
    assert kept.value == entry
    assert kept.value.plan.seconds == 1.5


def queries(store: RowStore, key: int) -> int:
    """How many questions it takes to show all of a garden."""
    with CaptureQueriesContext(connection) as asked:
        shelf = store.shelf(key)
        shelf.garden()
        shelf.mixes.all()
        shelf.seasons.all()
        shelf.diary.all()
        shelf.bags.bin()
        store.gardens.all()
    return len(asked)


def test_questions_do_not_grow_with_rows(store, shelf):
    names = [kept.value.name for kept in shelf.bags.all()]
    shelf.mixes.add(MixEntry(name="One", scoops={names[0]: 1}))
    few = queries(store, shelf.key)
    pattern = shelf.bags.all()[0].value
    for number in range(40):
        shelf.bags.add(replace(pattern, name=f"Bag {number}"))
        shelf.mixes.add(MixEntry(name=f"Mix {number}", scoops={names[0]: 1, names[number % 9]: 2}))
    assert queries(store, shelf.key) == few
    assert few <= 12


def test_drafts_and_seen_notices(store):
    store.drafts.keep("bag/new", {"name": "Half a na"})
    store.drafts.keep("bag/new", {"name": "Half a name", "price": "12,"})
    assert store.drafts.get("bag/new") == {"name": "Half a name", "price": "12,"}
    store.drafts.drop("bag/new")
    assert store.drafts.get("bag/new") == {}
    store.put_away("dust")
    store.put_away("dust")
    assert store.seen() == {"dust"}


def test_half_a_garden_is_none(store, monkeypatch):
    """A fault in the middle of taking a garden in leaves nothing of it."""
    sample = services().read_sample_garden()
    twice = replace(sample, beds=(*sample.beds, sample.beds[0]))
    with pytest.raises(NameTaken):
        store.put_in(twice)
    assert store.gardens.all() == ()
    assert models.Bag.objects.count() == 0


def test_text_is_kept_to_the_letter(shelf):
    odd = "Bed \N{COMBINING ACUTE ACCENT} \u202e <script> {{7*7}} ' OR 1=1 \N{POTATO}"
    bed = replace(shelf.beds.all()[0].value, name=odd, typed={"size": "4 x 12 ft", "x": "٣"})
    kept = shelf.beds.add(bed)
    assert shelf.beds.get(kept.key).value.name == odd
    assert shelf.beds.get(kept.key).value.typed == bed.typed


def test_the_shelf_is_of_one_garden(shelf: RowShelf, store: RowStore):
    other = store.shelf(store.put_in(replace(services().read_sample_garden(), name="Other")))
    bag = shelf.bags.all()[0]
    with pytest.raises(Missing):
        other.bags.change(bag.key, bag.version, bag.value)
    with pytest.raises(Missing):
        other.bags.put_back(bag.key)
    assert shelf.bags.get(bag.key) == bag
