"""Broken, strange and newer JSON files: each a plain sentence with its place, none of them read."""

import json
from fractions import Fraction

import pytest

from halfpail.application.kept import MixEntry
from halfpail.application.shared_pieces import share_mix
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.findings import Refusal
from halfpail.garden_json.files import MOST_BYTES, GardenJson
from halfpail.wiring import services

FILES = GardenJson()
SAMPLE = WholeGarden(
    garden=without_text(services().read_sample_garden()),
    mixes=(MixEntry(name="pail", scoops={"Blood meal": 2}),),
)
DATA = FILES.write(SAMPLE)
BAG = ("garden", "bags", 1)


def changed(*path, to) -> bytes:
    """The sample's file with one thing in it put wrong."""
    written = json.loads(DATA)
    inside = written
    for step in path[:-1]:
        inside = inside[step]
    inside[path[-1]] = to
    return json.dumps(written).encode()


def without(*path) -> bytes:
    written = json.loads(DATA)
    inside = written
    for step in path[:-1]:
        inside = inside[step]
    del inside[path[-1]]
    return json.dumps(written).encode()


FAULTY = [
    (b"", "the file", "not whole"),
    (b" ", "the file", "not whole"),
    (DATA[:-40], "the file", "not whole"),
    (DATA[1:], "the file", "Expected a table, got words."),
    (b"\xff\xfe" + DATA, "the file", "no JSON"),
    (DATA.decode().encode("utf-16"), "the file", "no JSON"),
    (b"PK\x03\x04 and so on", "the file", "no JSON"),
    (b"[" * 100_000, "the file", "."),
    (b'{"a":' * 100_000, "the file", "."),
    (b"[]", "the file", "Expected a table, got a list."),
    (b'"garden"', "the file", "got words"),
    (b"{}", "halfpail", "no garden, mix or plan"),
    (b'{"halfpail": "recipe", "version": 1}', "halfpail", "no garden, mix or plan"),
    (b'{"halfpail": 1}', "halfpail", "Expected words, got a whole number."),
    (changed("version", to=2), "version", "newer Halfpail"),
    (changed("version", to=0), "version", "no version"),
    (changed("version", to=-1), "version", "no version"),
    (without("garden"), "the file", "garden"),
    (without("diary"), "the file", "diary"),
    (changed("more", to=1), "the file", "unknown field more"),
    (changed(*BAG, "offered", to="3"), "garden.bags[2].offered", "Expected a whole number"),
    (changed(*BAG, "offered", to=2.5), "garden.bags[2].offered", "got a number"),
    (changed(*BAG, "price", to=12.5), "garden.bags[2].price", "fraction in quotes"),
    (changed(*BAG, "price", to="1/0"), "garden.bags[2].price", "divided by nought"),
    (changed(*BAG, "price", to="1e3"), "garden.bags[2].price", "fraction in quotes"),
    (changed(*BAG, "price", to="٣"), "garden.bags[2].price", "fraction in quotes"),
    (changed(*BAG, "price", to="9" * 3000), "garden.bags[2].price", "fraction in quotes"),
    (changed(*BAG, "treatment", to="burnt"), "garden.bags[2].treatment", "burnt"),
    (changed("garden", "bags", to={}), "garden.bags", "Expected a list, got a table."),
    (changed("mixes", 0, "scoops", to={"Blood meal": "2"}), "mixes[1].scoops[...]", "whole number"),
    (changed("diary", to=[{}]), "diary[1]", "one thing"),
    (changed("diary", to=[{"noted": {"on": "2027-02-30", "note": ""}}]), "diary[1].noted.on", "."),
    (changed("diary", to=[{"burnt": {}}]), "diary[1]", "unknown field burnt"),
    (DATA.replace(b'"offered": 3', b'"offered": NaN'), "the file", "no JSON"),
    (DATA.replace(b'"offered": 3', b'"offered": 1e400'), "garden.bags[2].offered", "."),
    (DATA + b" " * MOST_BYTES, "the file", "longer than 10 MB"),
]


@pytest.mark.parametrize(("data", "place", "sentence"), FAULTY)
def test_a_faulty_file_is_refused(data, place, sentence):
    with pytest.raises(Refusal) as refused:
        FILES.read(data)
    (fault,) = refused.value.faults
    assert fault.place == place
    assert sentence in fault.sentence
    assert fault.remedy


def test_numbers_keep_every_digit():
    third = Fraction(10**40 + 1, 3 * 10**40)
    garden = json.loads(DATA)["garden"]
    garden["bags"][0]["bag_kg"] = str(third)
    again = FILES.read(json.dumps({**json.loads(DATA), "garden": garden}).encode())
    assert isinstance(again, WholeGarden)
    assert again.garden.bags[0].bag_kg == third


def test_what_is_handed_on_does_not_tell_who_made_it():
    words = FILES.write(share_mix(SAMPLE.mixes[0], SAMPLE.garden)).decode()
    assert "Blood meal" in words
    assert SAMPLE.garden.name not in words
    bag = json.loads(words)["bags"][0]
    assert (bag["price"], bag["list_price"], bag["shed_kg"], bag["offered"]) == (
        None,
        None,
        "0",
        None,
    )
    assert set(bag["typed"]) <= {"weight", "scoop_weighs"}
