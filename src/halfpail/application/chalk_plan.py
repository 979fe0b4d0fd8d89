"""The sums of a whole plan as a teacher would chalk them: scoops, weights, money."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from halfpail.application.chalk_handout import ChalkStep
from halfpail.application.pencil_sums import PencilSum, comes_out, product, total
from halfpail.application.season_answer import BagAnswer, MixAnswer, SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.units import System, size_of

NONE = Fraction(0)
_PLACES = 4


def plan_steps(
    answer: SeasonAnswer, scoop_l: Fraction, system: System, prices: bool
) -> tuple[ChalkStep, ...]:
    """The steps from what each bed gets to what is stirred, weighed out and paid.

    `scoop_l` is what a level scoop holds [L].
    """
    return (
        *(
            _stirred(mix_name(number), mix, answer)
            for number, mix in enumerate(answer.mixes)
            if len(mix.round.parts) > 1
        ),
        *_used(answer, scoop_l, system),
        *(_paid(answer) if prices else ()),
    )


def _stirred(name: str, mix: MixAnswer, answer: SeasonAnswer) -> ChalkStep:
    given = _given(name, answer)
    scoops = Fraction(sum(part.scoops for part in mix.round.parts))
    made = product([str(mix.rounds), shortest(scoops, _PLACES)], about="stirred")
    return ChalkStep(
        title=f"Scoops of {name}",
        reason="What the beds get, added up. Whole rounds are stirred, so that there is enough; "
        "what is over stays in the pail.",
        sums=(*_together(given, "for the beds"), _with_unit(made, "scoops")),
    )


def _used(answer: SeasonAnswer, scoop_l: Fraction, system: System) -> Iterator[ChalkStep]:
    small, unit = ("oz", "lb") if system is System.US else ("g", "kg")
    sums = tuple(
        _used_sum(told, terms, scoop_l, system)
        for told in answer.bags
        if (terms := tuple(_terms(told, answer)))
    )
    if sums:
        yield ChalkStep(
            title="Weight of each bag that is used",
            reason="Rounds times scoops of each mix, and what beds get of the bag alone, times "
            f"what a scoop weighs: in {small}, and then in {unit}.",
            sums=sums,
        )


def _used_sum(
    told: BagAnswer, terms: Sequence[str], scoop_l: Fraction, system: System
) -> PencilSum:
    small, unit = ("oz", "lb") if system is System.US else ("g", "kg")
    in_a_unit = size_of(unit) / size_of(small)
    scoops = sum((_worth(term) for term in terms), NONE)
    (written,), result = comes_out(
        [told.bag.scoop_kg(scoop_l) / size_of(small)],
        lambda n: scoops * n[0] / in_a_unit,
        lambda x: decimal(x, 1),
        fewest=1,
    )
    left = f"({' + '.join(terms)}) × {written} ÷ {shortest(in_a_unit, 0)}"
    return PencilSum(left=left, result=result, after=unit, about=told.bag.name)


def _terms(told: BagAnswer, answer: SeasonAnswer) -> Iterator[str]:
    """Rounds times scoops of each mix that the bag is in, and the scoops given of it alone."""
    for mix in answer.mixes:
        scoops = Fraction(sum(one.scoops for one in mix.round.parts if one.bag.key == told.bag.key))
        if scoops and mix.rounds:
            yield f"{mix.rounds} × {shortest(scoops, _PLACES)}"
    alone = sum((Fraction(scoops) for scoops in _given(told.bag.name, answer)), NONE)
    if alone:
        yield shortest(alone, _PLACES)


def _worth(term: str) -> Fraction:
    rounds, _, scoops = term.partition(" × ")
    return Fraction(rounds) * Fraction(scoops or 1)


def _paid(answer: SeasonAnswer) -> Iterator[ChalkStep]:
    bought = [told for told in answer.bags if told.bought]
    if not bought:
        return
    costs = [_cost(told) for told in bought]
    yield ChalkStep(
        title=f"What the bags cost, {answer.currency}",
        reason="How many of each are bought, times the price of one; then all of them together.",
        sums=(*costs, *_together([one.result for one in costs], "together")),
    )


def _cost(told: BagAnswer) -> PencilSum:
    return PencilSum(
        left=f"{told.bought} × {decimal(told.cost / told.bought, 2)}",
        result=decimal(told.cost, 2),
        about=told.bag.name,
    )


def _given(name: str, answer: SeasonAnswer) -> list[str]:
    """The scoops of one food, bed by bed."""
    feeds = (feed for bed in answer.beds for feed in bed.feeds if feed.name == name)
    return [shortest(feed.scoops, _PLACES) for feed in feeds if feed.scoops]


def _together(numbers: Sequence[str], about: str) -> tuple[PencilSum, ...]:
    """Numbers added up; nothing where there is but one."""
    return (total(numbers, about=about),) if len(numbers) > 1 else ()


def _with_unit(one: PencilSum, after: str) -> PencilSum:
    return PencilSum(left=one.left, result=one.result, after=after, about=one.about)
