"""What the page of settings shows beside its form: backups, earlier gardens, cautions."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from halfpail.application.kept import GardenSettings, Kept, StoreFile
from halfpail.application.warm_soil import SoilWarmth, WarmthQuestion, celsius_of, warm_soil
from halfpail.findings import Notice, Refusal
from halfpail.quantities.showing import show_length
from halfpail.quantities.temperature import show_temperature
from halfpail.quantities.units import System
from halfpail.reference.cautions import cautions
from halfpail.web.forms.garden_settings import HOUSEHOLD, SettingsForm
from halfpail.web.pages.keeping import KeptPage
from halfpail.wiring import services
from halfpail.working import Working

QUARTERS = (1, 4, 7, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupRow:
    """A backup: its name, when it was made, and what is in it."""

    name: str
    made: str
    holds: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingsPage:
    """The form, what can be restored, and the cautions for this household."""

    of: KeptPage[GardenSettings]
    form: SettingsForm
    backups: tuple[BackupRow, ...]
    earlier: tuple[Kept[GardenSettings], ...]
    cautions: tuple[Notice, ...]
    warmth: str = ""
    warmth_notices: tuple[Notice, ...] = ()
    working: Working = ()


def settings_page(of: KeptPage[GardenSettings]) -> SettingsPage:
    """The settings of the garden."""
    assert isinstance(of.form, SettingsForm)
    home = of.form.home
    answers = home.kept.value.answers
    warm = _warmth(home.about.climate)
    living = [name for name in HOUSEHOLD if answers.get(name) == "yes"]
    return SettingsPage(
        of=of,
        form=of.form,
        backups=tuple(_row(one) for one in services().backups(services().folder).all()),
        earlier=home.store.gardens.bin(),
        cautions=tuple(
            one.notice for key, one in cautions().items() if key.startswith(tuple(living))
        )
        if living
        else (),
        warmth=_warmth_words(warm, of.form.look.system) if warm else "",
        warmth_notices=warm.notices if warm else (),
        working=warm.working if warm else (),
    )


def _warmth(climate: WarmthQuestion | None) -> SoilWarmth | None:
    """How warm the soil is taken to be; None where nothing is known, or it cannot be so."""
    try:
        return warm_soil(climate) if climate else None
    except Refusal:
        return None


def _warmth_words(warm: SoilWarmth, system: System) -> str:
    """The soil of four months at the depth of the food; the year does not matter to it."""
    depth = show_length(Fraction(warm.depth_m), system)
    days = (date(2027, month, 15) for month in QUARTERS)
    told = ", ".join(
        f"{show_temperature(celsius_of(warm.on(day)), system)} in mid {day:%B}" for day in days
    )
    return f"At a depth of {depth} the soil is taken to be {told}."


def _row(file: StoreFile) -> BackupRow:
    return BackupRow(
        name=file.path.name,
        made=file.made_at.strftime("%Y-%m-%d %H:%M UTC"),
        holds=", ".join(f"{count} {name}" for name, count in file.counts if count) or "nothing",
    )
