"""A garden as the bytes of a file of the kind that was asked for."""

from datetime import date
from enum import StrEnum
from typing import Protocol

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.table_files import TableWriter, book_of
from halfpail.application.whole_garden import JsonFiles, WholeGarden


class ExportKind(StrEnum):
    """The kinds of file a garden leaves as; the value ends the file's name."""

    SPREADSHEET = "xlsx"
    CSV = "zip"
    JSON = "json"
    GARDEN_FILE = "toml"


class Writers(Protocol):
    """What writes files."""

    @property
    def json_files(self) -> JsonFiles:
        """Writes JSON."""
        ...

    @property
    def spreadsheets(self) -> TableWriter:
        """Writes spreadsheets."""
        ...

    @property
    def csv_zips(self) -> TableWriter:
        """Writes CSV in a zip."""
        ...

    def write_garden(self, entry: GardenEntry) -> str:
        """Writes garden files."""
        ...


def export_garden(
    writers: Writers, whole: WholeGarden, kind: ExportKind, written_on: date
) -> bytes:
    """The file of a garden; only JSON holds all of it so that it can be read again.

    The same garden, kind and day give the same bytes. A garden file leaves out mixes, diary and
    plans, and says numbers to the ninth decimal place.
    """
    if kind is ExportKind.JSON:
        return writers.json_files.write(whole)
    if kind is ExportKind.GARDEN_FILE:
        return writers.write_garden(whole.garden).encode()
    writer = writers.spreadsheets if kind is ExportKind.SPREADSHEET else writers.csv_zips
    return writer.write(book_of(whole, written_on))
