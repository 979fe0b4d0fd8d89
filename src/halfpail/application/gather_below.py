"""Sheets that tell more of beds: crops, manure, earlier years, what was given, ranges.

Their rows are gathered by bed into the tables that stand below a bed in a garden file.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from halfpail.application.found_rows import plain_name
from halfpail.application.garden_tables import CROPS, GIVEN, MANURE, RANGES, YEARS
from halfpail.application.row_words import RowWords
from halfpail.findings import Fault, Refusal
from halfpail.quantities.numerals import mixed
from halfpail.quantities.reading import read_percent, read_rate_kg_per_m2

BELOW = {
    CROPS.name: "crops",
    MANURE.name: "manure",
    YEARS.name: "years",
    GIVEN.name: "given",
    RANGES.name: "need",
}
BED, NUTRIENT = "bed", "nutrient"
NONE = Fraction(0)
Tables = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class BelowBeds:
    """What stands below each bed, by its plain name; `broken` are beds with a faulty row there."""

    tables: Mapping[str, Tables]
    broken: frozenset[str] = frozenset()

    def of(self, bed: str) -> Tables:
        """What stands below one bed; nothing where no sheet tells more of it."""
        return self.tables.get(plain_name(bed), {})


def gather_below(sheets: Iterable[tuple[str, Iterable[RowWords]]]) -> BelowBeds:
    """The rows of such sheets by bed; each sheet with the name of its table.

    >>> row = RowWords(number=2, words={"bed": "North", "crop": "pea", "share": "50 %"})
    >>> gather_below([("Crops", below_rows("Crops", [row]))]).of(" north ")
    {'crops': [{'crop': 'pea', 'share': '1/2'}]}
    """
    found: dict[str, dict[str, Any]] = {}
    broken: set[str] = set()
    for table, rows in sheets:
        for row in rows:
            bed = bed_of(row)
            below = found.setdefault(bed, {})
            if row.faults:
                broken.add(bed)
            words = {key: value for key, value in row.filled.items() if key != BED}
            if table == RANGES.name:
                nutrient = str(words.pop(NUTRIENT, ""))
                below.setdefault(BELOW[table], {})[nutrient] = words
            else:
                below.setdefault(BELOW[table], []).append(words)
    return BelowBeds(tables=found, broken=frozenset(broken))


def bed_of(row: RowWords) -> str:
    """The plain name of the bed a row is about."""
    return plain_name(str(row.words.get(BED, "")))


def below_rows(table: str, rows: Iterable[RowWords]) -> tuple[RowWords, ...]:
    """The rows of one such sheet in the words of a garden file, with their faults."""
    change = {CROPS.name: _share, MANURE.name: _manure}.get(table)
    return tuple(_changed(row, change) if change else row for row in rows)


def _changed(row: RowWords, change: Callable[[dict[str, object]], None]) -> RowWords:
    words = dict(row.filled)
    try:
        change(words)
    except Refusal as refusal:
        placed = (replace(one, place=f"{row.place}.{one.place}") for one in refusal.faults)
        return replace(row, faults=(*row.faults, *placed))
    return replace(row, words=words)


def _share(words: dict[str, object]) -> None:
    """A garden file tells a share of a bed as a part of one."""
    if "share" in words:
        words["share"] = mixed(read_percent(str(words["share"]), "share") / 100)


def _manure(words: dict[str, object]) -> None:
    """Only the nitrogen of manure is kept: so much of it, shared out between its two kinds."""
    organic, ammonium = (
        read_rate_kg_per_m2(str(words[key]), key, nought=True) if key in words else NONE
        for key in ("organic_N", "ammonium_N")
    )
    amount = organic + ammonium
    if not amount:
        sentence = "There is no nitrogen here."
        raise Refusal(Fault(place="organic_N", read="", sentence=sentence, remedy="Write it."))
    words["amount"] = f"{mixed(1000 * amount)} g per m²"
    words["organic_N"] = f"{mixed(100 * organic / amount)} %"
    words["ammonium_N"] = f"{mixed(100 * ammonium / amount)} %"
    if not ammonium:
        del words["ammonium_N"]
