"""A bag of the garden: its label as printed, what it costs, what is in the shed."""

from fractions import Fraction
from functools import partial
from typing import Any

from django import forms

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry
from halfpail.application.read_bag_line import MOST_OFFERED
from halfpail.domain.manure_interval import Treatment
from halfpail.findings import Refusal
from halfpail.quantities.reading import read_mass_kg, read_money, read_whole
from halfpail.quantities.showing import show_volume
from halfpail.quantities.units import System
from halfpail.web.at_hand import FilledBag
from halfpail.web.forms.entry import EntryForm
from halfpail.web.forms.fields import (
    WHOLE,
    WORDS,
    AmountField,
    LinesField,
    ReadField,
    read_name,
    said,
)

MOST_LABEL = 4000


class BagEntryForm(EntryForm[BagEntry]):
    """Only a name and a label are due; a grade alone will do for a label."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.filled: FilledBag | None = None
        heavy, light = ("lb", "oz") if self.look.system is System.US else ("kg", "g")
        money = partial(read_money, currency=self.look.currency)
        scoop = show_volume(self.home.about.tools.scoop_l, self.look.system)
        self.fields["name"] = ReadField(read_name, label="What you call it", keys=WORDS)
        self.fields["label"] = LinesField(
            label="Label",
            rows=6,
            most=MOST_LABEL,
            help_text="all its lines as printed, or the three numbers alone, such as 4-3-2",
        )
        self.fields["weight"] = _mass("Weight of a full bag", heavy)
        self.fields["price"] = _money(money, "Price of a full bag", self.look.currency)
        self.fields["list_price"] = _money(money, "List price in season", self.look.currency)
        self.fields["offered"] = ReadField(
            partial(read_whole, most=MOST_OFFERED),
            label="How many are on offer",
            keys=WHOLE,
            required=False,
            help_text="as many as you like where nothing is said",
        )
        self.fields["in_shed"] = _mass("In the shed already", heavy, nought=True)
        self.fields["scoop_weighs"] = _mass("One level scoop weighs", light)
        self.fields["scoop_weighs"].help_text = f"on your scale; your scoop holds {scoop}"
        self.fields["manure"] = forms.ChoiceField(
            label="Manure in it, if any, is",
            choices=[(one.value, one.value) for one in reversed(Treatment)],
            required=False,
        )
        self.fields["straight"] = forms.BooleanField(
            label="May be given to a bed on its own, beside the mixes", required=False
        )
        self.fields["avoid"] = forms.BooleanField(
            label="Leave it out of mixes and plans", required=False
        )

    def clean(self) -> dict[str, Any]:
        """The bag filled in, so that a wrong label is told with its line."""
        told = self.cleaned_data
        if "label" not in told:
            return told
        about = self.home.about
        try:
            filled = fill_bag(self._entry(), about.tools.scoop_l, about.elemental_labels)
        except Refusal as refusal:
            self.add_error(
                "label", [_at_line(fault.place, said(fault)) for fault in refusal.faults]
            )
        else:
            self.filled = FilledBag(bag=filled[0], notices=filled[1])
        return told

    def entry(self) -> BagEntry:
        """The bag as typed, once the form is valid."""
        return self._entry()

    def _entry(self) -> BagEntry:
        told = self.cleaned_data
        return BagEntry(
            name=told.get("name") or "this bag",
            place="label",
            label=told["label"].replace("\r\n", "\n"),
            bag_kg=told.get("weight"),
            price=told.get("price"),
            list_price=told.get("list_price"),
            offered=told.get("offered"),
            shed_kg=told.get("in_shed") or Fraction(0),
            scoop_weighs_kg=told.get("scoop_weighs"),
            straight_ok=told.get("straight", False),
            avoid=told.get("avoid", False),
            treatment=Treatment(told.get("manure") or Treatment.UNKNOWN),
            typed=self.typed(),
        )


def _mass(label: str, unit: str, *, nought: bool = False) -> AmountField:
    return AmountField(read_mass_kg, label=label, unit=unit, nought=nought, required=False)


def _money(read: Any, label: str, currency: str) -> ReadField:
    return ReadField(read, label=label, unit=currency, required=False)


def _at_line(place: str, words: str) -> str:
    """A fault of a label with its line, where it has one."""
    line = place.partition(", ")[2]
    return f"{line[0].upper()}{line[1:]}: {words}" if line.startswith("line") else words
