"""The sums of a mix and of one bed as a teacher would chalk them, step by step."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.chalk_sum import ChalkedSum, grade_number
from halfpail.application.pencil_sums import PencilSum, Show, comes_out, product, total
from halfpail.application.season_answer import BedAnswer, FeedAnswer
from halfpail.application.sum_mix import MixQuestion, MixSum
from halfpail.domain.bed import Content
from halfpail.domain.guarantee import ROUNDING_RULE
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Part
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.showing import show_area, show_rate
from halfpail.quantities.units import System, size_of
from halfpail.reference.defaults import default
from halfpail.reference.materials import material
from halfpail.reference.usable_nitrogen import unnamed_shares
from halfpail.sources import Citation

_PLACES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class ChalkStep:
    """One step: its title, the reason in a line, its sums, and who says so."""

    title: str
    reason: str
    sums: tuple[PencilSum, ...]
    citations: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Weighed:
    """What each label is multiplied with, as written, and the unit of it."""

    written: tuple[str, ...]
    unit: str

    @property
    def amounts(self) -> tuple[Fraction, ...]:
        return tuple(Fraction(one) for one in self.written)

    @property
    def word(self) -> str:
        """What is multiplied, in a word."""
        return "scoops" if self.unit == "scoops" else "weight"

    @property
    def together(self) -> str:
        return total(self.written).result


def mix_steps(summed: MixSum, question: MixQuestion, prices: bool) -> tuple[ChalkStep, ...]:
    """The steps from scoops to the grade, the usable nitrogen, the phosphorus and the pail."""
    weighed = _weighed(summed.chalked, summed)
    steps = [
        *_weight_steps(summed, weighed),
        *(
            _nutrient_step(nutrient, summed, weighed)
            for nutrient in PRIMARY
            if summed.mix.analysis.of(nutrient)
        ),
        *_usable_steps(summed, weighed),
        _pail_step(summed, question),
    ]
    if prices and summed.mix.cost_per_kg is not None:
        steps.append(_price_step(summed, weighed, question))
    return tuple(steps)


def bed_steps(answer: BedAnswer, system: System) -> tuple[ChalkStep, ...]:
    """The steps from scoops to the usable nitrogen and the phosphorus that one bed gets."""
    if not answer.feeds:
        return ()
    unit = "lb" if system is System.US else "kg"
    sums = tuple(_feed_sum(feed, system) for feed in answer.feeds)
    weights = [one.result for one in sums]
    return (
        ChalkStep(
            title=f"{answer.bed.name}: what it gets",
            reason=f"Level scoops times what a scoop of it weighs, in {unit}.",
            sums=sums,
        ),
        *_rate_steps(answer, weights, Content.N_TYPICAL, system),
        *_rate_steps(answer, weights, Content.P2O5, system),
    )


def _weighed(chalked: ChalkedSum, summed: MixSum) -> _Weighed:
    """Weights where scoops weigh differently; else the scoops themselves."""
    if len(chalked.headings) == 2 + len(PRIMARY):
        return _Weighed(written=tuple(map(_scoops, summed.mix.parts)), unit="scoops")
    return _Weighed(written=tuple(row[2] for row in chalked.rows), unit=chalked.headings[2])


def _scoops(part: Part) -> str:
    return shortest(Fraction(part.scoops), _PLACES)


def _weight_steps(summed: MixSum, weighed: _Weighed) -> Iterator[ChalkStep]:
    if weighed.unit == "scoops":
        return
    pairs = zip(summed.mix.parts, weighed.written, strict=True)
    yield ChalkStep(
        title="Weigh the scoops",
        reason="Scoops of different bags weigh differently, so their weights are what counts.",
        sums=tuple(
            _weight_sum(part, summed.mix.scoop_l, weight, weighed.unit) for part, weight in pairs
        ),
    )


def _weight_sum(part: Part, scoop_l: Fraction, weight: str, unit: str) -> PencilSum:
    """Scoops times what one weighs, to the decimals that the weight is written with."""
    scoops, places = Fraction(part.scoops), len(weight.partition(".")[2])
    (written,), result = comes_out(
        [part.bag.scoop_kg(scoop_l) / size_of(unit)],
        lambda n: scoops * n[0],
        lambda x: decimal(x, places),
        fewest=places,
    )
    left = f"{_scoops(part)} × {written}"
    return PencilSum(left=left, result=result, after=unit, about=part.bag.name)


def _nutrient_step(nutrient: Nutrient, summed: MixSum, weighed: _Weighed) -> ChalkStep:
    labels = [
        shortest(100 * part.bag.label.analysis.of(nutrient), _PLACES) for part in summed.mix.parts
    ]
    return ChalkStep(
        title=f"{nutrient} of the mix",
        reason=f"Each bag brings its {weighed.word} times its label. What is beyond a tenth is "
        "dropped: a label promises a least.",
        sums=_mean(summed, weighed, labels, grade_number, "%, the rest dropped"),
        citations=(ROUNDING_RULE,),
    )


def _mean(
    summed: MixSum, weighed: _Weighed, labels: Sequence[str], show: Show, after: str
) -> tuple[PencilSum, ...]:
    """Each bag's weight times its per cent, all of them together, over the whole weight."""
    products = [
        product([amount, label], about=part.bag.name)
        for part, amount, label in zip(summed.mix.parts, weighed.written, labels, strict=True)
    ]
    together = total([one.result for one in products], about="together")
    over = PencilSum(
        left=f"{together.result} ÷ {weighed.together}",
        result=show(Fraction(together.result) / Fraction(weighed.together)),
        after=after,
        about=f"over {weighed.together} {weighed.unit}",
    )
    return (*products, *([together] if len(products) > 1 else []), over)


