"""A garden written to a file, or kept in the store, comes back as the same garden."""

from dataclasses import fields, is_dataclass, replace
from fractions import Fraction

from hypothesis import HealthCheck, given, settings

from halfpail.application.garden_entry import GardenEntry
from halfpail.garden_file.reader import read_text
from halfpail.garden_file.writer import write_text
from halfpail.storage.plain_data import from_plain, to_plain
from halfpail.wiring import sample_garden_text, services
from tests.properties.gardens import gardens


def without_words(entry: GardenEntry) -> GardenEntry:
    return replace(
        entry,
        typed={},
        bags=tuple(replace(bag, typed={}) for bag in entry.bags),
        beds=tuple(replace(bed, typed={}) for bed in entry.beds),
    )


@given(gardens())
@settings(max_examples=60)
def test_a_garden_file_reads_back(entry):
    again = read_text(write_text(entry))
    assert again.faults == ()
    assert again == entry
    assert write_text(again) == write_text(read_text(write_text(again)))


@given(gardens())
@settings(max_examples=60)
def test_plain_data_reads_back(entry):
    assert from_plain(GardenEntry, to_plain(entry)) == entry


@given(gardens())
@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_store_gives_the_garden_back(tmp_path_factory, entry):
    store = services().open_store(tmp_path_factory.getbasetemp() / "gardens")
    assert store.shelf(store.put_in(entry)).garden() == entry


def test_the_sample_garden_keeps_its_words():
    sample = read_text(sample_garden_text())
    again = read_text(write_text(sample))
    assert again == sample
    assert [bag.typed for bag in again.bags] == [bag.typed for bag in sample.bags]
    assert [bed.typed for bed in again.beds] == [bed.typed for bed in sample.beds]
    assert sample.bags[0].typed["weight"] == "25 lb"
    assert read_text(write_text(without_words(sample))) == sample


def test_words_that_no_longer_hold_are_not_written():
    sample = read_text(sample_garden_text())
    bag, bed = sample.bags[0], sample.beds[0]
    changed = replace(
        sample,
        bags=(replace(bag, bag_kg=2 * (bag.bag_kg or Fraction(0))), *sample.bags[1:]),
        beds=(replace(bed, area_m2=bed.area_m2 / 2), *sample.beds[1:]),
    )
    again = read_text(write_text(changed))
    assert again == changed
    assert again.bags[0].typed["weight"] == "50 lb"
    assert again.bags[0].typed["price"] == bag.typed["price"]
    assert again.beds[0].typed["size"] != bed.typed["size"]
    assert again.beds[0].typed["soil_test.P"] == bed.typed["soil_test.P"]


# These tell where and how a thing was written, or cannot be told in a garden file.
_NOT_DRAWN = {
    ("GardenEntry", "faults"),
    ("GardenEntry", "lines"),
    ("GardenEntry", "typed"),
    ("BagEntry", "typed"),
    ("BedEntry", "typed"),
    ("WarmthQuestion", "wave"),
    ("WarmthQuestion", "diffusivity_m2_per_s"),
}


def test_every_field_of_an_entry_is_drawn():
    """So that a field added to an entry cannot be lost on the way out and in again."""
    known: set[tuple[str, str]] = set()
    drawn: set[tuple[str, str]] = set()

    def look(value: object) -> None:
        if is_dataclass(value) and not isinstance(value, type):
            for one in fields(value):
                held, name = getattr(value, one.name), (type(value).__name__, one.name)
                known.add(name)
                if held != one.default and held not in ((), {}):
                    drawn.add(name)
                look(held)
        elif isinstance(value, tuple):
            for inside in value:
                look(inside)

    @given(gardens())
    @settings(max_examples=80)
    def draw_many(entry):
        look(entry)

    draw_many()
    assert known - drawn == _NOT_DRAWN
