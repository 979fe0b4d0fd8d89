"""What the page of files offers: the garden as several kinds of file, mixes and plans alone."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import reverse

from halfpail.application.export_garden import ExportKind
from halfpail.web.home import Home
from halfpail.web.plans import followed

_KINDS = (
    (
        ExportKind.JSON,
        "Everything as JSON",
        "Bags, beds, soil tests, mixes, diary and plans. Opened again, here or elsewhere, it is "
        "the same garden to the last digit.",
    ),
    (
        ExportKind.SPREADSHEET,
        "Everything as a spreadsheet",
        "A sheet for each table, with units in the heads; numbers to reckon with, and no formulas.",
    ),
    (
        ExportKind.CSV,
        "Everything as CSV",
        "The same tables as files of text in one zip, for other programs.",
    ),
    (
        ExportKind.GARDEN_FILE,
        "Garden file",
        "Bags, beds, tools and likings as text that can be written by hand; without mixes, diary "
        "and plans.",
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FileRow:
    """One file that can be had: what it is called, what it holds, and its address."""

    title: str
    holds: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FilesPage:
    """The files of a garden; none where there is no garden yet."""

    name: str = ""
    downloads: tuple[FileRow, ...] = ()
    shared: tuple[FileRow, ...] = ()


def files_page(home: Home | None) -> FilesPage:
    """The files that can be had now."""
    if home is None:
        return FilesPage()
    names = {bag.value.name for bag in home.shelf.bags.all()}
    mixes = [kept for kept in home.shelf.mixes.all() if set(kept.value.scoops) <= names]
    return FilesPage(
        name=home.about.name,
        downloads=(
            *(
                FileRow(title=title, holds=holds, address=reverse("garden as", args=[kind.value]))
                for kind, title, holds in _KINDS
            ),
            *_calendar(home),
        ),
        shared=(
            *(_row("share mix", kept.key, kept.value.name, "a mix") for kept in mixes),
            *(
                _row("share plan", kept.key, kept.value.name, "a plan of a season")
                for kept in home.shelf.seasons.all()
            ),
        ),
    )


def _calendar(home: Home) -> Iterator[FileRow]:
    """The calendar of the plan that is followed, where its days can be known."""
    plan = followed(home)
    climate = plan.value.garden.climate if plan else None
    if plan and climate and climate.frost:
        yield FileRow(
            title="Calendar",
            holds=f"The days of {plan.value.name} for a calendar program; read in again after a "
            "change, it moves what moved and doubles nothing.",
            address=reverse("plan calendar", args=[plan.key]),
        )


def _row(address: str, key: int, name: str, what: str) -> FileRow:
    return FileRow(title=name, holds=what, address=reverse(address, args=[key]))