def _usable_steps(summed: MixSum, weighed: _Weighed) -> Iterator[ChalkStep]:
    mix = summed.mix
    if not mix.usable_n.typical:
        return

    def share(numbers: Sequence[Fraction]) -> Fraction:
        return _weighted(weighed.amounts, numbers) / sum(weighed.amounts)

    exact = [100 * part.bag.usable_n.typical for part in mix.parts]
    written, _ = comes_out(exact, share, _hundredths, fewest=2)
    yield ChalkStep(
        title="Usable N of the mix",
        reason="Of the nitrogen on a label only a part comes this season; each bag counts with "
        "its usable per cent.",
        sums=_mean(summed, weighed, written, _hundredths, "%"),
        citations=tuple(_usable_citations(summed)),
    )
    if mix.analysis.of(Nutrient.P2O5):
        yield _p2o5_step(summed)


def _usable_citations(summed: MixSum) -> Iterator[Citation]:
    for part in summed.mix.parts:
        if not part.bag.usable_n.label:
            continue
        if not part.bag.materials:
            yield unnamed_shares(part.bag.usable_n.label).citation
        for name in part.bag.materials:
            if found := material(name).usable_n_citation:
                yield found


def _p2o5_step(summed: MixSum) -> ChalkStep:
    mix = summed.mix
    exact = [100 * mix.analysis.of(Nutrient.P2O5), 100 * mix.usable_n.typical]
    (p2o5, usable), result = comes_out(exact, lambda n: n[0] / n[1] / 10, _hundredths, fewest=2)
    return ChalkStep(
        title="P2O5 that comes with 0.1 of usable N",
        reason="A bed loses only a little P2O5 a year to its crops: what comes beyond that "
        "builds up.",
        sums=(PencilSum(left=f"0.1 × {p2o5} ÷ {usable}", result=result),),
        citations=(default("p2o5_removal").citation,),
    )


def _pail_step(summed: MixSum, question: MixQuestion) -> ChalkStep:
    unit, units = ("cup", "cups") if question.system is System.US else ("L", "L")
    fill = default("pail_fill")

    def rounds(numbers: Sequence[Fraction]) -> Fraction:
        return numbers[0] * fill.value / numbers[1]

    exact = [question.pail_l / size_of(unit), summed.mix.volume_l / size_of(unit)]
    (pail, one), result = comes_out(exact, rounds, lambda x: str(int(x)), fewest=1)
    return ChalkStep(
        title="Rounds in a pail",
        reason="Whole rounds in a pail that is at most half full, so that it can be turned.",
        sums=(
            PencilSum(
                left=f"{pail} × {shortest(fill.value, 2)} ÷ {one}",
                result=result,
                after=f"round{'s' * (result != '1')}, the rest dropped",
                about=f"in {units}",
            ),
        ),
        citations=(fill.citation,),
    )


