"""The card that stands by the pail while a mix is stirred."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.chalk_sum import grade_number, grade_words
from halfpail.application.keep_apart import clashes
from halfpail.application.page import Link, Page
from halfpail.application.paper_notices import PaperNotice, paper_notices
from halfpail.application.sum_mix import MixQuestion, MixSum, sum_mix
from halfpail.application.word_mix import grade_text, price_words
from halfpail.domain.matter import PRIMARY
from halfpail.domain.mix import Mix
from halfpail.domain.stock import Bag
from halfpail.quantities.showing import show_mass, show_scoops, show_volume
from halfpail.reference.compatibility import Verdict

_KEPT_OUT = {
    Verdict.APART: "never in this pail",
    Verdict.SAME_DAY: "only if the pail is spread the same day",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CardQuestion:
    """A mix to be stirred: its question, so many rounds of it, and what else stands in the shed.

    `batch` is what the gardener calls this making of it; nothing leaves a line to write on.
    """

    name: str
    mix: MixQuestion
    rounds: int
    shed: tuple[Bag, ...] = ()
    prices: bool = False
    batch: str = ""
    link: Link | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PailColumn:
    """What goes into each of `pails` pails that are filled alike."""

    head: str
    rounds: str
    pails: int
    weight: str
    between: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRow:
    """One bag of the mix, in the order of scooping: its scoops in a round, and in each pail."""

    bag: str
    grade: str
    one_round: str
    scoop_weighs: str
    pails: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixingCard(Page):
    """The words of the card."""

    grade: str
    band: tuple[tuple[str, ...], ...]
    label_grade: str
    summary: str
    price: str
    columns: tuple[PailColumn, ...]
    rows: tuple[CardRow, ...]
    too_much: str
    kept_out: tuple[str, ...]
    notices: tuple[PaperNotice, ...]
    batch: str
    link: Link | None


def print_mixing_card(question: CardQuestion) -> MixingCard:
    """The card of one mix.

    Raises:
        ValueError: without a single scoop or a single round.
    """
    if question.rounds < 1:
        raise ValueError("a card is for at least one round")
    asked = question.mix
    summed = sum_mix(asked)
    mix, cost = summed.mix, summed.mix.cost_per_kg
    columns = tuple(_columns(question, summed))
    return MixingCard(
        title=f"Mixing card: {question.name}",
        grade=grade_words(mix),
        band=tuple(_band(summed)),
        label_grade=grade_text(summed.printed),
        summary=_summary(question, mix),
        price="" if not question.prices or cost is None else price_words(cost, asked),
        columns=columns,
        rows=tuple(_rows(question, summed)),
        too_much="" if columns else "One round is too much for this pail: take a smaller scoop.",
        kept_out=tuple(kept_out([part.bag for part in mix.parts], question.shed)),
        notices=paper_notices(summed.notices),
        batch=question.batch,
        link=question.link,
    )


def kept_out(inside: Sequence[Bag], others: Sequence[Bag]) -> Iterator[str]:
    """What of the other bags must not go into a pail that holds these, and why."""
    keys = {bag.key for bag in inside}
    for other in others:
        found = () if other.key in keys else clashes([other, *inside])
        pairs = [clash.pair for clash in found if clash.one is other]
        if pairs:
            worst = min(pairs, key=lambda pair: pair.verdict is not Verdict.APART)
            yield f"{other.name}: {_KEPT_OUT[worst.verdict]} ({worst.reason})."


def _band(summed: MixSum) -> Iterator[tuple[str, ...]]:
    for nutrient in PRIMARY:
        if band := summed.bands.shares.get(nutrient):
            numbers = (grade_number(100 * one) for one in (band.low, band.value, band.high))
            yield (str(nutrient), *numbers)


def _summary(question: CardQuestion, mix: Mix) -> str:
    system, rounds = question.mix.system, question.rounds
    return (
        f"{rounds} round{'s' * (rounds > 1)} of {show_scoops(mix.scoops)}, "
        f"{show_mass(rounds * mix.mass_kg, system)} in all. "
        f"A level scoop holds {show_volume(mix.scoop_l, system)}; "
        f"the pail holds {show_volume(question.mix.pail_l, system)} and is filled to half at most."
    )


def pail_rounds(rounds: int, in_a_pail: int) -> tuple[tuple[int, int], ...]:
    """Pails filled alike: how many, and the rounds in each; the last pail takes the rest.

    >>> pail_rounds(14, 6), pail_rounds(4, 6), pail_rounds(12, 6), pail_rounds(3, 0)
    (((2, 6), (1, 2)), ((1, 4),), ((2, 6),), ())
    """
    if not in_a_pail:
        return ()
    full, rest = divmod(rounds, in_a_pail)
    return tuple(pair for pair in ((full, in_a_pail), (1, rest)) if pair[0] and pair[1])


def _columns(question: CardQuestion, summed: MixSum) -> Iterator[PailColumn]:
    filled = pail_rounds(question.rounds, summed.pail.rounds)
    system, band = question.mix.system, summed.bands.mass_kg
    for number, (pails, rounds) in enumerate(filled):
        name = "each pail" if pails > 1 else "the last pail" if number else "the pail"
        yield PailColumn(
            head=name,
            rounds=f"{rounds} round{'s' * (rounds > 1)}",
            pails=pails,
            weight=show_mass(rounds * band.value, system),
            between=f"between {show_mass(rounds * band.low, system)} and "
            f"{show_mass(rounds * band.high, system)}",
        )


def _rows(question: CardQuestion, summed: MixSum) -> Iterator[CardRow]:
    mix = summed.mix
    filled = pail_rounds(question.rounds, summed.pail.rounds)
    for part in mix.parts:
        weight = show_mass(part.bag.scoop_kg(mix.scoop_l), question.mix.system)
        yield CardRow(
            bag=part.bag.name,
            grade=grade_text(part.bag.label.analysis.grade),
            one_round=show_scoops(Fraction(part.scoops)),
            scoop_weighs=weight,
            pails=tuple(show_scoops(Fraction(rounds * part.scoops)) for _, rounds in filled),
        )
