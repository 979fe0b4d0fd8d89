"""The passport beside each shipped table: its columns, units, ranges, counts and sums.

A passport is written by hand, so that a slip in the table and a slip in the passport have to
agree before an error gets through.
"""

import csv
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from importlib.resources import files

DATA = files("halfpail.reference") / "data"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: the unit of its cells, what it means, and what a cell may hold.

    `refers` names the table or the vocabulary whose keys the cells hold.
    """

    name: str
    unit: str
    meaning: str
    low: Fraction | None = None
    high: Fraction | None = None
    blank: bool = False
    refers: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passport:
    """What a table says of itself."""

    table: str
    title: str
    purpose: str
    validity: str
    transcribed: str
    by: str
    second_reader: bool
    licence: str
    rows: int
    sums: Mapping[str, Fraction] = field(hash=False)
    columns: Mapping[str, Column] = field(hash=False)


@cache
def passport(table: str) -> Passport:
    """The passport of a shipped table.

    >>> passport("materials").columns["n_percent_low"].unit
    'percent'
    """
    text = (DATA / f"{table}.toml").read_text(encoding="utf-8")
    entry = tomllib.loads(text, parse_float=Fraction)
    columns = {name: _column(name, facts) for name, facts in entry.pop("columns").items()}
    sums = {name: Fraction(value) for name, value in entry.pop("sums", {}).items()}
    return Passport(table=table, columns=columns, sums=sums, **entry)


def _column(name: str, facts: dict[str, object]) -> Column:
    bounds = {side: Fraction(str(facts.pop(side))) for side in ("low", "high") if side in facts}
    return Column(name=name, **bounds, **facts)  # type: ignore[arg-type]  # checked by its test


@cache
def table_names() -> tuple[str, ...]:
    """Names of all shipped tables.

    >>> "materials" in table_names()
    True
    """
    found = (entry.name for entry in DATA.iterdir())
    return tuple(sorted(name.removesuffix(".csv") for name in found if name.endswith(".csv")))


@cache
def header(table: str) -> tuple[str, ...]:
    """Column names of a table as its first line has them.

    >>> header("materials")[0]
    'key'
    """
    return tuple(next(_lines(table)))


@cache
def cells(table: str) -> tuple[Mapping[str, str], ...]:
    """The cells of a table, one mapping by column name for each row.

    Raises:
        ValueError: a row is longer or shorter than the header.
    """
    lines = _lines(table)
    names = next(lines)
    return tuple(dict(zip(names, line, strict=True)) for line in lines)


def _lines(table: str) -> Iterator[list[str]]:
    text = (DATA / f"{table}.csv").read_text(encoding="utf-8")
    return csv.reader(text.splitlines())