def _price_step(summed: MixSum, weighed: _Weighed, question: MixQuestion) -> ChalkStep:
    unit = "lb" if question.system is System.US else "kg"

    def mean(numbers: Sequence[Fraction]) -> Fraction:
        return _weighted(weighed.amounts, numbers) / sum(weighed.amounts)

    exact = [(part.bag.price_per_kg or Fraction(0)) * size_of(unit) for part in summed.mix.parts]
    prices, result = comes_out(exact, mean, _hundredths, fewest=2)
    left = f"({_terms(weighed.written, prices)}) ÷ {weighed.together}"
    return ChalkStep(
        title=f"Price of the mix, {question.currency} per {unit}",
        reason=f"Each bag counts with its {weighed.word} times its price.",
        sums=(PencilSum(left=left, result=result),),
    )


def _feed_sum(feed: FeedAnswer, system: System) -> PencilSum:
    small, unit = ("oz", "lb") if system is System.US else ("g", "kg")
    scoops, in_a_unit = feed.scoops, size_of(unit) / size_of(small)
    (written,), result = comes_out(
        [feed.scoop_kg / size_of(small)],
        lambda n: scoops * n[0] / in_a_unit,
        _hundredths,
        fewest=1,
    )
    left = f"{shortest(scoops, _PLACES)} × {written} ÷ {shortest(in_a_unit, 0)}"
    return PencilSum(left=left, result=result, after=unit, about=f"{feed.name}, {small} a scoop")


def _rate_steps(
    answer: BedAnswer, weights: Sequence[str], content: Content, system: System
) -> Iterator[ChalkStep]:
    """What a bed gets of one content for its area; nothing where it gets none."""
    shares = [100 * feed.holds[content] for feed in answer.feeds]
    if not any(shares):
        return
    nutrient, words = ("N", "usable N") if content is Content.N_TYPICAL else ("P2O5", "P2O5")
    need = answer.bed.need(nutrient)
    aim = f" The bed should get {show_rate(need.aim, system)}." if need else ""
    area = show_area(answer.bed.area_m2, system)
    why = "the two hundreds cancel" if system is System.US else "1 % of a kilogram is 10 g"
    yield ChalkStep(
        title=f"{answer.bed.name}: {words}",
        reason=f"Weight times per cent, over {area}; {why}.{aim}",
        sums=(_rate_sum(answer, weights, shares, system),),
        citations=(need.citation,) if need else (),
    )


def _rate_sum(
    answer: BedAnswer, weights: Sequence[str], shares: Sequence[Fraction], system: System
) -> PencilSum:
    us = system is System.US
    written_area = shortest(answer.bed.area_m2 / size_of("sq ft" if us else "m²"), 2)
    area, scale = Fraction(written_area), Fraction(1 if us else 10)
    amounts = [Fraction(weight) for weight in weights]

    def rate(numbers: Sequence[Fraction]) -> Fraction:
        return scale * _weighted(amounts, numbers) / area

    written, result = comes_out(shares, rate, _hundredths if us else _tenths, fewest=2)
    times = "" if us else "10 × "
    return PencilSum(
        left=f"{times}({_terms(weights, written)}) ÷ {written_area}",
        result=result,
        after="lb per 100 sq ft" if us else "g per m²",
    )


def _weighted(weights: Sequence[Fraction], numbers: Sequence[Fraction]) -> Fraction:
    products = (weight * one for weight, one in zip(weights, numbers, strict=True))
    return sum(products, Fraction(0))


def _terms(weights: Sequence[str], numbers: Sequence[str]) -> str:
    return " + ".join(f"{one} × {other}" for one, other in zip(weights, numbers, strict=True))


def _hundredths(number: Fraction) -> str:
    return decimal(number, 2)


def _tenths(number: Fraction) -> str:
    return decimal(number, 1)
