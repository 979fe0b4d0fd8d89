"""A wish for a recipe: what the mix is for, or the numbers it should have."""

from functools import partial
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from halfpail.application.keep_apart import bags_apart
from halfpail.application.pose_recipe import MOST_BAGS, MOST_SCOOPS
from halfpail.application.read_target import (
    GRADE_WITHIN,
    RATIO_WITHIN,
    grade_target,
    purpose_target,
    ratio_target,
    read_grade,
)
from halfpail.domain.recipe import Prefer, RecipeWish, Target
from halfpail.findings import Refusal
from halfpail.quantities.reading import read_number, read_whole
from halfpail.reference.purposes import purposes
from halfpail.web.bench import Bench
from halfpail.web.forms.fields import WHOLE, WORDS, ReadField, said

ONE_WISH = "Give one wish: what it is for, or a grade, or a ratio."


class RecipeForm(forms.Form):
    """One wish, and how many bags and scoops there may be."""

    def __init__(self, data: Any, bench: Bench) -> None:
        super().__init__(data, use_required_attribute=False)
        self.bench = bench
        self.fields["purpose"] = forms.ChoiceField(
            label="What it is for",
            choices=[(key, f"{one.name}: {one.meaning}") for key, one in purposes().items()],
            widget=forms.RadioSelect,
            required=False,
        )
        self.fields["grade"] = ReadField(
            partial(read_grade, place="grade"),
            label="Or a grade",
            keys=WORDS,
            required=False,
            help_text="such as 5-3-3",
        )
        self.fields["ratio"] = ReadField(
            str, label="Or a ratio", keys=WORDS, required=False, help_text="such as 3-1-2"
        )
        self.fields["within"] = ReadField(
            read_number,
            label="How far each number may be off",
            required=False,
            help_text="points of a grade (1/2 where nothing is said), parts for 1 of N (1/4)",
        )
        self.fields["scoops"] = ReadField(
            partial(read_whole, least=1, most=MOST_SCOOPS),
            label="At most so many scoops in a round",
            keys=WHOLE,
            required=False,
            help_text=f"{bench.preferences.most_scoops} where nothing is said",
        )
        self.fields["bags"] = ReadField(
            partial(read_whole, least=1, most=MOST_BAGS),
            label="From at most so many bags",
            keys=WHOLE,
            required=False,
            help_text=f"{bench.preferences.most_bags} where nothing is said",
        )

    def clean(self) -> dict[str, Any]:
        """One wish, read as a target.

        Raises:
            ValidationError: there are several wishes, or one that cannot be read.
        """
        told = self.cleaned_data
        wishes = [name for name in ("purpose", "grade", "ratio") if told.get(name)]
        if self.errors:
            return told
        if len(wishes) != 1:
            raise ValidationError({"purpose": ONE_WISH})
        try:
            told["target"] = self._target(wishes[0])
        except Refusal as refusal:
            raise ValidationError({wishes[0]: [said(one) for one in refusal.faults]}) from None
        return told

    def _target(self, wish: str) -> Target:
        told, within = self.cleaned_data, self.cleaned_data["within"]
        if wish == "purpose":
            return purpose_target(told["purpose"])
        if wish == "grade":
            return grade_target(told["grade"], GRADE_WITHIN if within is None else within)
        return ratio_target(told["ratio"], RATIO_WITHIN if within is None else within)

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults, in the order of the page."""
        return [field for field in self if field.errors]

    def wish(self) -> RecipeWish:
        """The wish, once the form is valid."""
        told, bench = self.cleaned_data, self.bench
        return RecipeWish(
            target=told["target"],
            bags=bench.bags,
            prefer=Prefer.CHEAPEST,
            most_scoops=told["scoops"] or bench.preferences.most_scoops,
            most_bags=told["bags"] or bench.preferences.most_bags,
            avoid=frozenset(bag.key for bag in bench.bags if bag.avoid),
            apart=bags_apart(bench.bags),
            shed_is_free=bench.preferences.shed_is_free,
            scoop_l=bench.tools.scoop_l,
        )
