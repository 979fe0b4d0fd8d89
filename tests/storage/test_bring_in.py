"""What a file brings: whole or not at all, once, and back again as long as nobody changed it."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from halfpail.application.brought_in import Change, Changes
from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.application.store_trouble import Conflict, Missing, NameTaken
from halfpail.domain.diary import Fed, Noted
from halfpail.storage import bring_in
from halfpail.wiring import services

MEAL = BagEntry(name="Meal", place="", label="4-4-4", shed_kg=Fraction(5))
BONE = BagEntry(name="Bone", place="", label="3-15-0")
NORTH = BedEntry(name="North", place="", area_m2=Fraction(4), crop="tomato")
FED = Fed(
    on=date(2027, 5, 1),
    bed="North",
    of="Meal",
    straight=True,
    scoops=Fraction(2),
    mass_kg=Fraction(1),
    holds={},
)


@pytest.fixture
def bare(store):
    """The shelf of the sample garden without its bags and beds."""
    garden = services().read_sample_garden()
    return store.shelf(store.put_in(replace(garden, bags=(), beds=())))


def changes(*values: BagEntry | BedEntry | Fed | Noted) -> Changes:
    return Changes(
        bags=tuple(Change(value=one) for one in values if isinstance(one, BagEntry)),
        beds=tuple(Change(value=one) for one in values if isinstance(one, BedEntry)),
        events=tuple(one for one in values if isinstance(one, Fed | Noted)),
    )


def names(drawer) -> list[str]:
    return [kept.value.name for kept in drawer.all()]


def test_everything_is_brought_once_and_the_shed_stays(bare):
    told = changes(MEAL, NORTH, FED)
    first = bare.imports.bring(told, "a")
    assert bare.imports.bring(told, "a") == first == bare.imports.get("a")
    assert (names(bare.bags), names(bare.beds)) == (["Meal"], ["North"])
    assert [kept.value for kept in bare.diary.all()] == [FED]
    assert bare.bags.all()[0].value.shed_kg == 5


@pytest.mark.parametrize(
    "wrong",
    [
        Changes(bags=(Change(value=MEAL), Change(value=MEAL))),
        Changes(bags=(Change(value=MEAL),), beds=(Change(value=NORTH), Change(value=NORTH))),
    ],
    ids=["a name twice", "a name twice, late"],
)
def test_what_cannot_be_kept_whole_is_not_kept_at_all(bare, wrong):
    with pytest.raises(NameTaken):
        bare.imports.bring(wrong, "a")
    assert (names(bare.bags), names(bare.beds)) == ([], [])
    assert bare.imports.get("a") is None


def test_what_another_window_changed_is_not_written_over(bare):
    seen = bare.bags.add(MEAL)
    bare.bags.change(seen.key, seen.version, replace(MEAL, price=Fraction(9)))
    late = Change(value=replace(MEAL, price=Fraction(1)), seen=seen)
    with pytest.raises(Conflict):
        bare.imports.bring(Changes(bags=(Change(value=BONE), late)), "a")
    assert [kept.value.price for kept in bare.bags.all()] == [9]


def test_everything_goes_back_to_what_it_was(bare):
    seen = bare.bags.add(MEAL)
    changed = Change(value=replace(MEAL, label="5-5-5"), seen=seen)
    told = changes(BONE, NORTH, FED)
    bare.imports.bring(replace(told, bags=(*told.bags, changed)), "a")
    done = bare.imports.take_back("a")
    assert (done.taken_back, done.left) == (True, ())
    assert [kept.value for kept in bare.bags.all()] == [MEAL]
    assert (bare.beds.all(), bare.diary.all()) == ((), ())
    assert names_in(bare.bags.bin()) == ["Bone"]
    assert bare.imports.take_back("a") == done


def names_in(kept) -> list[str]:
    return [one.value.name for one in kept]


def test_what_was_changed_or_removed_since_is_left_alone(bare):
    bare.imports.bring(changes(MEAL, BONE, NORTH), "a")
    meal, bone = bare.bags.all()
    bare.bags.change(meal.key, meal.version, replace(MEAL, price=Fraction(9)))
    bare.bags.remove(bone.key, bone.version)
    assert bare.imports.take_back("a").left == ("Meal",)
    assert (names(bare.bags), names(bare.beds)) == (["Meal"], [])


def test_lines_undone_since_stay_undone_and_others_move_no_stock(bare):
    bare.imports.bring(changes(MEAL, NORTH, FED, Noted(on=FED.on, note="rain")), "a")
    fed, noted = bare.diary.all()
    bare.diary.undo(noted.key)
    done = bare.imports.take_back("a")
    assert fed.key in done.lines and bare.diary.all() == ()
    assert len(bare.diary.undone()) == 2
    assert bare.bags.bin()[0].value.shed_kg == 5


def test_an_unknown_import_cannot_be_taken_back(bare):
    with pytest.raises(Missing):
        bare.imports.take_back("never")


def test_only_the_last_imports_are_remembered(bare, monkeypatch):
    monkeypatch.setattr(bring_in, "MOST_REMEMBERED", 2)
    for number in range(3):
        bare.imports.bring(changes(replace(MEAL, name=f"Meal {number}")), f"a{number}")
    assert bare.imports.get("a0") is None
    assert bare.imports.get("a1") and bare.imports.get("a2")
