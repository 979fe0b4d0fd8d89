"""The handout that teaches the working of a mix, and the same as an exercise with its answers."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.chalk_handout import ChalkStep, bed_steps, mix_steps
from halfpail.application.chalk_plan import plan_steps
from halfpail.application.chalk_sum import grade_words
from halfpail.application.page import Page
from halfpail.application.pencil_sums import PencilSum
from halfpail.application.season_answer import BedAnswer, SeasonAnswer
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.application.word_mix import grade_text
from halfpail.domain.garden import Garden
from halfpail.quantities.showing import show_mass, show_money, show_scoops
from halfpail.reference.bibliography import bibliography
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutQuestion:
    """A mix, one bed that gets it, and whether the results are left open to be filled in."""

    name: str
    mix: MixQuestion
    bed: BedAnswer | None = None
    prices: bool = False
    exercise: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanHandoutQuestion:
    """A plan with its garden, and whether the results are left open to be filled in."""

    garden: Garden
    answer: SeasonAnswer
    prices: bool = False
    exercise: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutStep:
    """One step on the page; `says` are the numbers of its sources at the foot."""

    title: str
    reason: str
    sums: tuple[PencilSum, ...]
    says: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Handout(Page):
    """The words of the handout; `comes_to` are the words before its `outcome`."""

    exercise: bool
    heads: tuple[str, str, str]
    given: tuple[tuple[str, str, str], ...]
    comes_to: str
    outcome: str
    steps: tuple[HandoutStep, ...]
    sources: tuple[str, ...]


def print_handout(question: HandoutQuestion) -> Handout:
    """The handout of a mix: what is given, each sum with its reason, sources at the foot."""
    summed = sum_mix(question.mix)
    steps = mix_steps(summed, question.mix, question.prices)
    if question.bed:
        steps += bed_steps(question.bed, question.mix.system)
    cited = list(dict.fromkeys(one for step in steps for one in step.citations))
    kind = "Exercise" if question.exercise else "Handout"
    return Handout(
        title=f"{kind}: how {question.name} is worked out",
        exercise=question.exercise,
        heads=("bag", "label", "scoops"),
        given=tuple(
            (
                part.bag.name,
                grade_text(part.bag.label.analysis.grade),
                show_scoops(Fraction(part.scoops)),
            )
            for part in summed.mix.parts
        ),
        comes_to="The mix comes to",
        outcome=grade_words(summed.mix),
        steps=tuple(_step(step, cited) for step in steps),
        sources=tuple(source_words(one) for one in cited),
    )


def print_plan_handout(question: PlanHandoutQuestion) -> Handout:
    """The handout of a whole plan: scoops for the beds, rounds, weights and money."""
    answer, garden = question.answer, question.garden
    system = garden.preferences.units
    steps = plan_steps(answer, garden.tools.scoop_l, system, question.prices)
    spent = sum((told.cost for told in answer.bags if told.bought), Fraction(0))
    used_kg = sum((told.used_kg for told in answer.bags), Fraction(0))
    kind = "Exercise" if question.exercise else "Handout"
    return Handout(
        title=f"{kind}: how the plan of {garden.name} is worked out",
        exercise=question.exercise,
        heads=("bag", "label", "to buy"),
        given=tuple(
            (
                told.bag.name,
                grade_text(told.bag.label.analysis.grade),
                str(told.bought) if told.bought else "in the shed",
            )
            for told in answer.bags
            if told.used_kg
        ),
        comes_to="The bags cost" if question.prices else "In all it takes",
        outcome=show_money(spent, answer.currency)
        if question.prices
        else show_mass(used_kg, system),
        steps=tuple(_step(step, ()) for step in steps),
        sources=(),
    )


def _step(step: ChalkStep, cited: Sequence[Citation]) -> HandoutStep:
    return HandoutStep(
        title=step.title,
        reason=step.reason,
        sums=step.sums,
        says=tuple(sorted({cited.index(one) + 1 for one in step.citations})),
    )


def source_words(citation: Citation) -> str:
    """Who says so, in full: title, publisher and year where it is a publication, and the mark.

    >>> from halfpail.sources import Mark
    >>> source_words(Citation(mark=Mark.PROPOSAL, locator="half a pail"))
    'half a pail (our default, not published)'
    """
    known = bibliography().get(citation.source)
    named = [] if known is None else [known.title, known.publisher, known.year]
    words = ", ".join(part for part in (*named, citation.locator) if part)
    return (
        f"{words} ({citation.mark})"
        if words
        else f"{citation.mark}"[:1].upper() + citation.mark[1:]
    )
