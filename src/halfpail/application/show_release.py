"""How the nitrogen of one material or bag comes, week by week, in the soil of one place."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from halfpail.application.explain_release import release_working
from halfpail.application.fill_bag import fill_bag
from halfpail.application.find_curve import BagCurve, curve_of_bag
from halfpail.application.garden_entry import BagEntry
from halfpail.application.read_label import sources_of
from halfpail.application.warm_soil import SoilWarmth, WarmthQuestion, warm_soil
from halfpail.domain.decay_series import DecaySeries
from halfpail.domain.derived_from import recognise
from halfpail.domain.material import Material
from halfpail.domain.matter import Nutrient
from halfpail.domain.release import ReleaseCurve, released_by_day
from halfpail.findings import Fault, Notice, Refusal, Severity
from halfpail.reference.cautions import caution
from halfpail.reference.decay_series import decay_of
from halfpail.reference.defaults import default
from halfpail.reference.materials import materials
from halfpail.reference.phosphorus_by_ph import PhosphorusByPh, phosphorus_by_ph
from halfpail.reference.release import ReleaseKind, release_of
from halfpail.working import Working

MOST_DAYS = 3 * 366
_WEEK = 7
_SCOOP_L = Fraction(1)
_GRADE = re.compile(r"[\d.]+(?:\s*-\s*[\d.]+){2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseQuestion:
    """A material by name or a label as printed, when it is spread, and how long to look.

    `soil_ph` matters to the phosphorus of bone and rock only.
    """

    words: str
    spread: date
    until: date
    warmth: WarmthQuestion
    soil_ph: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """One date: the soil's mean temperature that day [°C], and the share that has come [0-1]."""

    on: date
    soil_c: float
    came_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseAnswer:
    """How nitrogen comes from week to week, when half of it has come, and what later years bring.

    `half_on` is None where half has not come by the end. `later` is the published series of its
    organic nitrogen, where there is one. `usable_p2o5_share` of the first year [0-1] is there for
    bone and rock at a known pH.
    """

    name: str
    kinds: tuple[ReleaseKind, ...]
    curve: ReleaseCurve
    weeks: tuple[Week, ...]
    half_on: date | None
    later: DecaySeries | None
    phosphorus: PhosphorusByPh | None
    usable_p2o5_share: Fraction | None
    notices: tuple[Notice, ...]
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class _Source:
    """What was named: its curve, its materials, and what was noticed in reading it."""

    name: str
    curve: BagCurve
    materials: tuple[Material, ...]
    notices: tuple[Notice, ...]

    @property
    def later(self) -> DecaySeries | None:
        """The published series of its organic nitrogen, of the first material that has one."""
        found = (decay_of(material.key) for material in self.materials)
        return next((series for series in found if series), None)

    @property
    def phosphorus(self) -> PhosphorusByPh | None:
        """What pH does to its phosphorus, of the first material that it matters to."""
        found = (phosphorus_by_ph(material.key) for material in self.materials)
        return next((group for group in found if group), None)


def show_release(question: ReleaseQuestion) -> ReleaseAnswer:
    """The release of one material or label.

    Raises:
        Refusal: nothing is known under that name, it holds no nitrogen, or the dates cannot be.

    >>> answer = show_release(ReleaseQuestion(words="poultry litter", spread=date(2027, 5, 1),
    ...     until=date(2027, 8, 29), warmth=WarmthQuestion(steady_c=25.0)))
    >>> round(answer.weeks[-1].came_share, 2)
    0.56
    """
    _check_dates(question)
    source = _source(question.words)
    warmth = warm_soil(question.warmth)
    days = (question.until - question.spread).days
    temperatures = warmth.days_c(question.spread, days)
    shares = released_by_day(source.curve.curve, temperatures)
    weeks = _weeks(question, warmth, shares)
    phosphorus = source.phosphorus
    usable_p2o5 = (
        phosphorus.usable_share(question.soil_ph)
        if phosphorus is not None and question.soil_ph is not None
        else None
    )
    return ReleaseAnswer(
        name=source.name,
        kinds=source.curve.kinds,
        curve=source.curve.curve,
        weeks=weeks,
        half_on=_half_on(question.spread, shares),
        later=source.later,
        phosphorus=phosphorus,
        usable_p2o5_share=usable_p2o5,
        notices=(*source.notices, *_cautions(source, question), *warmth.notices),
        working=(*warmth.working, *release_working(source.curve, temperatures)),
    )


