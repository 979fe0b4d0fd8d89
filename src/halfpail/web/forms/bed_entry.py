"""A bed of the garden: its size, what grows there, its past, and its soil test."""

from dataclasses import replace
from functools import partial
from typing import Any

from django import forms
from django.forms import BoundField

from halfpail.application.garden_entry import BedEntry
from halfpail.application.need_of_bed import BedNeed, need_of_bed
from halfpail.domain.bed import History
from halfpail.domain.lime_method import Texture
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import read_area_m2, read_length_m, read_volume_l, read_whole
from halfpail.quantities.units import System
from halfpail.web.forms.entry import EntryForm
from halfpail.web.forms.fields import (
    WHOLE,
    WORDS,
    AmountField,
    FigureField,
    ReadField,
    read_name,
    said,
)
from halfpail.web.words import field_of, key_of
from halfpail.wiring import services

MOST_CROPS = 4
PLACE = "bed"
NO_SIZE = "Fill in the size, or a row and its width, or a container."
NO_CROP = "Fill in what grows there: a crop, or a group: light, medium, heavy or legumes."
ELEMENTS = {
    "P": "Phosphorus, P",
    "K": "Potassium, K",
    "Ca": "Calcium, Ca",
    "Mg": "Magnesium, Mg",
    "S": "Sulfur, S",
    "B": "Boron, B",
}
HISTORIES = {
    History.FED: "compost or fertilizer in the last three years",
    History.VIRGIN: "never fed so far",
}


