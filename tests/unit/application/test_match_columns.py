"""Heads as people write them, and which table and column they mean."""

from dataclasses import replace

import pytest

from halfpail.application.garden_tables import BROUGHT_IN
from halfpail.application.head_words import read_head
from halfpail.application.match_columns import (
    HIDDEN,
    NOT_BROUGHT_IN,
    UNKNOWN,
    Matching,
    match_columns,
)
from halfpail.application.sheet_columns import Units
from halfpail.quantities.units import System
from tests.unit.application.sheets_of_rows import sheet

HEADS = [
    ("Weight of bag (lb)", "Weight of bag", "lb"),
    ("weight [KG]", "weight", "KG"),
    ("weight, lb", "weight", "lb"),
    ("Weight in lb", "Weight", "lb"),
    ("P ppm", "P", "ppm"),
    ("P (lb/acre)", "P", "lb/acre"),
    ("price ($)", "price", "$"),
    ("price (USD)", "price", "USD"),
    ("organic matter %", "organic matter", "%"),
    ("harvest (lb per 100 sq ft)", "harvest", "lb per 100 sq ft"),
    ("price (sale)", "price (sale)", ""),
    ("In the shed", "In the shed", ""),
    ("  what   was done ", "what was done", ""),
    ("na\u202eme", "name", ""),
]
ROWS = [
    ("Product, Grade, Bag weight (lb), Sale price, Qty", "Bags"),
    ("Bed, Crop, Size", "Beds"),
    ("Plot, Vegetable, Area (sq ft), Planted", "Beds"),
    ("Sample, Lab method, pH, P ppm, K ppm, OM %", "Soil tests"),
    ("Date, What, Bed, Mix, Scoops, Note", "Diary"),
]


@pytest.mark.parametrize(("text", "words", "unit"), HEADS)
def test_a_head_is_words_and_a_unit(text, words, unit):
    head = read_head(text)
    assert (head.words, head.unit) == (words, unit)


@pytest.mark.parametrize(("heads", "table"), ROWS)
def test_the_heads_tell_the_table(heads, table):
    found = match_columns(sheet("Sheet1", heads.split(", ")))
    assert found.table == table
    assert all(found.keys)


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("table", BROUGHT_IN, ids=lambda table: table.name)
def test_every_head_that_is_written_is_known_again(table, system):
    units = Units(system=system)
    found = match_columns(sheet(table.name.upper(), table.heads(units)))
    assert found.table == table.name
    assert found.keys == tuple(column.key for column in table.columns)


def test_two_heads_alike_are_left_to_be_chosen():
    found = match_columns(sheet("Bags", ("bag", "label", "Price", "Price")))
    assert found.keys == ("name", "label", "", "")
    assert found.notes == ("Two columns are headed “Price”: choose which one is meant.",)


def test_two_heads_that_mean_the_same_are_left_to_be_chosen():
    found = match_columns(sheet("Bags", ("bag", "label", "price now", "cost")))
    assert found.notes == ("“price now” and “cost” may mean the same: choose which one is meant.",)


def test_what_is_hidden_unknown_or_another_table_is_left_out():
    bags = sheet("Bags", ("bag", "label"))
    assert match_columns(replace(bags, hidden=True)) == Matching(notes=(HIDDEN,))
    assert match_columns(sheet("Plans", ("plan", "bag"))) == Matching(notes=(NOT_BROUGHT_IN,))
    assert match_columns(sheet("Sheet1", ("a", "b"), ("1", "2"))) == Matching(notes=(UNKNOWN,))


def test_a_person_may_know_better():
    odd = sheet("Plans", ("bag", "label"))
    assert match_columns(odd, "Bags").keys == ("name", "label")
    assert match_columns(odd, "") == Matching()
