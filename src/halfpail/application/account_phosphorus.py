"""The phosphorus of a bed year by year: what was typed of earlier years, what the diary says."""

from collections.abc import Iterable
from dataclasses import replace

from halfpail.application.read_diary import phosphorus_years
from halfpail.application.work_out_need import WorkedNeed, account_of
from halfpail.domain.bed import Bed
from halfpail.domain.diary import Event
from halfpail.domain.phosphorus_account import (
    PhosphorusLine,
    PhosphorusYear,
    phosphorus_account,
)
from halfpail.reference.needs import movement


def account_phosphorus(
    bed: Bed, worked: WorkedNeed | None, events: Iterable[Event]
) -> tuple[PhosphorusLine, ...]:
    """The account of a bed over all years, with the soil test that may be expected after each.

    A year told in both places counts both: what stands in the diary was not typed before.
    """
    found = phosphorus_years(bed, events)
    if worked is None:
        return phosphorus_account(found, movement("P2O5"))
    years = _together((*worked.question.years, *found))
    return account_of(replace(worked.question, years=years), worked.soil)


def _together(years: Iterable[PhosphorusYear]) -> tuple[PhosphorusYear, ...]:
    summed: dict[int, PhosphorusYear] = {}
    for one in years:
        before = summed.get(one.year, PhosphorusYear(year=one.year))
        summed[one.year] = PhosphorusYear(
            year=one.year,
            given_kg_per_m2=before.given_kg_per_m2 + one.given_kg_per_m2,
            removed_kg_per_m2=before.removed_kg_per_m2 + one.removed_kg_per_m2,
        )
    return tuple(summed[year] for year in sorted(summed))
