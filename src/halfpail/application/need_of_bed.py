"""What a bed should get: typed ranges first, else those of its crop and history without a test."""

from dataclasses import dataclass
from difflib import get_close_matches

from halfpail.application.garden_entry import BedEntry, NeedEntry
from halfpail.domain.bed import Ground, NeedRange, needs_without_test
from halfpail.findings import Fault, Refusal
from halfpail.reference.crops import CropGroup, crop_called, crop_group, crop_groups, crops
from halfpail.sources import Citation, Mark

TYPED = Citation(mark=Mark.TYPED)


@dataclass(frozen=True, slots=True, kw_only=True)
class BedNeed:
    """The ranges of a bed [kg/m²], the group they come from, and the doses its N comes in."""

    needs: tuple[NeedRange, ...]
    group: str
    doses: int


def need_of_bed(entry: BedEntry) -> BedNeed:
    """The ranges of a bed; a nutrient typed by hand takes the place of the table's.

    Raises:
        Refusal: the crop is not known, and no range of nitrogen is typed for it.
    """
    typed = {need.nutrient: _typed(need) for need in entry.needs}
    group = _group(entry)
    if group is None:
        if "N" not in typed:
            raise Refusal(_unknown_crop(entry))
        return BedNeed(needs=tuple(typed.values()), group="", doses=1)
    ground = Ground(
        history=entry.history,
        compost_m_per_year=entry.compost_m_per_year,
        compost_years=entry.compost_years,
    )
    tabled = {need.nutrient: need for need in needs_without_test(group.ranges, ground)}
    return BedNeed(
        needs=tuple({**tabled, **typed}.values()),
        group=group.key,
        doses=group.doses,
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


def _group(entry: BedEntry) -> CropGroup | None:
    crop = crop_called(entry.crop)
    key = crop.group if crop else entry.crop.strip().casefold()
    return crop_groups().get(key) if crop is None else crop_group(key)


def _unknown_crop(entry: BedEntry) -> Fault:
    words = {word.casefold() for crop in crops().values() for word in (crop.name, *crop.synonyms)}
    near = get_close_matches(entry.crop.casefold(), sorted(words), n=3)
    groups = ", ".join(crop_groups())
    meant = f"Did you mean {' or '.join(near)}? Else write" if near else "Write"
    return Fault(
        place=f"{entry.place}.crop",
        read=entry.crop,
        sentence="This crop is not in the table.",
        remedy=f"{meant} its group ({groups}), or give the bed a need of its own.",
    )
