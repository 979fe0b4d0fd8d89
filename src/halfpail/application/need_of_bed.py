"""What a bed should get: typed ranges first, else those worked out from what is known of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches

from halfpail.application.garden_entry import BedEntry, CropEntry, NeedEntry, YearEntry
from halfpail.application.need_question import (
    CropPlan,
    NeedQuestion,
    planned_crops,
    removed_by,
)
from halfpail.application.work_out_need import WorkedNeed, work_out_need
from halfpail.domain.bed import Content, Ground, NeedRange
from halfpail.domain.phosphorus_account import PhosphorusYear
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import Element
from halfpail.findings import Fault, Notice, Refusal, Severity
from halfpail.quantities.units import System
from halfpail.reference.crops import crop_called, crop_groups, crops
from halfpail.reference.hard_limits import hard_limit
from halfpail.sources import Citation, Mark

TYPED = Citation(mark=Mark.TYPED)
# What a plan counts; boron is told with the need and never planned.
_COUNTED = {"N", *(content.value for content in Content)}


@dataclass(frozen=True, slots=True, kw_only=True)
class BedNeed:
    """The ranges of a bed [kg/m²], the group they come from, and the doses its N comes in.

    `worked` is how they were worked out; None where an unknown crop has all its ranges typed.
    `notices` tell of a typed range that is not used.
    """

    needs: tuple[NeedRange, ...]
    group: str
    doses: int
    worked: WorkedNeed | None
    notices: tuple[Notice, ...] = ()


def need_of_bed(entry: BedEntry, system: System = System.US) -> BedNeed:
    """The ranges of a bed; a nutrient typed by hand takes the place of the worked one.

    Phosphorus does not where the soil test finds it very high: such a bed gets none.

    Raises:
        Refusal: a crop is not known, and no range of nitrogen is typed for it.
    """
    typed = {need.nutrient: _typed(need) for need in entry.needs}
    unknown = tuple(_unknown(entry))
    if unknown:
        if "N" not in typed or entry.crops:
            raise Refusal(*unknown)
        return BedNeed(needs=tuple(typed.values()), group="", doses=1, worked=None)
    worked = work_out_need(_question(entry, system))
    found = {need.nutrient: need for need in worked.needs if need.nutrient in _COUNTED}
    notices: tuple[Notice, ...] = ()
    if "P2O5" in typed and _very_high(worked):
        del typed["P2O5"]
        notices = (_not_used(entry),)
    return BedNeed(
        needs=tuple({**found, **typed}.values()),
        group=worked.crops[0].group.key,
        doses=worked.doses,
        worked=worked,
        notices=notices,
    )


def _very_high(worked: WorkedNeed) -> bool:
    return worked.soil is not None and worked.soil.class_of(Element.P) is SoilClass.VERY_HIGH


def _not_used(entry: BedEntry) -> Notice:
    limit = hard_limit("p2o5_very_high")
    return Notice(
        severity=Severity.STOP,
        sentence=f"{entry.name}: the P2O5 that is typed is not used: {limit.sentence}.",
        citation=limit.citation,
    )


def _question(entry: BedEntry, system: System) -> NeedQuestion:
    listed = tuple(_plan(crop) for crop in entry.crops)
    alone = CropPlan(crop=entry.crop, yield_kg_per_m2=entry.yield_kg_per_m2)
    return NeedQuestion(
        area_m2=entry.area_m2,
        crops=listed or (alone,),
        ground=Ground(
            history=entry.history,
            compost_m_per_year=entry.compost_m_per_year,
            compost_years=entry.compost_years,
        ),
        soil_test=entry.soil_test,
        nitrogen=entry.nitrogen,
        container_l=entry.container_l,
        years=tuple(_year(year) for year in entry.years),
        system=system,
    )


def _plan(crop: CropEntry) -> CropPlan:
    return CropPlan(
        crop=crop.crop,
        share=crop.share,
        succession=crop.succession,
        yield_kg_per_m2=crop.yield_kg_per_m2,
    )


def _year(year: YearEntry) -> PhosphorusYear:
    planned = planned_crops([CropPlan(crop=year.crop, yield_kg_per_m2=year.yield_kg_per_m2)])
    return PhosphorusYear(
        year=year.year,
        given_kg_per_m2=year.given_kg_per_m2,
        removed_kg_per_m2=removed_by(planned).p2o5,
    )


def _typed(need: NeedEntry) -> NeedRange:
    return NeedRange(
        nutrient=need.nutrient,
        least=need.least,
        aim=need.aim,
        most=need.most,
        cap=need.most if need.cap is None else need.cap,
        citation=TYPED,
    )


def _unknown(entry: BedEntry) -> Iterator[Fault]:
    """Crops that are in no table, with their places."""
    named = [(crop.place, crop.crop) for crop in entry.crops]
    named += [(year.place, year.crop) for year in entry.years]
    if not entry.crops:
        named.append((entry.place, entry.crop))
    for place, words in named:
        if crop_called(words) is None and words.strip().casefold() not in crop_groups():
            yield _unknown_crop(place, words)


def _unknown_crop(place: str, words: str) -> Fault:
    known = {word.casefold() for crop in crops().values() for word in (crop.name, *crop.synonyms)}
    near = get_close_matches(words.casefold(), sorted(known), n=3)
    groups = ", ".join(crop_groups())
    meant = f"Did you mean {' or '.join(near)}? Else write" if near else "Write"
    return Fault(
        place=f"{place}.crop",
        read=words,
        sentence="This crop is not in the table.",
        remedy=f"{meant} its group ({groups}), or give the bed a need of its own.",
    )
