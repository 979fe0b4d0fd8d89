"""The only place where ports meet adapters; each adapter is loaded when it is first asked for."""

import json
import tomllib
from collections.abc import Mapping
from dataclasses import replace
from functools import cache, cached_property
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeVar

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.page import Press
from halfpail.application.ports import Each, SeasonEngine
from halfpail.application.shelf_ports import Backups, Held, Store
from halfpail.application.spreadsheet import SheetReader
from halfpail.application.table_files import TableWriter
from halfpail.application.whole_garden import JsonFiles
from halfpail.application.write_calendar import CalendarWriter
from halfpail.blending.ports import Sieve, Solver
from halfpail.blending.search import Search

T = TypeVar("T")


class Services:
    """What an entrance may ask for; `store` and `folder` are those opened last."""

    def __init__(self) -> None:
        self.store: Store | None = None
        self.folder: Path | None = None

    @cached_property
    def solver(self) -> Solver:
        """The everyday solver."""
        from halfpail.solvers.highs import Highs

        return Highs()

    @cached_property
    def product_solver(self) -> Solver:
        """The solver that also knows products of columns."""
        from halfpail.solvers.scip import Scip

        return Scip()

    @cached_property
    def sieve(self) -> Sieve:
        """Tries every recipe of a few bags."""
        from halfpail.solvers.sieve import EveryRecipe

        return EveryRecipe()

    @cached_property
    def search(self) -> Search:
        """The search for the best recipe: every recipe tried, or else the solver."""
        return Search(sieve=self.sieve, solver=self.solver)

    @cached_property
    def engine(self) -> SeasonEngine:
        """The engine for the season."""
        from halfpail.engine.planner import Planner

        return Planner(self.solver)

    @cached_property
    def each(self) -> Each:
        """Works on many things at once, on all cores."""
        from halfpail.engine.side_by_side import side_by_side

        return side_by_side

    @cached_property
    def press(self) -> Press:
        """The press for everything on paper."""
        from halfpail.documents.press import TypstPress

        return TypstPress()

    @cached_property
    def limited_press(self) -> Press:
        """The press in a process of its own, which can take no more than its share."""
        from halfpail.documents.limited_press import LimitedPress

        return LimitedPress()

    @cached_property
    def calendar(self) -> CalendarWriter:
        """Writes calendar files."""
        from halfpail.documents.calendar_file import CalendarFile

        return CalendarFile()

    @cached_property
    def sheets(self) -> SheetReader:
        """Opens spreadsheets that nobody has looked at yet."""
        from halfpail.sheets.reader import LimitedReader

        return LimitedReader()

    @cached_property
    def json_files(self) -> JsonFiles:
        """Writes and reads gardens, mixes and plans as JSON."""
        from halfpail.garden_json.files import GardenJson

        return GardenJson()

    @cached_property
    def spreadsheets(self) -> TableWriter:
        """Writes the tables of a garden as one spreadsheet."""
        from halfpail.workbooks.xlsx import XlsxWriter

        return XlsxWriter()

    @cached_property
    def csv_zips(self) -> TableWriter:
        """Writes the tables of a garden as CSV files in one zip."""
        from halfpail.workbooks.csv_zip import CsvZipWriter

        return CsvZipWriter()

    def read_garden(self, path: Path) -> GardenEntry:
        """A garden file as typed, with the faults found in reading it.

        Raises:
            Refusal: nothing of it can be read.
        """
        from halfpail.garden_file.reader import read_file

        return read_file(path)

    def read_bag_row(self, bag: Mapping[str, object], place: str, about: GardenEntry) -> BagEntry:
        """One bag of a garden told by the keys of a garden file, with the words it was typed in.

        Raises:
            Refusal: with every fault found.
        """
        from halfpail.garden_file.reader import read_bag

        return read_bag(bag, place, about.preferences.currency, about.tools.scoop_l)

    def read_bed_row(self, bed: Mapping[str, object], place: str) -> BedEntry:
        """One bed told by the keys of a garden file, with the words it was typed in.

        Raises:
            Refusal: with every fault found.
        """
        from halfpail.garden_file.typed_words import words_of

        return replace(self.read_bed(bed, place), typed=words_of(bed))

    def read_bed(self, bed: Mapping[str, object], place: str) -> BedEntry:
        """One bed told by the keys of a garden file.

        Raises:
            Refusal: with every fault found.
        """
        from halfpail.garden_file.reader import read_bed

        return read_bed(bed, place)

    def read_bed_words(self, words: Mapping[str, object], place: str) -> BedEntry:
        """One bed told by words under keys such as `size`, `soil_test.P` and `crops[1].crop`.

        Raises:
            Refusal: with every fault found.
        """
        from halfpail.garden_file.typed_words import tables_of_words

        return self.read_bed(tables_of_words(words), place)

    def read_garden_text(self, text: str) -> GardenEntry:
        """The text of a garden file as typed, with the faults found in reading it.

        Raises:
            Refusal: nothing of it can be read.
        """
        from halfpail.garden_file.reader import read_text

        return read_text(text)

    def write_garden(self, entry: GardenEntry) -> str:
        """A garden as the text of a garden file."""
        from halfpail.garden_file.writer import write_text

        return write_text(entry)

    def words_of(self, entry: GardenEntry) -> Mapping[str, Any]:
        """A garden by the keys of a garden file, each amount in words that can be read again."""
        return tomllib.loads(self.write_garden(entry))

    def to_text(self, value: object) -> str:
        """A value as text that is kept in the store."""
        from halfpail.storage.plain_data import to_plain

        return json.dumps(to_plain(value))

    def from_text(self, kind: type[T], text: str) -> T:
        """The value of a type that such text stands for.

        Raises:
            ValueError, TypeError, KeyError: it stands for no such value.
        """
        from halfpail.storage.plain_data import from_plain

        return from_plain(kind, json.loads(text))

    def read_sample_garden(self) -> GardenEntry:
        """The sample garden, which is invented."""
        return self.read_garden_text(sample_garden_text())

    def open_store(
        self, folder: Path | None = None, more_settings: Mapping[str, Any] | None = None
    ) -> Store:
        """The store in a data folder, by default the user's own; `more_settings` are for pages.

        Raises:
            StoreTrouble: it is damaged, written by a newer program, or not to be read.
        """
        from halfpail.storage.open_store import Opening, open_store

        self.folder = folder or data_folder()
        self.store = open_store(Opening(folder=self.folder, more_settings=more_settings))
        return self.store

    def backups(self, folder: Path | None = None) -> Backups:
        """The backups of a data folder."""
        from halfpail.storage.backup import FolderBackups

        return FolderBackups(folder or data_folder())

    def hold(self, folder: Path, address: str) -> Held:
        """A data folder held for this process alone, served under an address if it is served.

        Raises:
            AlreadyRunning: another process holds it; it says under which address.
        """
        from halfpail.storage.folder import Running

        return Running(folder, address)

    def terminal_code(self, address: str) -> str:
        """An address as squares that a phone's camera reads off a terminal."""
        from halfpail.documents.terminal_code import terminal_code

        return terminal_code(address)

    def secret(self, folder: Path) -> str:
        """The secret of a data folder, made at the first start."""
        from halfpail.storage.folder import secret_of

        return secret_of(folder)


def sample_garden_text() -> str:
    """The sample garden as a file to copy."""
    return files("halfpail.sample").joinpath("garden.toml").read_text(encoding="utf-8")


def data_folder() -> Path:
    """Where this user's data lie, as the system has it."""
    from platformdirs import user_data_path

    return user_data_path("halfpail", appauthor=False)


@cache
def services() -> Services:
    """The services of this process."""
    return Services()
