"""The calendar against RFC 5545 line by line, and read back by another library."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest
import vobject

from halfpail.application.dated_task import Task
from halfpail.application.write_calendar import CalendarEntry, calendar_entries
from halfpail.documents.calendar_file import CalendarFile
from halfpail.findings import Refusal
from tests.documents.papers import AT, tasks
from tests.documents.test_hostile_names import HOSTILE

WRITER = CalendarFile()
LATER = AT + timedelta(days=3)


def entries(found: Sequence[Task] | None = None, year: int = 2027) -> tuple[CalendarEntry, ...]:
    return calendar_entries("A garden", year, tasks() if found is None else found)


def unfolded(content: bytes) -> list[str]:
    return content.decode("utf-8").replace("\r\n ", "").split("\r\n")


def events(content: bytes) -> dict[str, dict[str, str]]:
    """Every event by its name: each property with its value, parameters kept in the name."""
    found = {}
    for block in re.findall(r"BEGIN:VEVENT\n(.*?)\nEND:VEVENT", "\n".join(unfolded(content)), re.S):
        properties = dict(line.split(":", 1) for line in block.split("\n"))
        found[properties["UID"]] = properties
    return found


def test_lines_are_those_of_the_rfc():
    """RFC 5545, 3.1 (lines of 75 octets, CRLF), 3.4, 3.6, 3.6.1 and 3.8.7 (what must be there)."""
    content = WRITER.write("A garden", entries(), AT)
    assert content.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in content.replace(b"\r\n", b"")
    assert b"\r" not in content.replace(b"\r\n", b"")
    assert max(len(line) for line in content.split(b"\r\n")) <= 75
    lines = unfolded(content)
    assert lines[0] == "BEGIN:VCALENDAR"
    assert lines.count("VERSION:2.0") == 1
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    for line in lines[:-1]:
        assert re.match(r"[A-Z-]+(;[A-Z-]+=[A-Z]+)*:", line), line
    for properties in events(content).values():
        assert re.fullmatch(r"\d{8}", properties["DTSTART;VALUE=DATE"])
        assert properties["DTEND;VALUE=DATE"] > properties["DTSTART;VALUE=DATE"]
        assert properties["DTSTAMP"] == "20270401T120000Z"
        assert properties["SEQUENCE"] == "0"


def test_another_library_reads_the_same_back():
    content = WRITER.write("A garden", entries(), AT)
    read = vobject.readOne(content.decode("utf-8"))
    found = {
        (one.uid.value, one.dtstart.value, one.summary.value) for one in read.contents["vevent"]
    }
    assert found == {(one.uid, one.on, one.title) for one in entries()}
    for one in read.contents["vevent"]:
        assert one.dtend.value - one.dtstart.value == timedelta(days=1)


def test_names_are_all_different_and_stay():
    once, again = entries(), entries()
    assert once == again
    assert len({one.uid for one in once}) == len(once) > 5
    assert WRITER.write("A garden", once, AT) == WRITER.write("A garden", again, AT)


def test_what_moved_counts_up_and_what_is_gone_is_called_off():
    first = entries()
    before = WRITER.write("A garden", first, AT)
    moved = replace(first[0], on=first[0].on + timedelta(days=2))
    after = WRITER.write("A garden", (moved, *first[1:-1]), LATER, before)
    found = events(after)
    assert set(found) == {one.uid for one in first}
    assert found[moved.uid]["SEQUENCE"] == "1"
    assert found[moved.uid]["DTSTART;VALUE=DATE"] == f"{moved.on:%Y%m%d}"
    assert found[first[1].uid]["SEQUENCE"] == "0"
    gone = found[first[-1].uid]
    assert (gone["STATUS"], gone["SEQUENCE"]) == ("CANCELLED", "1")
    third = events(WRITER.write("A garden", first, LATER, after))
    assert third[first[-1].uid]["SEQUENCE"] == "2"
    assert third[first[-1].uid]["STATUS"] == "CONFIRMED"


def test_a_revision_is_the_least_number_and_a_change_goes_beyond_it():
    first = entries()
    before = WRITER.write("A garden", [replace(one, revision=3) for one in first], AT)
    assert {one["SEQUENCE"] for one in events(before).values()} == {"3"}
    moved = replace(first[0], on=first[0].on + timedelta(days=2), revision=3)
    after = events(WRITER.write("A garden", (moved, *first[1:]), LATER, before))
    assert after[moved.uid]["SEQUENCE"] == "4"
    assert after[first[1].uid]["SEQUENCE"] == "3"


def test_next_years_task_is_another_task():
    task = Task(key="lime", on=date(2027, 10, 1), kind="lime", title="Spread lime")
    later = replace(task, on=date(2028, 10, 1))
    assert entries([task])[0].uid == entries([later])[0].uid
    assert entries([task])[0].uid != entries([later], 2028)[0].uid


def test_thirty_hostile_names_stay_one_line_each():
    found = [
        Task(key=name, on=date(2027, 5, 1), kind="feed", title=name, details=name)
        for name in HOSTILE
    ]
    content = WRITER.write("#garden\r\nBEGIN:VEVENT", entries(found), AT)
    assert len(events(content)) == len(HOSTILE) == 30
    assert max(len(line) for line in content.split(b"\r\n")) <= 75
    read = vobject.readOne(content.decode("utf-8"))
    titles = {one.summary.value for one in read.contents["vevent"]}
    assert len(titles) == 30
    assert not any(sign in title for title in titles for sign in "\u202e\u2066\x00\x07\n")


@pytest.mark.parametrize("junk", [b"junk", b"\xff\xfe", b"BEGIN:VCALENDAR\r\n", b"A:B\r\n" * 9])
def test_an_earlier_file_that_is_no_calendar_is_refused(junk):
    with pytest.raises(Refusal):
        WRITER.write("A garden", entries(), AT, junk)


def test_a_moment_without_a_zone_is_not_taken():
    with pytest.raises(ValueError, match="time zone"):
        WRITER.write("A garden", entries(), datetime(2027, 4, 1))  # noqa: DTZ001 - what is tested
