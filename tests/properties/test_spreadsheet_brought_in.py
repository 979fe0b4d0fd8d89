"""The bags and beds of random gardens, written as a spreadsheet and brought in again, are the same.

Here the sheets go the way of a stranger's file: through the process that opens it, the guess of the
columns, and the readers of typed amounts.
"""

from dataclasses import replace
from datetime import date
from unicodedata import normalize

import pytest
from hypothesis import given, settings

from halfpail.application.found_rows import GardenNow, Standing
from halfpail.application.table_files import book_of
from halfpail.wiring import services
from tests.properties.whole_gardens import whole_gardens
from tests.unit.application.sheets_of_rows import kept, looked_at

ON = date(2027, 5, 1)


def now_of(garden, bags=(), beds=()) -> GardenNow:
    about = replace(garden, bags=(), beds=())
    return GardenNow(about=about, today=date(2200, 1, 1), bags=kept(bags), beds=kept(beds))


def words(garden, bags, beds) -> dict[str, object]:
    """Every bag and bed in exact words, a number as its digits; names as one writes them."""
    bare = [[replace(one, typed={}) for one in many] for many in (bags, beds)]
    told = services().words_of(replace(garden, bags=tuple(bare[0]), beds=tuple(bare[1])))
    return {key: normalize("NFC", str(_plain(told.get(key, [])))) for key in ("bags", "beds")}


def _plain(value: object) -> object:
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in sorted(value.items())}
    if isinstance(value, list):
        return [_plain(one) for one in value]
    return str(value)


@pytest.mark.slow
@settings(max_examples=100)
@given(whole_gardens())
def test_what_was_written_comes_back(whole):
    garden = whole.garden
    raw = services().spreadsheets.write(book_of(whole, ON))
    sheets = services().sheets.read(raw, "garden.xlsx").sheets
    found = looked_at(now_of(garden), *sheets)
    told = {one.sheet.name: one for one in found.sheets}
    for name in ("Bags", "Beds", "Soil tests", "Crops", "Earlier years", "Ranges"):
        if name in told:
            assert [fault for row in told[name].rows for fault in row.faults] == []
    bags = [change.value for change in found.changes.bags][: len(garden.bags)]
    beds = [change.value for change in found.changes.beds]
    assert words(garden, bags, beds) == words(garden, garden.bags, garden.beds)
    again = looked_at(now_of(garden, bags, beds), *sheets)
    standings = {row.standing for one in again.sheets[:8] for row in one.rows}
    assert standings <= {Standing.SAME, Standing.MORE, Standing.NEW}