def _check_dates(question: ReleaseQuestion) -> None:
    days = (question.until - question.spread).days
    if not 0 < days <= MOST_DAYS:
        raise Refusal(
            Fault(
                place="until",
                read=question.until.isoformat(),
                sentence=f"This is not within three years after {question.spread.isoformat()}, "
                "when it is spread.",
                remedy="Write a later date to look until.",
            )
        )
    ph = question.soil_ph
    if ph is not None and not 3 <= ph <= 10:
        raise Refusal(
            Fault(
                place="pH",
                read=str(float(ph)),
                sentence="No garden soil has this pH.",
                remedy="Write the pH of the soil test, between 3 and 10.",
            )
        )


def _source(words: str) -> _Source:
    """A label where there is a figure in the words, else a material by name."""
    if any(letter.isdigit() for letter in words):
        return _bag_source(words)
    found = recognise((words,), materials())
    kinds = [(one, kind) for one in found.materials if (kind := release_of(one.key))]
    if not kinds:
        raise Refusal(_unknown(words, found.materials))
    material, kind = kinds[0]
    return _Source(
        name=material.name,
        curve=BagCurve(curve=kind.curve, soluble_share=None, kinds=(kind,), named=True),
        materials=(material,),
        notices=found.notices,
    )


def _bag_source(words: str) -> _Source:
    name = _GRADE.sub("", words).strip(" ,;") or words
    bag, _ = fill_bag(BagEntry(name=name, place="bag", label=words), _SCOOP_L)
    if not bag.label.analysis.of(Nutrient.N):
        raise Refusal(_no_nitrogen(words))
    curve = curve_of_bag(bag)
    read = sources_of(bag.label, name).notices
    return _Source(
        name=words,
        curve=curve,
        materials=tuple(one for one in materials() if one.key in bag.materials),
        notices=read if curve.named else (*read, _unnamed(curve)),
    )


def _unnamed(curve: BagCurve) -> Notice:
    kind = curve.kinds[0]
    return Notice(
        severity=Severity.NOTE,
        sentence="The label names no source of its nitrogen, so it is read as: "
        f"{kind.meaning[0].lower()}{kind.meaning[1:]}.",
        citation=kind.citation,
    )


def _unknown(words: str, found: Sequence[Material]) -> Fault:
    if found:
        return _no_nitrogen(words)
    return Fault(
        place="material",
        read=words,
        sentence="No material is known under that name.",
        remedy="Write a material such as feather meal, or the label: 4-4-4.",
    )


def _no_nitrogen(words: str) -> Fault:
    return Fault(
        place="material",
        read=words,
        sentence="This holds no nitrogen, so there is no release to follow.",
        remedy="Write a material with nitrogen, such as feather meal, or a label: 4-4-4.",
    )


def _weeks(
    question: ReleaseQuestion, warmth: SoilWarmth, shares: Sequence[float]
) -> tuple[Week, ...]:
    """Every week from spreading on, and the last day."""
    last = len(shares) - 1
    days = sorted({*range(0, last, _WEEK), last})
    dates = ((day, question.spread + timedelta(days=day)) for day in days)
    return tuple(Week(on=on, soil_c=warmth.on(on), came_share=shares[day]) for day, on in dates)


def _half_on(spread: date, shares: Sequence[float]) -> date | None:
    day = next((day for day, share in enumerate(shares) if share >= 0.5), None)
    return None if day is None else spread + timedelta(days=day)


def _cautions(source: _Source, question: ReleaseQuestion) -> Iterator[Notice]:
    """The cautions of the material that have to do with time, and what pH does."""
    keys = {key for one in source.materials for key in one.cautions}
    yield from (caution(key) for key in ("raw_manure", "bone_ph", "rock_ph") if key in keys)
    if source.later is not None:
        yield _manure_phosphorus()
    phosphorus = source.phosphorus
    if phosphorus is not None:
        yield Notice(
            severity=Severity.NOTE,
            sentence="The soil receives all its phosphorus, and the account counts all of it, "
            "whatever the pH lets a crop have.",
        )
    if phosphorus is not None and question.soil_ph is None:
        yield Notice(
            severity=Severity.NOTE,
            sentence="How much of its phosphorus a crop gets hangs on the pH of the soil, which "
            "is not given.",
            citation=phosphorus.citation,
        )


def _manure_phosphorus() -> Notice:
    """What of the phosphorus of manure and compost comes in the first year; sources differ."""
    first = default("manure_p2o5_first_year")
    low, usual, high = (int(100 * one) for one in (first.low or 0, first.value, first.high or 0))
    return Notice(
        severity=Severity.NOTE,
        sentence=f"Of the phosphorus of manure and compost about {usual} % comes in the first "
        f"year, {low} to {high} % by other sources; the account counts all of it.",
        citation=first.citation,
    )
