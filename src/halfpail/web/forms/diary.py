"""What a person did: a batch, a feeding, a purchase, a harvest, a note."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Any

from django import forms

from halfpail.application.write_diary import BatchDone, FeedingDone, batch_made, bed_fed
from halfpail.domain.diary import Bought, Event, Harvested, Noted
from halfpail.domain.garden import Garden
from halfpail.findings import Fault, Refusal
from halfpail.quantities.dates import read_date
from halfpail.quantities.reading import read_mass_kg, read_money, read_scoops, read_whole
from halfpail.quantities.units import System
from halfpail.web.clock import today
from halfpail.web.forms.fields import WHOLE, WORDS, AmountField, ReadField, read_name, said
from halfpail.web.look import Look
from halfpail.web.recipes import KnownMix

MOST_ROUNDS = 999
MOST_BAGS = 999
MOST_SCOOPS = 2000
FIRST_YEAR = 1900


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """What the forms of the diary choose from."""

    garden: Garden
    mixes: tuple[KnownMix, ...]
    look: Look


class EventForm(forms.Form):
    """A day and a few words; `token` tells a form sent twice."""

    token = forms.CharField(widget=forms.HiddenInput, required=False, max_length=80)

    def __init__(self, data: Any, day: Day, initial: Mapping[str, str] | None = None) -> None:
        first = {"token": secrets.token_urlsafe(16), "on": today().isoformat(), **(initial or {})}
        super().__init__(data, initial=first, use_required_attribute=False)
        self.day = day
        self.ask()
        self.fields["on"] = ReadField(_read_day, label="Day", keys=WORDS)
        self.fields["note"] = ReadField(_read_note, label="Note", keys=WORDS, required=False)
        self.event: Event | None = None

    def ask(self) -> None:
        """Add the fields of this kind of event."""

    def made_of(self, told: dict[str, Any]) -> Event:
        """The line of the diary.

        Raises:
            Refusal: it cannot be so.
        """
        raise NotImplementedError

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults, in the order of the page."""
        return [field for field in self if field.errors]

    def clean(self) -> dict[str, Any]:
        """The line of the diary, made where every field can be read."""
        told = self.cleaned_data
        if not self.errors:
            try:
                self.event = self.made_of(told)
            except Refusal as refusal:
                place = refusal.faults[0].place
                field = place if place in self.fields else next(iter(self.fields))
                self.add_error(field, [said(fault) for fault in refusal.faults])
        return told

    def recipe(self, name: str) -> Mapping[str, int] | None:
        """The recipe of a mix; None where the name is a bag's."""
        return next((mix.scoops for mix in self.day.mixes if mix.name == name), None)


class BatchForm(EventForm):
    """A mix that was stirred."""

    def ask(self) -> None:
        """Which mix, and how many rounds of it."""
        choices = [(mix.name, mix.words) for mix in self.day.mixes]
        self.fields["mix"] = _choice("Mix", choices)
        self.fields["rounds"] = ReadField(
            partial(read_whole, least=1, most=MOST_ROUNDS),
            label="How many rounds of it",
            keys=WHOLE,
        )

    def made_of(self, told: dict[str, Any]) -> Event:
        """The batch with what was taken from each bag."""
        done = BatchDone(
            on=told["on"],
            mix=told["mix"],
            scoops=self.recipe(told["mix"]) or {},
            rounds=told["rounds"],
            note=told["note"] or "",
        )
        return batch_made(self.day.garden, done)


class FeedingForm(EventForm):
    """So much for one bed."""

    def ask(self) -> None:
        """Which bed, of what, and how many scoops."""
        self.fields["bed"] = _choice("Bed", _names(self.day.garden.beds))
        mixes = [(mix.name, mix.name) for mix in self.day.mixes]
        straight = [(name, f"{name}, straight") for name, _ in _names(self.day.garden.bags)]
        self.fields["of"] = _choice("What it got", [*mixes, *straight])
        self.fields["scoops"] = ReadField(
            _read_given, label="How much", unit="scoops", keys=WORDS, help_text="such as 2 1/4"
        )

    def made_of(self, told: dict[str, Any]) -> Event:
        """The feeding with its weight, what it held and its cost."""
        done = FeedingDone(
            on=told["on"],
            bed=told["bed"],
            of=told["of"],
            scoops=told["scoops"],
            recipe=self.recipe(told["of"]),
            note=told["note"] or "",
        )
        return bed_fed(self.day.garden, done)


