"""What the page of settings shows beside its form: backups, earlier gardens, cautions."""

from dataclasses import dataclass

from halfpail.application.kept import GardenSettings, Kept, StoreFile
from halfpail.findings import Notice
from halfpail.reference.cautions import cautions
from halfpail.web.forms.garden_settings import HOUSEHOLD, SettingsForm
from halfpail.web.pages.keeping import KeptPage
from halfpail.wiring import services


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


def settings_page(of: KeptPage[GardenSettings]) -> SettingsPage:
    """The settings of the garden."""
    assert isinstance(of.form, SettingsForm)
    home = of.form.home
    answers = home.kept.value.answers
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
    )


def _row(file: StoreFile) -> BackupRow:
    return BackupRow(
        name=file.path.name,
        made=file.made_at.strftime("%Y-%m-%d %H:%M UTC"),
        holds=", ".join(f"{count} {name}" for name, count in file.counts if count) or "nothing",
    )
