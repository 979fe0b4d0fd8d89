"""Dates as people type them, and those that are refused."""

from datetime import date

import pytest

from halfpail.findings import Refusal
from halfpail.quantities.dates import read_date


@pytest.mark.parametrize(
    "text",
    ["2027-05-10", "2027-5-10", "10 May 2027", "May 10, 2027", "may 10 2027", " 10  may.  2027 ",
     "10th May 2027", "May 10th, 2027"],
)  # fmt: skip
def test_one_day_written_in_many_ways(text):
    assert read_date(text) == date(2027, 5, 10)


def test_a_leap_day_in_a_leap_year():
    assert read_date("29 Feb 2028") == date(2028, 2, 29)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2027-02-29", "2027 is no leap year"),
        ("February 29, 2027", "2027 is no leap year"),
        ("2027-04-31", "April 2027 has no day 31"),
        ("2027-13-01", "twelve months, not 13"),
        ("2027-00-01", "twelve months, not 0"),
        ("0000-01-01", "There is no such day"),
        ("5/10/2027", "day and month, or month and day"),
        ("10.5.27", "day and month, or month and day"),
        ("May 10", "no date with its year"),
        ("", "no date with its year"),
        ("next spring 2027", "This is no date."),
        ("10 Ma 2027", "This is no date."),
        ("10 Mai 2027", "This is no date."),
    ],
)
def test_what_is_no_date(text, told):
    with pytest.raises(Refusal) as caught:
        read_date(text, "--last-frost")
    (fault,) = caught.value.faults
    assert (fault.place, fault.read) == ("--last-frost", text)
    assert told in fault.sentence
    assert "2027-05-10" in fault.remedy
