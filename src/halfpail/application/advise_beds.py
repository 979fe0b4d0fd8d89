"""Lime, sulfur and salts for every bed of a garden whose soil test tells its pH."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches

from halfpail.application.advise_lime import LimeAnswer, advise_lime
from halfpail.application.lime_notices import lime_notices
from halfpail.application.lime_question import LimeQuestion
from halfpail.application.open_garden import OpenedGarden
from halfpail.findings import Fault, Notice, Refusal, Severity
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class BedLime:
    """What one bed gets for its pH, calcium and magnesium; without an answer, why there is none."""

    bed: str
    question: LimeQuestion
    answer: LimeAnswer | None
    refused: Refusal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenLime:
    """Every bed with a pH, the names of those without one, and what to mind."""

    beds: tuple[BedLime, ...]
    untested: tuple[str, ...]
    system: System
    notices: tuple[Notice, ...]


def advise_beds(opened: OpenedGarden, system: System) -> GardenLime:
    """Each bed by its own soil test; a bed that no method holds for is told, and stops no other."""
    beds = tuple(
        _advised(one.bed.name, replace(one.lime, system=system)) for one in opened.beds if one.lime
    )
    return GardenLime(
        beds=beds,
        untested=tuple(one.bed.name for one in opened.beds if one.lime is None),
        system=system,
        notices=tuple(_gathered(beds)),
    )


def lime_question_called(opened: OpenedGarden, bed: str) -> LimeQuestion:
    """The lime question of a bed by its name, in any case.

    Raises:
        Refusal: no bed has that name, or its soil test tells no pH.
    """
    by_name = {one.bed.name.casefold(): one for one in opened.beds}
    found = by_name.get(bed.casefold())
    if found is not None and found.lime is not None:
        return found.lime
    if found is not None:
        sentence, remedy = "Its soil test tells no pH.", "Write pH = 6.2 below its soil_test."
    else:
        near = get_close_matches(bed.casefold(), list(by_name), n=1)
        sentence = "No bed has this name."
        remedy = f"Did you mean {by_name[near[0]].bed.name}?" if near else "Write a bed's name."
    raise Refusal(Fault(place="bed", read=bed, sentence=sentence, remedy=remedy))


def _advised(bed: str, question: LimeQuestion) -> BedLime:
    try:
        return BedLime(bed=bed, question=question, answer=advise_lime(question))
    except Refusal as refusal:
        return BedLime(bed=bed, question=question, answer=None, refused=refusal)


def _gathered(beds: tuple[BedLime, ...]) -> Iterator[Notice]:
    """Each notice once, with the beds it is for."""
    found: dict[Notice, list[str]] = {}
    for bed in beds:
        for notice in _of(bed):
            found.setdefault(notice, []).append(bed.bed)
    for notice, names in found.items():
        yield replace(notice, sentence=f"{', '.join(names)}: {notice.sentence}")


def _of(bed: BedLime) -> Iterator[Notice]:
    if bed.answer is not None:
        yield from lime_notices(bed.answer, bed.question)
    for fault in bed.refused.faults if bed.refused else ():
        sentence = f"no lime is worked out. {fault.sentence} {fault.remedy}".strip()
        yield Notice(severity=Severity.CAUTION, sentence=sentence)
