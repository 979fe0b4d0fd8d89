"""What is in a bag: the likely share of each source it names, and what its label leaves open."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.read_label import sources_of
from halfpail.blending.label_fit import Claim, LabelFit, content, fit_label
from halfpail.blending.ports import Solver
from halfpail.domain.label import Label
from halfpail.domain.material import Material
from halfpail.domain.matter import Nutrient
from halfpail.findings import Notice, Severity
from halfpail.quantities.rounding import shortest
from halfpail.working import Step, Working

_TWO_PLACES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PartInside:
    """One source of a bag: its likely share, and the least and most the label allows [kg/kg].

    `material` is None for the rest that no source fills. `least` and `most` are None where no
    shares give the numbers of the label.
    """

    name: str
    material: str | None
    likely_share: Fraction
    least_share: Fraction | None
    most_share: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """What is likely in one bag. `explained` says whether its sources can give its numbers."""

    bag: str
    parts: tuple[PartInside, ...]
    explained: bool
    sentence: str
    notices: tuple[Notice, ...] = ()
    working: Working = ()


def look_inside(label: Label, name: str, solver: Solver) -> Inside:
    """The likely shares of the sources that a label names, and their ranges.

    The order of the list is a preference: it is kept where it fits the numbers.
    """
    sources = sources_of(label, name)
    materials = sources.materials
    if not materials:
        sentence = "It names no source that is known here, so what is in it cannot be told."
        return Inside(bag=name, parts=(), explained=False, sentence=sentence)
    fit = fit_label(label.analysis, materials, solver)
    return Inside(
        bag=name,
        parts=tuple(_parts(fit, materials)),
        explained=bool(fit.ranges),
        sentence=_sentence(fit, materials),
        notices=(*sources.notices, *_notices(fit, sources.unknown)),
        working=tuple(_working(name, fit, materials)),
    )


def _parts(fit: LabelFit, materials: tuple[Material, ...]) -> Iterator[PartInside]:
    ranges = fit.ranges or ((None, None),) * (len(materials) + 1)
    named = [(material.name, material.key) for material in materials]
    every = [*named, ("what no source fills", None)]
    for (name, key), likely, (least, most) in zip(
        every, (*fit.likely, fit.rest), ranges, strict=True
    ):
        yield PartInside(
            name=name, material=key, likely_share=likely, least_share=least, most_share=most
        )


def _sentence(fit: LabelFit, materials: tuple[Material, ...]) -> str:
    if fit.ranges:
        widest = max(most - least for least, most in fit.ranges[:-1])
        if widest <= Fraction(1, 10):
            return "The label leaves little doubt: each share is known to a tenth."
        return "Several mixes of these sources would bear this label; the likely one is shown."
    return " ".join(_cannot(fit, materials))


def _cannot(fit: LabelFit, materials: tuple[Material, ...]) -> Iterator[str]:
    """Why no shares give the numbers: the richest source is too poor, or they clash."""
    poor = [told for claim in fit.claims if claim.known for told in _too_poor(claim, materials)]
    if poor:
        yield from poor
        return
    yield "No shares of these sources give all its numbers at once."
    missed = [
        f"{_percent(given)} % {claim.nutrient} where the label says {_percent(claim.least)} %"
        for claim in fit.claims
        if (given := fit.gives.get(claim.nutrient)) is not None
        and not claim.least <= given < claim.most
    ]
    if missed:
        yield f"The nearest has {', '.join(missed)}."


def _too_poor(claim: Claim, materials: tuple[Material, ...]) -> Iterator[str]:
    held = {m.name: spread.high for m in materials if (spread := content(m, claim.nutrient))}
    richest = max(held, key=lambda name: held[name])
    if not held[richest]:
        if claim.least:
            yield f"None of its sources holds any {claim.nutrient}."
    elif held[richest] < claim.least:
        yield (
            f"It says {_percent(claim.least)} % {claim.nutrient}, and {richest.lower()}, the "
            f"richest of its sources, holds {_percent(held[richest])} % at the most."
        )


def _notices(fit: LabelFit, unknown: tuple[str, ...]) -> Iterator[Notice]:
    if not fit.in_order:
        sentence = "The order in which the label lists its sources does not fit its numbers."
        yield Notice(severity=Severity.NOTE, sentence=sentence)
    aside = [str(claim.nutrient) for claim in fit.claims if not claim.known]
    if aside:
        sentence = f"Not every source is known for its {', '.join(aside)}, so only a most is held."
        yield Notice(severity=Severity.NOTE, sentence=sentence)
    if unknown:
        sentence = "What is not known here was counted as holding nothing."
        yield Notice(severity=Severity.CAUTION, sentence=sentence)


def _working(name: str, fit: LabelFit, materials: tuple[Material, ...]) -> Iterator[Step]:
    for claim in fit.claims:
        if not claim.known:
            continue
        held = [
            (m, share, content(m, claim.nutrient))
            for m, share in zip(materials, fit.likely, strict=True)
        ]
        terms = [
            f"{_percent(share)} % {m.name.lower()} x {_percent(spread.typical)}"
            for m, share, spread in held
            if spread and spread.typical and share
        ]
        yield Step(
            reason=(
                f"{name}, {claim.nutrient}: the label says {_percent(claim.least)} %, rounded "
                f"down, so less than {_percent(claim.most)}"
            ),
            sum=f"{' + '.join(terms) or '0'} = {_percent(fit.gives[claim.nutrient])} %",
        )
    for material in materials:
        yield Step(
            reason=f"{material.name}: what it holds",
            sum=", ".join(_held(material, [claim.nutrient for claim in fit.claims])),
            citation=material.citation,
        )


def _held(material: Material, nutrients: list[Nutrient]) -> Iterator[str]:
    for nutrient in nutrients:
        spread = content(material, nutrient)
        if spread and spread.high:
            ends = dict.fromkeys((_percent(spread.low), _percent(spread.high)))
            yield f"{nutrient} {' to '.join(ends)} %"


def _percent(share: Fraction) -> str:
    return shortest(100 * share, _TWO_PLACES)
