"""What is wished of a season, and the name a plan is kept under."""

import secrets
from collections.abc import Sequence
from functools import partial
from typing import Any

from django import forms

from halfpail.application.keep_plan import NEW_PLAN_SAVES
from halfpail.quantities.reading import read_money
from halfpail.quantities.rounding import shortest
from halfpail.web.forms.fields import WORDS, ReadField, read_name
from halfpail.web.season_text import SeasonWish

FIND_OUT = "find"
MIXES = (("1", "one mix"), ("2", "two mixes"), ("3", "three mixes"), (FIND_OUT, "find it out"))


SIZES = (
    ("", "an amount of its own for every bed"),
    ("1", "one size of each mix"),
    ("2", "two sizes of each mix"),
    ("3", "three sizes of each mix"),
    ("4", "four sizes of each mix"),
)
CENTS = 2
MORE = ("budget", "cups", "keep_old", "unless_saves", "others")


class SeasonForm(forms.Form):
    """The wish for a plan; `token` tells a form sent twice, `follows` names the plan followed."""

    token = forms.CharField(widget=forms.HiddenInput, required=False, max_length=80)

    def __init__(self, data: Any, last: SeasonWish, currency: str, follows: str = "") -> None:
        first = {"token": secrets.token_urlsafe(16), **_words(last)}
        super().__init__(data, initial=first, use_required_attribute=False)
        self.fields["mixes"] = forms.ChoiceField(
            label="How many mixes",
            choices=MIXES,
            widget=forms.RadioSelect,
            error_messages={"required": "Choose one of these.", "invalid_choice": "Choose one."},
        )
        self.fields["from_today"] = _tick(
            "Plan from today on: count what the diary says was given this year"
        )
        money = partial(read_money, currency=currency)
        self.fields["budget"] = ReadField(
            money, label="Most to spend on bags", unit=currency, required=False
        )
        self.fields["cups"] = forms.ChoiceField(
            label="Amounts to measure",
            choices=SIZES,
            required=False,
            error_messages={"invalid_choice": "Choose one of these."},
        )
        if follows:
            self.fields["keep_old"] = _tick(f"Keep the mixes and amounts of {follows}")
            self.fields["unless_saves"] = ReadField(
                money, label="unless a new plan saves", unit=currency, required=False
            )
        self.fields["others"] = _tick("Also look for truly different plans; that takes longer")

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    @property
    def more(self) -> list[forms.BoundField]:
        """The wishes that few have."""
        return [self[name] for name in MORE if name in self.fields]

    @property
    def is_more_open(self) -> bool:
        """Whether one of these was wished, or is wrong."""
        return any(
            field.errors or (field.value() and field.name != "unless_saves") for field in self.more
        )

    def wish(self) -> SeasonWish:
        """What is wished, once the form is valid."""
        told = self.cleaned_data
        enough = told.get("unless_saves")
        return SeasonWish(
            mixes=None if told["mixes"] == FIND_OUT else int(told["mixes"]),
            from_today=told["from_today"],
            budget=told["budget"],
            cups=int(told["cups"]) if told["cups"] else None,
            keep_old=told.get("keep_old", False),
            unless_saves=NEW_PLAN_SAVES if enough is None else enough,
            others=told["others"],
        )


def _words(wish: SeasonWish) -> dict[str, Any]:
    return {
        "mixes": FIND_OUT if wish.mixes is None else str(wish.mixes),
        "from_today": wish.from_today,
        "budget": "" if wish.budget is None else shortest(wish.budget, CENTS),
        "cups": str(wish.cups or ""),
        "keep_old": wish.keep_old,
        "unless_saves": shortest(wish.unless_saves, CENTS),
        "others": wish.others,
    }


def _tick(label: str) -> forms.BooleanField:
    return forms.BooleanField(label=label, required=False)


class KeepForm(forms.Form):
    """The name of a plan; of several found, which one is to be kept."""

    def __init__(self, data: Any, name: str = "", others: Sequence[tuple[str, str]] = ()) -> None:
        super().__init__(data, initial={"name": name}, use_required_attribute=False)
        if others:
            self.fields["which"] = forms.ChoiceField(
                label="Which plan",
                choices=(("", "the plan on this page"), *others),
                required=False,
                error_messages={"invalid_choice": "Choose one of these."},
            )
        self.fields["name"] = ReadField(read_name, label="Keep this plan as", keys=WORDS)

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    @property
    def which(self) -> str:
        """The place of another plan that is wished instead; once the form is valid."""
        return str(self.cleaned_data.get("which", ""))
