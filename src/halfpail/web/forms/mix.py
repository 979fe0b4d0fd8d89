"""The scoops of a mix, each bag in its row, with a wish and other tools if one likes."""

from collections.abc import Iterator
from functools import partial

from django import forms
from django.http import QueryDict

from halfpail.application.read_bag_line import MOST_SCOOPS
from halfpail.application.read_target import read_grade
from halfpail.application.sum_mix import MixQuestion
from halfpail.domain.mix import Part
from halfpail.domain.stock import Bag
from halfpail.quantities.reading import read_volume_l, read_whole
from halfpail.quantities.units import System
from halfpail.web.bench import SCOOPS_OF, Bench
from halfpail.web.forms.fields import WHOLE, WORDS, AmountField, ReadField
from halfpail.web.look import Look


class MixForm(forms.Form):
    """Rows appear for bags that have been given a scoop, and stay when it is taken out again."""

    def __init__(self, data: QueryDict, bench: Bench, look: Look) -> None:
        typed = scoops_typed(data, bench)
        others = {name: data[name] for name in ("wish", "scoop", "pail") if name in data}
        named = {SCOOPS_OF + key: text for key, text in typed.items()}
        super().__init__({**named, **others}, use_required_attribute=False)
        self.bench = bench
        self.look = look
        self.rows = [(number, bag) for number, bag in enumerate(bench.bags, 1) if bag.key in typed]
        for number, bag in self.rows:
            self.fields[SCOOPS_OF + bag.key] = _scoops_field(number, bag)
        scoop, pail = ("cup", "gal") if look.system is System.US else ("mL", "L")
        self.fields["wish"] = ReadField(
            partial(read_grade, place="wish"),
            label="Wished grade",
            keys=WORDS,
            required=False,
            help_text="such as 5-3-3, written below the sum",
        )
        self.fields["scoop"] = AmountField(
            read_volume_l,
            label="A level scoop holds",
            unit=scoop,
            required=False,
        )
        self.fields["pail"] = AmountField(
            read_volume_l, label="The pail holds", unit=pail, required=False
        )

    @property
    def scoop_fields(self) -> Iterator[tuple[int, Bag, forms.BoundField]]:
        """Each row: its number, its bag and its field."""
        return ((number, bag, self[SCOOPS_OF + bag.key]) for number, bag in self.rows)

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults, in the order of the page."""
        return [field for field in self if field.errors]

    def question(self) -> MixQuestion | None:
        """The mix to sum; None where there is a fault, or no scoop yet."""
        if not self.is_valid():
            return None
        told = self.cleaned_data
        scoops = {bag.key: told[SCOOPS_OF + bag.key] or 0 for _, bag in self.rows}
        parts = tuple(
            Part(bag=bag, scoops=scoops[bag.key]) for _, bag in self.rows if scoops[bag.key]
        )
        if not parts:
            return None
        inside = {part.bag.key for part in parts}
        return MixQuestion(
            parts=parts,
            others=tuple(bag for bag in self.bench.bags if bag.key not in inside),
            scoop_l=told["scoop"] or self.bench.tools.scoop_l,
            pail_l=told["pail"] or self.bench.tools.pail_l,
            wish=told["wish"],
            system=self.look.system,
            currency=self.look.currency,
        )


def scoops_typed(data: QueryDict, bench: Bench) -> dict[str, str]:
    """The scoops by bag as they stand in the address, a tap on more or less counted in."""
    typed = {
        bag.key: data.get(SCOOPS_OF + bag.key, "")
        for bag in bench.bags
        if SCOOPS_OF + bag.key in data
    }
    if not typed:
        typed = {part.bag.key: str(part.scoops) for part in bench.parts}
    for name, step in (("more", 1), ("less", -1)):
        key = data.get(name, "")
        if any(bag.key == key for bag in bench.bags):
            typed[key] = _stepped(typed.get(key, ""), step)
    return typed


def _stepped(text: str, step: int) -> str:
    """One scoop more or less of what is typed; what is no whole number is left for its fault."""
    plain = text.strip() or "0"
    if not (plain.isascii() and plain.isdigit() and len(plain) < 5):
        return text
    return str(min(max(int(plain) + step, 0), MOST_SCOOPS))


def _scoops_field(number: int, bag: Bag) -> ReadField:
    field = ReadField(
        partial(read_whole, most=MOST_SCOOPS),
        label=f"Scoops of {bag.name}",
        keys=WHOLE,
        required=False,
    )
    field.widget.attrs["id"] = f"scoops-{number}"
    return field
