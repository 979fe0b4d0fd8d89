"""What the page of the first answer shows."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.forms import BoundField

from halfpail.application.answer_first import FirstAnswer
from halfpail.application.chalk_sum import ChalkedSum
from halfpail.application.explain_first import limits_working, years_working
from halfpail.application.word_first import (
    assumed_words,
    bags_table,
    give_words,
    opening_words,
    phosphorus_words,
    ways_table,
)
from halfpail.application.word_mix import Table, round_words
from halfpail.findings import Notice, loudest_first
from halfpail.quantities.showing import show_area
from halfpail.sources import Citation
from halfpail.web.forms.first import Asked, FirstForm
from halfpail.web.pages.charts import RangeChart
from halfpail.web.pages.first_chart import given_chart
from halfpail.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstSheet:
    """The answer in words, rows and one drawing."""

    opening: str
    give: str
    chalked: ChalkedSum
    round: str
    phosphorus: tuple[str, ...]
    ground: str
    ways: Table
    chart: RangeChart
    bags: Table
    assumed: tuple[tuple[str, Citation], ...]
    notices: tuple[Notice, ...]
    mix_working: Working
    limits_working: Working
    years_working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstPage:
    """The form with its faults, and the answer where there is one.

    `can_keep` says whether there is room for it as the start of a garden.
    """

    form: FirstForm
    sheet: FirstSheet | None
    waiting: bool
    can_keep: bool = False

    @property
    def faulty(self) -> Sequence[BoundField]:
        """The fields with faults, in the order of the page."""
        return self.form.faulty

    @property
    def more_open(self) -> bool:
        """Whether something is filled in among what may stay blank."""
        return any(field.value() for field in self.form.ground if field.name != "ground")

    @property
    def live(self) -> str:
        """The parts of the page that change while one types, beside the answer."""
        return ",".join(f"#{field.id_for_label}_error" for field in self.form.typed)


def first_sheet(answer: FirstAnswer, asked: Asked) -> FirstSheet:
    """The answer as the page shows it."""
    question = asked.question
    return FirstSheet(
        opening=opening_words(answer, question),
        give=give_words(answer, question),
        chalked=answer.sum.chalked,
        round=round_words(answer.sum, question.system),
        phosphorus=phosphorus_words(answer, question),
        ground=show_area(question.area_m2, question.system),
        ways=ways_table(answer, question),
        chart=given_chart(answer, question.system),
        bags=bags_table(answer, question),
        assumed=tuple((assumed_words(one, question), one.citation) for one in answer.assumed),
        notices=loudest_first((*answer.notices, *asked.gathered.notices)),
        mix_working=answer.sum.working,
        limits_working=limits_working(answer, question.system),
        years_working=years_working(answer, question),
    )
