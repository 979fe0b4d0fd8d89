"""What people write over a column: its words, the unit beside them, and other words for the same.

A unit stands in brackets, behind a comma, behind "in", or bare where no name ends so: `P ppm`.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache

from halfpail.application.garden_tables import BAGS, BEDS, DIARY, SOIL_TESTS, percent, words
from halfpail.application.sheet_columns import Column, Kind, Table

MOST_LETTERS = 100
_IN_BRACKETS = re.compile(r"(.+?)\s*[\[(]\s*([^\[\]()]+?)\s*[\])]\.?")
_BEHIND = re.compile(r"(.+?)(?:,\s*|\s+in\s+)([^,]{1,20})")
_BARE = re.compile(r"(.+?)\s+(ppm|lbs?|kg|oz|%|sq ft|mg/kg|lbs?/acre)", re.IGNORECASE)
_UNITS = re.compile(
    r"(?:per )?(?:lbs?|pounds?|kg|g|grams?|oz|ounces?|sq\.? ?ft|ft2|m2|m²|in|inch(?:es)?|cm|ft|"
    r"gal(?:lons?)?|cups?|l|ml|%|percent|ppm(?: no3(?:-n)?)?|mg/kg|mg/l|mg/dm3|index|"
    r"meq/100 ?g|lbs?/(?:acre|a)|[$€£]|[A-Z]{3}|.+ (?:per|/) ?.+)",
    re.IGNORECASE,
)

GRADE = ("N", "P2O5", "K2O")
# A soil test may stand in the row of its bed.
SOIL_TEST = "soil_test."
_OXIDES = (words("P2O5", "P2O5"), words("K2O", "K2O"))
_BESIDE = ("bed", "year", "depth", "table", "P_equation", "K_equation")
# Columns that may be brought in though no garden is written with them.
MORE: Mapping[str, tuple[Column, ...]] = {
    BAGS.name: tuple(percent(name, f"{name} of the grade", "4 %") for name in GRADE),
    BEDS.name: (
        Column(key="row", head="length of row", kind=Kind.DEPTH, example="50 ft"),
        Column(key="row_width", head="width of row", kind=Kind.DEPTH, example="3 ft"),
        *(
            replace(one, key=f"{SOIL_TEST}{one.key}")
            for one in (*SOIL_TESTS.columns, *_OXIDES)
            if one.key not in _BESIDE
        ),
    ),
    SOIL_TESTS.name: _OXIDES,
}

SYNONYMS: Mapping[str, Mapping[str, str]] = {
    BAGS.name: {
        "name": "name, product, fertilizer, fertiliser, item, bag name, what it is",
        "label": "grade, analysis, guaranteed analysis, npk, n-p-k, the three numbers",
        "weight": "weight, bag weight, net weight, size, bag size, weight of bag",
        "price": "price, cost, price now, sale price, price per bag, price each, clearance price",
        "list_price": "list price, regular price, full price, usual price, price before",
        "offered": "on offer, offered, quantity, qty, how many, count, available, number of bags",
        "in_shed": "in shed, stock, in stock, on hand, at home, left over, leftover",
        "scoop_weighs": "scoop weighs, weight of a scoop, scoop weight, scoop",
        "straight": "straight, alone",
        "manure": "manure",
        "avoid": "avoid, skip",
        "N": "nitrogen, total nitrogen, nitrogen n",
        "P2O5": "p, phosphate, available phosphate, phosphorus",
        "K2O": "k, potash, soluble potash, potassium",
    },
    BEDS.name: {
        "name": "name, bed name, plot, garden bed",
        "crop": "plant, plants, planting, what grows there, vegetable",
        "size": "area, dimensions, bed size",
        "container": "container, pot",
        "row": "row, row length",
        "row_width": "row width",
        "compost_each_year": "compost, compost depth",
        "compost_years": "compost years",
        "yield": "yield, expected harvest, harvest",
        "planted": "sown, planting date, date planted, set out",
        "harvest": "harvested, harvest date, end of harvest",
        "legume_before": "legume before, beans before",
    },
    SOIL_TESTS.name: {
        "bed": "name, plot, sample, bed name",
        "year": "year, year sampled",
        "extractant": "extractant, extraction, soil test method, lab method",
        "P": "phosphorus, phosphorus p, soil p",
        "K": "potassium, potassium k, soil k",
        "Ca": "calcium, calcium ca",
        "Mg": "magnesium, magnesium mg",
        "Na": "sodium, sodium na",
        "S": "sulfur, sulphur, sulfur s",
        "B": "boron, boron b",
        "nitrate": "nitrate, nitrate n, no3-n, no3 n",
        "pH": "soil ph, water ph, ph water",
        "buffer": "kind of buffer, buffer kind, buffer method",
        "buffer_pH": "buffer ph, lime index",
        "organic_matter": "om, organic matter om, humus",
        "CEC": "cation exchange capacity, exchange capacity",
        "depth": "depth, sample depth",
        "texture": "soil type, soil texture",
        "P2O5": "phosphate, available phosphate",
        "K2O": "potash, soluble potash",
    },
    DIARY.name: {
        "on": "date, when",
        "what": "event, kind, done, action, what was done",
        "bed": "plot, bed name, where",
        "bag": "fertilizer, fertiliser, product",
        "mix": "pail, batch",
        "crop": "plant, vegetable",
        "bags": "number of bags, how many bags, quantity, qty",
        "rounds": "times",
        "scoops": "how many scoops, amount",
        "weight": "mass, harvest, yield",
        "paid": "price, cost, total, total paid",
        "note": "notes, remark, remarks, comment, comments",
    },
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """One head: as it stands there, its words alone, and the unit beside them."""

    text: str
    words: str
    unit: str = ""


def read_head(text: str) -> Head:
    """A head with its unit apart.

    >>> read_head("Weight of bag (lb)").unit, read_head("P ppm").words, read_head("fed, when").unit
    ('lb', 'P', '')
    """
    text = " ".join(text[:MOST_LETTERS].split())
    text = "".join(letter for letter in text if letter.isprintable())
    for pattern in (_IN_BRACKETS, _BEHIND, _BARE):
        match = pattern.fullmatch(text)
        if match and _UNITS.fullmatch(match[2]):
            return Head(text=text, words=match[1], unit=match[2])
    return Head(text=text, words=text)


def columns_of(table: Table) -> tuple[Column, ...]:
    """The columns that may be brought in."""
    return (*table.columns, *MORE.get(table.name, ()))


def column_called(table: Table, head: Head) -> Column | None:
    """The column a head means in a table, by its words, its key or a word for the same.

    >>> column_called(BAGS, read_head("N-P-K")).key
    'label'
    """
    known = _known(table)
    return known.get(_plain(head.words)) or known.get(_plain(head.text))


@cache
def _known(table: Table) -> dict[str, Column]:
    others = SYNONYMS.get(table.name, {})
    found: dict[str, Column] = {}
    columns = columns_of(table)
    for one in columns:
        found.setdefault(_plain(one.head), one)
    for one in columns:
        key = one.key.removeprefix(SOIL_TEST)
        own = others.get(one.key, "") if key == one.key else SYNONYMS[SOIL_TESTS.name].get(key, "")
        for word in (key, *own.split(", ")):
            found.setdefault(_plain(word), one)
    return {word: one for word, one in found.items() if word}


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.casefold())
