"""Calendar files (RFC 5545): whole days, stable names, and updates instead of doubles."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from halfpail.application.write_calendar import CalendarEntry
from halfpail.documents.letters import visible
from halfpail.findings import Fault, Refusal

if TYPE_CHECKING:
    from icalendar import Event

_MADE_BY = "-//Halfpail//Season//EN"
_SAID = ("DTSTART", "SUMMARY", "DESCRIPTION", "STATUS")
_LARGEST = 5_000_000


class CalendarFile:
    """Writes a calendar; the same entries, moment and earlier file give the same bytes."""

    def write(
        self,
        name: str,
        entries: Sequence[CalendarEntry],
        stamped_at: datetime,
        earlier: bytes | None = None,
    ) -> bytes:
        """The file.

        Raises:
            Refusal: the earlier file is no calendar.
            ValueError: `stamped_at` has no time zone.
        """
        from icalendar import Calendar

        if stamped_at.tzinfo is None:
            raise ValueError("the moment of writing needs its time zone")
        before = _events_of(earlier) if earlier else {}
        calendar = Calendar()
        calendar.add("prodid", _MADE_BY)
        calendar.add("version", "2.0")
        calendar.add("calscale", "GREGORIAN")
        calendar.add("method", "PUBLISH")
        calendar.add("x-wr-calname", visible(name))
        for entry in entries:
            calendar.add_component(_counted(entry, before.get(entry.uid), stamped_at))
        kept = {entry.uid for entry in entries}
        for uid, event in before.items():
            if uid not in kept:
                calendar.add_component(_called_off(event, stamped_at))
        written: bytes = calendar.to_ical()
        return written


def _event(entry: CalendarEntry) -> "Event":
    from icalendar import Event

    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstart", entry.on)
    event.add("dtend", entry.on + timedelta(days=1))
    event.add("summary", visible(entry.title))
    if entry.details:
        event.add("description", visible(entry.details))
    event.add("categories", [entry.kind])
    event.add("transp", "TRANSPARENT")
    event.add("status", "CONFIRMED")
    return event


def _counted(entry: CalendarEntry, before: "Event | None", stamped_at: datetime) -> "Event":
    """The event with its number: its revision, and more than before where it says other things."""
    event = _event(entry)
    number = max(entry.revision, _next_number(event, before)) if before else entry.revision
    return _numbered(event, number, stamped_at)


def _next_number(event: "Event", before: "Event") -> int:
    """One more than before where the event says other things (RFC 5545, 3.8.7.4)."""
    same = all(_said(event, name) == _said(before, name) for name in _SAID)
    return int(before.get("SEQUENCE", 0)) + (not same)


def _numbered(event: "Event", number: int, stamped_at: datetime) -> "Event":
    event.add("dtstamp", stamped_at.astimezone(UTC))
    event.add("sequence", number)
    return event


def _called_off(before: "Event", stamped_at: datetime) -> "Event":
    """An event of the earlier file that is no longer to be done."""
    from icalendar import Event

    event = Event()
    for name in ("UID", "DTSTART", "DTEND", "SUMMARY"):
        if name in before:
            event[name] = before[name]
    event.add("status", "CANCELLED")
    return _numbered(event, _next_number(event, before), stamped_at)


def _said(event: "Event", name: str) -> bytes:
    value = event.get(name)
    return b"" if value is None else value.to_ical()


def _events_of(earlier: bytes) -> Mapping[str, "Event"]:
    """The events of an earlier file by their names."""
    from icalendar import Calendar, Event

    said = "This is no calendar file that can be read."
    if len(earlier) > _LARGEST:
        raise Refusal(Fault(place="earlier calendar", read="", sentence=said))
    try:
        found = Calendar.from_ical(earlier)
        events = [event for event in found.walk("VEVENT") if isinstance(event, Event)]
        return {str(event["UID"]): event for event in events}
    except (ValueError, KeyError, IndexError, AttributeError) as error:
        fault = Fault(place="earlier calendar", read=str(error)[:80], sentence=said)
        raise Refusal(fault) from None
