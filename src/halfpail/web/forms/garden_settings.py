"""What holds for the whole garden: units, money, scoop and pail, frost dates, household."""

from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Any

from django import forms
from django.forms import BoundField

from halfpail.application.kept import GardenSettings
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.garden import Preferences, Tools
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import (
    read_money,
    read_number,
    read_price_per_kg,
    read_volume_l,
    read_whole,
)
from halfpail.quantities.units import System
from halfpail.web.forms.climate import (
    FROST,
    MORE,
    check_depth,
    climate_fields,
    climate_of,
    climate_words,
    frost_dates,
)
from halfpail.web.forms.entry import EntryForm
from halfpail.web.forms.fields import WHOLE, WORDS, AmountField, ReadField, read_name
from halfpail.web.look import CURRENCIES

FINDS = "find"
HOUSEHOLD = {"pets": "Dogs or cats", "children": "Children"}
PARTS = {
    "What it is called": ("name", "preferences-units", "preferences-currency"),
    "Scoop and pail": ("tools-scoop", "tools-pail", "tools-measure"),
    "Frost dates": FROST,
    "Mixes and money": (
        "preferences-mixes",
        "preferences-most_scoops",
        "preferences-most_bags",
        "preferences-visits",
        "preferences-budget",
        "preferences-price_ceiling",
        "preferences-elemental_labels",
    ),
    "Who lives here": tuple(HOUSEHOLD),
}


class SettingsForm(EntryForm[GardenSettings]):
    """Name, scoop and pail are due; the rest has a usual value."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.frost: FrostDates | None = None
        liked = self.home.about.preferences
        for name in HOUSEHOLD:
            self.initial.setdefault(name, self.home.kept.value.answers.get(name) == "yes")
        for name, usual in (("units", liked.units), ("currency", liked.currency)):
            self.initial.setdefault(f"preferences-{name}", str(usual))
        us = self.look.system is System.US
        self.fields["name"] = ReadField(read_name, label="Name of the garden", keys=WORDS)
        self._ask_choices()
        self._ask_tools("cup" if us else "mL", "gal" if us else "L")
        self.fields |= climate_fields(self.look.system)
        self._ask_preferences(liked, "0.80 per lb" if us else "1.80 per kg")

    @property
    def warmth(self) -> list[BoundField]:
        """What few know of how warm the place is."""
        return [self[name] for name in MORE]

    @property
    def is_warmth_open(self) -> bool:
        """Whether something of it is told, or wrong."""
        return any(field.errors or field.value() for field in self.warmth)

    @property
    def parts(self) -> list[tuple[str, list[BoundField]]]:
        """The fields under their headings."""
        return [(title, [self[name] for name in names]) for title, names in PARTS.items()]

    def clean(self) -> dict[str, Any]:
        """Frost dates that make a season."""
        self.frost = frost_dates(self)
        check_depth(self)
        return self.cleaned_data

    def entry(self) -> GardenSettings:
        """The settings as typed, once the form is valid."""
        told, kept = self.cleaned_data, self.home.kept.value
        about = kept.about
        tools = Tools(
            scoop_l=told["tools-scoop"],
            pail_l=told["tools-pail"],
            measure=told["tools-measure"] or about.tools.measure,
        )
        before = {key: text for key, text in about.typed.items() if not key.startswith("climate.")}
        typed = {**before, **{name.replace("-", "."): v for name, v in self.typed().items()}}
        typed |= dict(climate_words(self, self.look.system))
        changed = replace(
            about,
            name=told["name"],
            tools=tools,
            preferences=self._preferences(about.preferences),
            elemental_labels=told["preferences-elemental_labels"],
            climate=climate_of(self, self.frost, about.climate),
            typed=typed,
        )
        answers = {**kept.answers, **{name: "yes" if told[name] else "no" for name in HOUSEHOLD}}
        return replace(kept, about=changed, answers=answers)

    def _preferences(self, liked: Preferences) -> Preferences:
        told = {
            name.removeprefix("preferences-"): value
            for name, value in self.cleaned_data.items()
            if name.startswith("preferences-")
        }
        usual = Preferences()
        return replace(
            liked,
            units=System(told["units"]),
            currency=told["currency"],
            mixes=None if told["mixes"] == FINDS else int(told["mixes"] or 1),
            most_scoops=told["most_scoops"] or usual.most_scoops,
            most_bags=told["most_bags"] or usual.most_bags,
            visits=told["visits"] or usual.visits,
            budget=told["budget"],
            ceiling_per_kg=told["price_ceiling"],
        )

    def _ask_choices(self) -> None:
        systems = [(one.value, one.value) for one in System]
        own = self.home.about.preferences.currency
        currencies = [(one, one) for one in dict.fromkeys((*CURRENCIES, own))]
        self.fields["preferences-units"] = forms.ChoiceField(label="Units", choices=systems)
        self.fields["preferences-currency"] = forms.ChoiceField(
            label="Money", choices=currencies, help_text="prices typed so far keep their numbers"
        )
        numbers = [(str(number), str(number)) for number in range(1, 5)]
        self.fields["preferences-mixes"] = forms.ChoiceField(
            label="How many mixes", choices=[*numbers, (FINDS, "let it be found")]
        )
        mixes = self.home.about.preferences.mixes
        self.initial["preferences-mixes"] = self.initial.get(
            "preferences-mixes", FINDS if mixes is None else str(mixes)
        )
        self.fields["preferences-elemental_labels"] = forms.BooleanField(
            label="My labels state P and K themselves, not P2O5 and K2O", required=False
        )
        for name, label in HOUSEHOLD.items():
            self.fields[name] = forms.BooleanField(label=label, required=False)

    def _ask_tools(self, scoop: str, pail: str) -> None:
        self.fields["tools-scoop"] = AmountField(
            read_volume_l, label="A level scoop holds", unit=scoop
        )
        self.fields["tools-pail"] = AmountField(
            read_volume_l, label="The pail holds to the brim", unit=pail
        )
        self.fields["tools-measure"] = ReadField(
            _read_share,
            label="Smallest share of a scoop you measure",
            required=False,
            help_text="such as 1/4",
        )

    def _ask_preferences(self, liked: Preferences, price: str) -> None:
        currency = self.look.currency
        for name, label, most in (
            ("most_scoops", "Most scoops in one round", 40),
            ("most_bags", "Most bags in one mix", 10),
            ("visits", "How often a bed is fed at most", 6),
        ):
            self.fields[f"preferences-{name}"] = ReadField(
                partial(read_whole, least=1, most=most), label=label, keys=WHOLE, required=False
            )
        self.fields["preferences-budget"] = ReadField(
            partial(read_money, currency=currency),
            label="Most to spend on bags",
            unit=currency,
            required=False,
        )
        self.fields["preferences-price_ceiling"] = ReadField(
            partial(read_price_per_kg, currency=currency),
            label="Highest price worth paying",
            keys=WORDS,
            required=False,
            help_text=f"such as {price}",
        )


def _read_share(text: str) -> Fraction:
    share = read_number(text)
    if not 0 < share <= 1:
        sentence = "This is not a share of a scoop."
        raise Refusal(Fault(place="", read=text, sentence=sentence, remedy="Write 1/4, say."))
    return share
