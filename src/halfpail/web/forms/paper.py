"""How a document should be printed: the sheet, prices, the labels, and what a gift must tell."""

from functools import partial
from typing import Any

from django import forms

from halfpail.application.gift_label import read_directions, read_gift
from halfpail.application.page import Paper
from halfpail.application.print_pail_label import Gift, LabelSize, LabelWish
from halfpail.findings import Refusal
from halfpail.quantities.dates import read_date
from halfpail.quantities.reading import read_whole
from halfpail.quantities.units import System
from halfpail.web.forms.fields import WHOLE, WORDS, ReadField, read_name, said
from halfpail.web.look import Look

MOST_ROUNDS = 10_000
USUAL_PAPER = {System.US: Paper.LETTER, System.METRIC: Paper.A4}
OF_A_GIFT = ("maker", "address", "net_weight")


class PaperForm(forms.Form):
    """What is asked of a document; where nothing was sent the usual answers stand."""

    def __init__(self, data: Any, look: Look) -> None:
        usual = {
            "paper": USUAL_PAPER[look.system].value,
            "prices": "on",
            "size": LabelSize.SHEET.value,
        }
        super().__init__(data or usual, use_required_attribute=False)
        self.fields["paper"] = _choice("Paper in the printer", [one.value for one in Paper])
        self.fields["prices"] = forms.BooleanField(label="Show prices", required=False)
        self.fields["size"] = _choice("Size of the labels", [one.value for one in LabelSize])
        self.fields["made"] = _words(
            read_date, "Mixed on", "Else the label has a line to write on."
        )
        self.fields["directions"] = _words(
            partial(read_directions, place="directions"), "How much to give, and how often"
        )
        self.fields["maker"] = _words(read_name, "Made by")
        self.fields["address"] = _words(str, "Address of the maker")
        self.fields["net_weight"] = _words(str, "Net weight")

    def clean(self) -> dict[str, Any]:
        """What was sent, with the gift where all of it is told."""
        told: dict[str, Any] = super().clean() or {}
        typed = {name: told.get(name) or "" for name in OF_A_GIFT}
        told["gift"] = None
        if not any(name in self.errors for name in OF_A_GIFT):
            try:
                told["gift"] = read_gift(**typed, places={name: name for name in OF_A_GIFT})
            except Refusal as refusal:
                for fault in refusal.faults:
                    self.add_error(fault.place, said(fault))
        return told

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    @property
    def of_gift(self) -> list[forms.BoundField]:
        """The fields of a gift."""
        return [self[name] for name in OF_A_GIFT]

    @property
    def gift_begun(self) -> bool:
        """Whether something of a gift was typed."""
        return any(field.value() for field in self.of_gift)

    @property
    def paper(self) -> Paper:
        """The sheet, once the form is valid."""
        return Paper(self.cleaned_data["paper"])

    @property
    def prices(self) -> bool:
        """Whether prices are shown, once the form is valid."""
        return bool(self.cleaned_data["prices"])

    @property
    def labels(self) -> LabelWish:
        """How labels should be, once the form is valid."""
        told = self.cleaned_data
        gift: Gift | None = told["gift"]
        return LabelWish(
            size=LabelSize(told["size"]),
            made_on=told["made"],
            directions=told["directions"] or "",
            gift=gift,
        )


class MixPaperForm(PaperForm):
    """The same for one mix, with how many rounds of it are to be stirred."""

    def __init__(self, data: Any, look: Look, rounds: int) -> None:
        super().__init__(data, look)
        self.usual_rounds = rounds
        self.fields["rounds"] = ReadField(
            partial(read_whole, least=1, most=MOST_ROUNDS),
            label="How many rounds to stir",
            keys=WHOLE,
            required=False,
            help_text=f"One pail, at most half full, holds {rounds}.",
        )

    @property
    def rounds(self) -> int:
        """The rounds to stir, once the form is valid; a pail where nothing is typed."""
        return int(self.cleaned_data["rounds"] or self.usual_rounds)


def _choice(label: str, values: list[str]) -> forms.ChoiceField:
    told = {"required": "Choose one of these.", "invalid_choice": "Choose one of these."}
    return forms.ChoiceField(
        label=label, choices=[(one, one) for one in values], error_messages=told
    )


def _words(read: Any, label: str, hint: str = "") -> ReadField:
    return ReadField(read, label=label, keys=WORDS, required=False, help_text=hint)
