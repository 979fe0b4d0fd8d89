"""One bag in one line, and what cannot be one."""

from fractions import Fraction

import pytest

from halfpail.application.read_bag_line import read_bag_line
from halfpail.findings import Refusal
from halfpail.quantities.units import size_of

LB = size_of("lb")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("3-4-4, 25 lb, $12, 2 scoops", ("3-4-4", "3-4-4", 25 * LB, 12, 2)),
        ("2 scoops; $12; 25 lb; 3-4-4", ("3-4-4", "3-4-4", 25 * LB, 12, 2)),
        ("blood meal 12-0-0, 5 lb bag, at $9.99", ("blood meal", "12-0-0", 5 * LB, "9.99", None)),
        ("Starter, 3 - 4 - 4, 40 lbs,$14", ("Starter", "3-4-4", 40 * LB, 14, None)),
        ("3–4–4, 2,5 kg, 4 €, 1 level scoop", ("3–4–4", "3–4–4", Fraction(5, 2), 4, 1)),
        ("4-4-4, 12 dollars", ("4-4-4", "4-4-4", None, 12, None)),
        ("4-4-4, 40 LBS, 12 USD", ("4-4-4", "4-4-4", 40 * LB, 12, None)),
        ("0.5-0.5-0, 1 1/2 lb", ("0.5-0.5-0", "0.5-0.5-0", Fraction(3, 2) * LB, None, None)),
    ],
)
def test_reads(line, told):
    name, label, bag_kg, price, scoops = told
    read = read_bag_line(line, "bag 1")
    assert (read.entry.name, read.entry.label, read.scoops) == (name, label, scoops)
    assert read.entry.bag_kg == bag_kg
    assert read.entry.price == (None if price is None else Fraction(price))


def test_reads_what_else_may_be_said():
    line = "4-4-4, 25 lb, $12, was $30, 11 oz a scoop, 3 on offer"
    entry = read_bag_line(line, "bag 1").entry
    assert entry.list_price == 30
    assert entry.scoop_weighs_kg == 11 * size_of("oz")
    assert entry.offered == 3


BAD = [
    ("", "no grade"),
    ("25 lb, $12", "no grade"),
    ("4-4, 25 lb", "could be"),
    ("4-4-4, 25", "could be"),
    ("4-4-4, 2, 3 scoops", "could be"),
    ("4-4-4,25 lb", "could be"),
    ("4-4-4, 25 lb, 25 kg", "told twice"),
    ("4-4-4, 3-3-3", "told twice"),
    ("4-4-4, meal, blend", "told twice"),
    ("4-4-4, $12, $13", "told twice"),
    ("4-4-4, -3 scoops", "below nought"),
    ("4-4-4, 1.5 scoops", "whole number"),
    ("4-4-4, 999 scoops", "from 0 to 200"),
    ("4-4-4, NaN scoops", "not a number"),
    ("4-4-4, $1e9", "Powers of ten"),
    ("4-4-4, $12.999", "decimal places"),
    ("4-4-4, 0 lb", "nought"),
    ("9**9-4-4", "could be"),
]


@pytest.mark.parametrize(("line", "why"), BAD)
def test_refuses_with_a_reason_and_a_remedy(line, why):
    with pytest.raises(Refusal) as refused:
        read_bag_line(line, "bag 7")
    faults = refused.value.faults
    assert any(why in fault.sentence for fault in faults), faults
    assert all(fault.place == "bag 7" and fault.remedy for fault in faults)


def test_every_fault_of_a_line_at_once():
    with pytest.raises(Refusal) as refused:
        read_bag_line("25, 1.5 scoops", "bag 1")
    assert len(refused.value.faults) == 3