class BedEntryForm(EntryForm[BedEntry]):
    """Only a name, a size and a crop are due; without a soil test a cautious range is taken."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.read: BedEntry | None = None
        self.need: BedNeed | None = None
        self._row_of: list[int] = []
        us = self.look.system is System.US
        self._ask_size("sq ft" if us else "m²", "ft" if us else "m", "gal" if us else "L")
        for number in range(1, MOST_CROPS + 1):
            self._ask_crop(f"crops-{number}-", "lb per 100 sq ft" if us else "g per m²")
        self._ask_history("in" if us else "cm")
        self._ask_soil("in" if us else "cm")

    @property
    def sized(self) -> list[BoundField]:
        """Name and size."""
        return [self[name] for name in ("name", "size", "row", "row_width", "container")]

    @property
    def crops(self) -> list[list[BoundField]]:
        """The rows of crops."""
        parts = ("crop", "share", "succession", "yield")
        return [[self[f"crops-{at}-{part}"] for part in parts] for at in range(1, MOST_CROPS + 1)]

    @property
    def past(self) -> list[BoundField]:
        """What the ground got before."""
        return [self[name] for name in ("history", "compost_each_year", "compost_years")]

    @property
    def soil(self) -> list[BoundField]:
        """The lines of the laboratory's sheet."""
        return [field for field in self if field.name.startswith("soil_test-")]

    def clean(self) -> dict[str, Any]:
        """The bed as a garden file would tell it, and its ranges; each fault at its field."""
        told = self.cleaned_data
        if not any(told.get(name) for name in ("size", "row", "container")):
            self.add_error("size", NO_SIZE)
        if not any(told.get(f"crops-{row}-crop") for row in range(1, MOST_CROPS + 1)):
            self.add_error("crops-1-crop", NO_CROP)
        if self.errors:
            return told
        try:
            words = self._words()
            self.read = replace(services().read_bed_words(words, PLACE), typed=_as_typed(words))
            self.need = need_of_bed(self.read, self.look.system)
        except Refusal as refusal:
            for fault in refusal.faults:
                self._blame(fault)
        return told

    def entry(self) -> BedEntry:
        """The bed as typed, once the form is valid."""
        assert self.read
        return self.read

    def _words(self) -> dict[str, object]:
        """The words under their keys: those typed here, and kept ones that no box here shows."""
        words = {name: value for name, value in self.initial.items() if name not in self.fields}
        words |= {field.name: self._said(field) for field in self.visible_fields()}
        told = {key_of(name): value for name, value in words.items() if value not in (None, "")}
        rows = self._rows_of_crops(told)
        others = {key: value for key, value in told.items() if not key.startswith("crops[")}
        if len(rows) == 1 and not {"share", "succession"} & set(rows[0]):
            return {**others, **rows[0]}
        numbered = enumerate(rows, start=1)
        return others | {
            f"crops[{at}].{name}": value for at, row in numbered for name, value in row.items()
        }

    def _rows_of_crops(self, told: dict[str, object]) -> list[dict[str, object]]:
        """The rows of crops that are filled in; `_row_of` remembers where each stood."""
        self._row_of = [
            number
            for number in range(1, MOST_CROPS + 1)
            if any(key.startswith(f"crops[{number}].") for key in told)
        ]
        return [
            {
                key.partition(".")[2]: value
                for key, value in told.items()
                if key.startswith(f"crops[{number}].")
            }
            for number in self._row_of
        ]

    def _said(self, field: BoundField) -> object:
        """What a box says, with the unit that was meant."""
        if isinstance(field.field, AmountField | FigureField) and field.value():
            return field.field.words(str(field.value()))
        return self.cleaned_data.get(field.name)

    def _blame(self, fault: Fault) -> None:
        """Put a fault at the box it is about; what is about none of them, at the name."""
        field = field_of(fault.place.removeprefix(f"{PLACE}."))
        if field in ("crop", "yield"):
            field = f"crops-{self._row_of[0] if self._row_of else 1}-{field}"
        elif field.startswith("crops-"):
            _, number, part = field.split("-", 2)
            field = f"crops-{self._row_of[int(number) - 1]}-{part}"
        self.add_error(field if field in self.fields else "name", said(fault))

    def _ask_size(self, area: str, length: str, volume: str) -> None:
        self.fields["name"] = ReadField(read_name, label="What you call it", keys=WORDS)
        self.fields["size"] = AmountField(
            read_area_m2,
            label="Size",
            unit=area,
            keys=WORDS,
            required=False,
            help_text="the area, or both sides, such as 4 x 12 ft",
        )
        self.fields["row"] = _length("Or the length of row", length)
        self.fields["row_width"] = _length("and the width that belongs to the row", length)
        self.fields["container"] = AmountField(
            read_volume_l, label="Or a container of bought mix", unit=volume, required=False
        )

    def _ask_crop(self, row: str, rate: str) -> None:
        self.fields[f"{row}crop"] = ReadField(
            str, label="Crop", keys=WORDS, required=False, help_text="such as tomato"
        )
        self.fields[f"{row}share"] = ReadField(
            str, label="Its share of the bed", required=False, help_text="all of it, or 1/2"
        )
        self.fields[f"{row}succession"] = ReadField(
            str, label="Its turn in the season", keys=WHOLE, required=False, help_text="1, 2 …"
        )
        self.fields[f"{row}yield"] = FigureField(
            label="Harvest you expect", unit=rate, required=False
        )

    def _ask_history(self, depth: str) -> None:
        self.fields["history"] = forms.ChoiceField(
            label="The ground got", choices=[(str(key), text) for key, text in HISTORIES.items()]
        )
        self.fields["compost_each_year"] = AmountField(
            read_length_m,
            label="Compost each year, how deep",
            unit=depth,
            nought=True,
            required=False,
        )
        self.fields["compost_years"] = ReadField(
            partial(read_whole, most=50), label="For how many years", keys=WHOLE, required=False
        )

    def _ask_soil(self, depth: str) -> None:
        self._ask_line("extractant", "Method", "", "as the report names it: Mehlich-3 ICP, Olsen")
        for element, label in ELEMENTS.items():
            self._ask_line(element, label, "ppm")
        self._ask_line("pH", "Soil pH", "")
        self._ask_line("buffer", "Kind of buffer", "", "Mehlich, Adams-Evans, SMP or Sikora")
        self._ask_line("buffer_pH", "Buffer pH", "")
        self._ask_line("acidity", "Or exchangeable acidity", "meq/100 g")
        self._ask_line("organic_matter", "Organic matter", "%")
        self._ask_line("CEC", "Exchange capacity, CEC", "meq/100 g")
        self._ask_line("depth", "How deep the sample was taken", depth)
        self._ask_line("year", "Year", "")
        self.fields["soil_test-texture"] = forms.ChoiceField(
            label="Texture",
            choices=[("", "not known"), *((str(one), str(one)) for one in Texture)],
            required=False,
        )

    def _ask_line(self, key: str, label: str, unit: str, help_text: str = "") -> None:
        keys = WORDS if key in ("extractant", "buffer") else "decimal"
        self.fields[f"soil_test-{key}"] = FigureField(
            label=label, unit=unit, keys=keys, required=False, help_text=help_text
        )


def _length(label: str, unit: str) -> AmountField:
    return AmountField(read_length_m, label=label, unit=unit, required=False)


def _as_typed(words: dict[str, object]) -> dict[str, str]:
    """The words of a bed as an entry keeps them, its name and what is yes or no left out."""
    return {
        key: str(value)
        for key, value in words.items()
        if key != "name" and not isinstance(value, bool)
    }
