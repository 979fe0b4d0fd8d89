"""One bag as a shop's shelf tells of it: what it is, three numbers, weight, price, scoops."""

from functools import partial
from typing import Any

from django import forms

from halfpail.application.garden_entry import BagEntry
from halfpail.application.read_bag_line import MOST_SCOOPS, BagLine
from halfpail.quantities.reading import read_mass_kg, read_money, read_whole
from halfpail.quantities.units import System
from halfpail.web.forms.fields import WHOLE, WORDS, AmountField, ReadField, read_name
from halfpail.web.look import Look


class BagForm(forms.Form):
    """A row that may stay blank; where anything is typed the three numbers are due."""

    def __init__(self, data: Any, number: int, look: Look) -> None:
        super().__init__(
            data, prefix=str(number), empty_permitted=True, use_required_attribute=False
        )
        self.number = number
        us = look.system is System.US
        weight = "lb" if us else "kg"
        self.fields["name"] = ReadField(
            read_name, label="What it is", required=False, keys=WORDS, help_text="if you like"
        )
        self.fields["grade"] = ReadField(
            str, label="Three numbers", keys=WORDS, help_text="such as 4-3-2"
        )
        self.fields["weight"] = AmountField(
            read_mass_kg, label="Weight", unit=weight, required=False
        )
        self.fields["price"] = ReadField(
            partial(read_money, currency=look.currency),
            label="Price",
            unit=look.currency,
            required=False,
        )
        self.fields["scoops"] = ReadField(
            partial(read_whole, most=MOST_SCOOPS), label="Scoops", keys=WHOLE, required=False
        )

    @property
    def blank(self) -> bool:
        """Whether nothing is typed in this row."""
        return not self.has_changed()

    def line(self) -> BagLine:
        """The bag and its scoops, once the row is valid."""
        told = self.cleaned_data
        entry = BagEntry(
            name=told["name"] or " ".join(told["grade"].split()),
            place=str(self.number),
            label=told["grade"],
            bag_kg=told["weight"],
            price=told["price"],
        )
        return BagLine(entry=entry, scoops=told["scoops"])
