"""The first question: rows of bags and the ground, together one form."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from django.forms import BoundField, Form
from django.http import QueryDict

from halfpail.application.answer_first import FirstQuestion
from halfpail.application.gather_bags import GatheredBags, gather_told
from halfpail.findings import Refusal
from halfpail.quantities.units import System
from halfpail.web.bench import USUAL_TOOLS
from halfpail.web.forms.bag import BagForm
from halfpail.web.forms.fields import ReadField, said
from halfpail.web.forms.ground import GroundForm
from halfpail.web.look import Look

FEWEST_ROWS, MOST_ROWS = 2, 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question that can be answered, and what was told when its bags were filled in."""

    question: FirstQuestion
    gathered: GatheredBags


class FirstForm:
    """Several rows of bags and one piece of ground, read from one address."""

    def __init__(self, data: QueryDict, look: Look) -> None:
        self.typed_in = _typed_in(data, look)
        self.look = look
        self.asked_anything = any(data.get(key, "").strip() for key in data if key != "units")
        bound = data if self.asked_anything else None
        count = _rows(data)
        self.bags = [BagForm(bound, number, self.typed_in) for number in range(1, count + 1)]
        self.ground = GroundForm(bound, self.typed_in)
        self.more_rows = min(count + 1, MOST_ROWS)
        self.room = count < MOST_ROWS

    @property
    def forms(self) -> list[Form]:
        """Every form, in the order of the page."""
        return [*self.bags, self.ground]

    @property
    def fields(self) -> Iterator[BoundField]:
        """Every field, in the order of the page."""
        return (field for form in self.forms for field in form)

    @property
    def typed(self) -> Iterator[BoundField]:
        """The fields that something wrong can be typed in."""
        return (field for field in self.fields if isinstance(field.field, ReadField))

    @property
    def faulty(self) -> list[BoundField]:
        """The fields with faults, in the order of the page."""
        return [field for field in self.fields if field.errors]

    @property
    def bags_typed(self) -> tuple[tuple[str, str], ...]:
        """The rows of bags as parts of an address, to take them to another page."""
        return self._told(self.bags)

    @property
    def everything_typed(self) -> tuple[tuple[str, str], ...]:
        """The whole question as parts of an address."""
        return self._told(self.forms)

    @property
    def query(self) -> str:
        """The same as the end of an address."""
        return urlencode(self.everything_typed)

    def _told(self, forms: Sequence[Form]) -> tuple[tuple[str, str], ...]:
        named = ((form.add_prefix(name), form) for form in forms for name in form.fields)
        told = tuple((name, form.data[name]) for name, form in named if form.data.get(name))
        return (*told, ("units", self.typed_in.system.value)) if told else ()

    @property
    def bags_query(self) -> str:
        """The same as the end of an address."""
        return urlencode(self.bags_typed)

    def asked(self) -> Asked | None:
        """What is asked, or None with each fault at its field."""
        if not self.asked_anything:
            return None
        sound = all([form.is_valid() for form in self.forms])
        filled = [form for form in self.bags if not form.blank]
        if not filled:
            self.bags[0].add_error(
                "grade", "Fill in at least one bag: three numbers such as 4-3-2."
            )
        return self._asked(filled) if sound and filled else None

    def be_patient(self) -> bool:
        """Take back what is said of fields not reached yet; whether there were any."""
        waiting = [field for field in self.faulty if not field.value()]
        for field in waiting:
            del field.form.errors[field.name]
        return bool(waiting)

    def _asked(self, filled: list[BagForm]) -> Asked | None:
        told = self.ground.cleaned_data
        scoop_l = told["scoop"] or USUAL_TOOLS.scoop_l
        try:
            gathered = gather_told([form.line() for form in filled], scoop_l)
        except Refusal as refusal:
            self._blame(refusal)
            return None
        question = FirstQuestion(
            parts=gathered.parts,
            others=gathered.others,
            area_m2=told["ground"],
            scoop_l=scoop_l,
            pail_l=told["pail"] or USUAL_TOOLS.pail_l,
            ground=self.ground.ground(),
            wish=told["wish"],
            ceiling_per_kg=told["ceiling"],
            system=self.look.system,
            currency=self.look.currency,
        )
        return Asked(question=question, gathered=gathered)

    def _blame(self, refusal: Refusal) -> None:
        """Put the faults of labels at their rows; that no bag has a scoop, at the first."""
        by_number = {str(form.number): form for form in self.bags}
        for fault in refusal.faults:
            row = by_number.get(fault.place.partition(",")[0])
            if row:
                row.add_error("grade", said(fault))
            else:
                self.bags[0].add_error("scoops", said(fault))


def _typed_in(data: QueryDict, look: Look) -> Look:
    """Numbers without a unit mean what they meant when they were typed, whatever is shown now."""
    units = data.get("units", "")
    return replace(look, system=System(units)) if units in tuple(System) else look


def _rows(data: QueryDict) -> int:
    """How many rows to show: those asked for, and all that are filled in."""
    filled = [
        number for number in range(1, MOST_ROWS + 1) if data.get(f"{number}-grade", "").strip()
    ]
    asked = data.get("rows", "")
    wanted = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 3 else 0
    return min(max(FEWEST_ROWS, wanted, *filled), MOST_ROWS)