class PurchaseForm(EventForm):
    """Bags that were bought."""

    def ask(self) -> None:
        """Which bag, how many, and what was paid for all."""
        currency = self.day.look.currency
        self.fields["bag"] = _choice("Bag", _names(self.day.garden.bags))
        self.fields["bags"] = ReadField(
            partial(read_whole, least=1, most=MOST_BAGS), label="How many", keys=WHOLE
        )
        self.fields["paid"] = ReadField(
            partial(read_money, currency=currency),
            label="Paid for all of them",
            unit=currency,
            required=False,
            help_text="the price of the bag where nothing is said",
        )

    def made_of(self, told: dict[str, Any]) -> Event:
        """The purchase, at the weight of the bag and its list price."""
        bag = next(one for one in self.day.garden.bags if one.name == told["bag"])
        if bag.bag_kg is None:
            raise _refused("bag", bag.name, "The weight of this bag is not known.", "Add it first.")
        paid = told["paid"]
        if paid is None and bag.price is None:
            raise _refused(
                "paid", "", "The price of this bag is not known.", "Write what was paid."
            )
        return Bought(
            on=told["on"],
            bag=bag.name,
            bags=told["bags"],
            bag_kg=bag.bag_kg,
            paid=told["bags"] * (bag.price or Fraction(0)) if paid is None else paid,
            list_price=bag.list_price,
            note=told["note"] or "",
        )


class HarvestForm(EventForm):
    """A crop carried away."""

    def ask(self) -> None:
        """From which bed, of which crop, and how much."""
        heavy = "lb" if self.day.look.system is System.US else "kg"
        self.fields["bed"] = _choice("Bed", _names(self.day.garden.beds))
        self.fields["crop"] = ReadField(
            read_name,
            label="Crop",
            keys=WORDS,
            required=False,
            help_text="the crop of the bed where nothing is said",
        )
        self.fields["weight"] = AmountField(read_mass_kg, label="Weight", unit=heavy)

    def made_of(self, told: dict[str, Any]) -> Event:
        """The harvest."""
        bed = next(one for one in self.day.garden.beds if one.name == told["bed"])
        crop = told["crop"] or bed.crop
        if not crop:
            raise _refused("crop", "", "Nothing is known to grow there.", "Write the crop.")
        return Harvested(
            on=told["on"],
            bed=bed.name,
            crop=crop,
            mass_kg=told["weight"],
            note=told["note"] or "",
        )


class NoteForm(EventForm):
    """A few words."""

    def ask(self) -> None:
        """About which bed, if about one."""
        self.fields["bed"] = _choice(
            "Bed", [("", "the whole garden"), *_names(self.day.garden.beds)], required=False
        )

    def made_of(self, told: dict[str, Any]) -> Event:
        """The note."""
        if not told["note"]:
            raise _refused("note", "", "Nothing is written here.", "Write a few words.")
        return Noted(on=told["on"], note=told["note"], bed=told["bed"])


FORMS: Mapping[str, tuple[str, type[EventForm]]] = {
    "feeding": ("Fed a bed", FeedingForm),
    "batch": ("Made a batch", BatchForm),
    "purchase": ("Bought bags", PurchaseForm),
    "harvest": ("Harvested", HarvestForm),
    "note": ("Note", NoteForm),
}


def _choice(label: str, choices: list[tuple[str, str]], required: bool = True) -> forms.ChoiceField:
    said_wrong = {"required": "Choose one of the list.", "invalid_choice": "It is not in the list."}
    return forms.ChoiceField(
        label=label, choices=choices, required=required, error_messages=said_wrong
    )


def _names(named: Any) -> list[tuple[str, str]]:
    return [(one.name, one.name) for one in named]


def _read_day(text: str) -> Any:
    """A day of our time that is not still to come.

    Raises:
        Refusal: it is no date, lies ahead, or is too long ago.
    """
    on = read_date(text)
    if on > today():
        raise _refused("on", text, "This day is still to come.", "Write the day it was done.")
    if on.year < FIRST_YEAR:
        raise _refused("on", text, "This day is too long ago.", "Write the year in full.")
    return on


def _read_given(text: str) -> Fraction:
    scoops = read_scoops(text)
    if not 0 < scoops <= MOST_SCOOPS:
        sentence = f"Scoops are more than none and at most {MOST_SCOOPS}."
        raise _refused("scoops", text, sentence, "Write what was given.")
    return scoops


def _read_note(text: str) -> str:
    """Words on one line, of letters that can be seen.

    Raises:
        Refusal: it holds what cannot be seen.
    """
    note = " ".join(text.split())
    if not note.isprintable():
        sentence = "There is a letter that cannot be seen."
        raise _refused("note", "", sentence, "Delete the note and type it again.")
    return note


def _refused(place: str, read: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place=place, read=read, sentence=sentence, remedy=remedy))
