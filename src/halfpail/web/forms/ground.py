"""The ground to feed, and the few things that may be known of it and of the bench."""

from functools import partial
from typing import Any

from django import forms

from halfpail.application.read_target import read_grade
from halfpail.domain.bed import Ground, History
from halfpail.quantities.reading import (
    read_area_m2,
    read_length_m,
    read_price_per_kg,
    read_volume_l,
    read_whole,
)
from halfpail.quantities.units import System
from halfpail.web.forms.fields import WHOLE, WORDS, AmountField, ReadField
from halfpail.web.look import Look

MOST_YEARS = 50


class GroundForm(forms.Form):
    """Only the ground is due; the rest has a usual value or may stay blank."""

    def __init__(self, data: Any, look: Look) -> None:
        super().__init__(data, use_required_attribute=False)
        us = look.system is System.US
        area, deep, scoop, pail = ("sq ft", "in", "cup", "gal") if us else ("m²", "cm", "mL", "L")
        self.fields["ground"] = AmountField(
            read_area_m2,
            label="Ground to feed",
            unit=area,
            keys=WORDS,
            help_text="all beds together, such as 400, or 4 x 8 ft",
        )
        self.fields["virgin"] = forms.BooleanField(
            label="New ground, never fed with compost or fertilizer", required=False
        )
        self.fields["compost"] = AmountField(
            read_length_m,
            nought=True,
            label="Compost each year so far, how deep",
            unit=deep,
            required=False,
        )
        self.fields["compost_years"] = ReadField(
            partial(read_whole, most=MOST_YEARS),
            label="For how many years",
            unit="years",
            keys=WHOLE,
            required=False,
        )
        self.fields["ceiling"] = ReadField(
            partial(read_price_per_kg, currency=look.currency),
            label="Highest price worth paying",
            keys=WORDS,
            required=False,
            help_text="such as 0.80 per lb" if us else "such as 1.80 per kg",
        )
        self.fields["wish"] = ReadField(
            partial(read_grade, place="wish"),
            label="Wished grade",
            keys=WORDS,
            required=False,
            help_text="such as 5-3-3, to hold the mix against",
        )
        self.fields["scoop"] = AmountField(
            read_volume_l,
            label="A level scoop holds",
            unit=scoop,
            required=False,
            help_text="1 cup where nothing is said" if us else "237 mL where nothing is said",
        )
        self.fields["pail"] = AmountField(
            read_volume_l,
            label="The pail holds",
            unit=pail,
            required=False,
            help_text="5 gallons where nothing is said" if us else "19 L where nothing is said",
        )

    def ground(self) -> Ground:
        """What is known of the ground, once the form is valid."""
        told = self.cleaned_data
        compost = told["compost"] or Ground().compost_m_per_year
        years = 1 if told["compost_years"] is None else told["compost_years"]
        return Ground(
            history=History.VIRGIN if told["virgin"] else History.FED,
            compost_m_per_year=compost,
            compost_years=years if compost else 0,
        )
