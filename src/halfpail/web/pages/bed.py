"""What the page of one bed shows beside its form: what it should get, and lime."""

from dataclasses import dataclass

from halfpail.application.garden_entry import BedEntry
from halfpail.application.lime_of_bed import lime_question_of
from halfpail.application.need_of_bed import BedNeed
from halfpail.web.at_hand import bed_need
from halfpail.web.forms.bed_entry import BedEntryForm
from halfpail.web.pages.bed_lime import LimeSheet, lime_sheet
from halfpail.web.pages.bed_need import NeedSheet, need_sheet
from halfpail.web.pages.keeping import KeptPage


@dataclass(frozen=True, slots=True, kw_only=True)
class BedPage:
    """The form, and what follows from it."""

    of: KeptPage[BedEntry]
    form: BedEntryForm
    need: NeedSheet | None
    lime: LimeSheet | None

    @property
    def more_crops(self) -> bool:
        """Whether more than one row of crops is filled in."""
        return any(field.value() for row in self.form.crops[1:] for field in row)


def bed_page(of: KeptPage[BedEntry]) -> BedPage:
    """The page of a bed, new or kept."""
    assert isinstance(of.form, BedEntryForm)
    entry, need = _known(of, of.form)
    system = of.form.look.system
    lime = lime_question_of(entry, need, system) if entry and need else None
    return BedPage(
        of=of,
        form=of.form,
        need=need_sheet(need, entry.area_m2, system) if entry and need else None,
        lime=lime_sheet(lime) if lime else None,
    )


def _known(of: KeptPage[BedEntry], form: BedEntryForm) -> tuple[BedEntry | None, BedNeed | None]:
    if form.is_bound:
        return form.read, form.need
    entry = of.kept.value if of.kept and not of.is_draft else None
    return entry, bed_need(entry, form.look.system) if entry else None
