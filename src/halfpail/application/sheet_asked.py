"""A sheet that is to be read, and how it speaks: its rows, its heads, what it says differently."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from halfpail.application.found_rows import EntryReader, GardenNow
from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.application.garden_tables import BAGS, BEDS, SOIL_TESTS
from halfpail.application.gather_below import BelowBeds
from halfpail.application.head_words import SOIL_TEST
from halfpail.application.match_columns import Matching
from halfpail.application.row_words import RowWords, head_of, rows_of
from halfpail.application.spreadsheet import Sheet
from halfpail.findings import Fault, Refusal
from halfpail.quantities.typed_text import quoted

# As many bags, beds and tests as a garden file may have, and more lines of other sheets.
MOST_ROWS, MOST_LINES = 200, 2000
OF_A_KIND = (BAGS.name, BEDS.name, SOIL_TESTS.name)
NAME, BED = "name", "bed"
NOTHING_BELOW = BelowBeds(tables={})
# Something below a bed: `crops[2].share`.
_PART = re.compile(r"(\w+)\[(\d+)\]\.?(.*)")
# A remedy of the garden file names its key and a value: `size = "4 x 12 ft"`.
_KEY_AND_VALUE = re.compile(r'(\w+) = (?:"([^"]*)"|(\d+))')


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAsked:
    """A sheet with what it is taken for, the garden it goes into, and who reads entries.

    `below` is what other sheets of the file tell of its beds.
    """

    sheet: Sheet
    matching: Matching
    now: GardenNow
    reader: EntryReader
    below: BelowBeds = NOTHING_BELOW

    def rows(self) -> tuple[RowWords, ...]:
        """The rows that say something.

        Raises:
            Refusal: there are more than a garden has.
        """
        found = tuple(rows_of(self.sheet, self.matching))
        if self.matching.table == SOIL_TESTS.name:
            found = tuple(map(_under_name, found))
        most = MOST_ROWS if self.matching.table in OF_A_KIND else MOST_LINES
        if len(found) > most:
            fault = Fault(
                place=self.sheet.name,
                read=str(len(found)),
                sentence=f"There are more than {most} rows here.",
                remedy="Bring them in in several files.",
            )
            raise Refusal(fault)
        return found

    def at_head(self, fault: Fault) -> Fault:
        """A fault in the words of the file: its row, and the head of its column."""
        before, _, rest = fault.place.partition(", ")
        row, _, key = before.partition(".")
        key = key.removeprefix(SOIL_TEST)
        head = self._head(key) if key else ""
        parts = [row, head, "" if rest == key else rest]
        remedy = _KEY_AND_VALUE.sub(
            lambda told: f"{told[2] or told[3]} under “{self._head(told[1])}”", fault.remedy
        )
        place = ", ".join(filter(None, parts))
        return replace(fault, place=place, read=quoted(fault.read), remedy=remedy)

    def differences(self, one: BagEntry | BedEntry, other: BagEntry | BedEntry) -> tuple[str, ...]:
        """What two entries say differently, in words; where their parts stood is no part of it."""
        if one == other:
            return ()
        before, after = self._words(one), self._words(other)
        return tuple(
            f"{self._head(key)}: {_short(before.get(key))}, in the file {_short(after.get(key))}"
            for key in dict.fromkeys((*before, *after))
            if before.get(key) != after.get(key)
        )

    def _words(self, entry: BagEntry | BedEntry) -> Mapping[str, Any]:
        bare = replace(entry, typed={})
        if isinstance(bare, BagEntry):
            told = self.reader.words_of(replace(self.now.about, bags=(bare,), beds=()))["bags"]
        else:
            told = self.reader.words_of(replace(self.now.about, bags=(), beds=(bare,)))["beds"]
        words: Mapping[str, Any] = told[0]
        return words

    def _head(self, key: str) -> str:
        if part := _PART.fullmatch(key):
            return ", ".join(filter(None, (f"{part[1]} {part[2]}", part[3])))
        if f"{SOIL_TEST}{key}" in self.matching.keys:
            key = f"{SOIL_TEST}{key}"
        own = BED if key == NAME and self.matching.table == SOIL_TESTS.name else key
        return head_of(self.sheet, self.matching, own)


def _under_name(row: RowWords) -> RowWords:
    """A row whose bed stands under the key of names, as those of other sheets do."""
    words = {NAME if key == BED else key: value for key, value in row.words.items()}
    return replace(row, words=words)


def _short(value: object) -> str:
    if value is None:
        return "nothing"
    return (
        "other figures" if isinstance(value, dict | list) else quoted(" ".join(str(value).split()))
    )
