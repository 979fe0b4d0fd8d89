"""Holds a shipped table to its passport, and the tables to the bibliography and to each other."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.frost_calendar import Frost, Way
from halfpail.domain.lime_method import Buffer, Texture, Use
from halfpail.domain.liming_value import FinenessSystem
from halfpail.domain.manure_interval import Contact
from halfpail.domain.material import OrganicUse, Release
from halfpail.domain.matter import Nutrient
from halfpail.domain.safe_gate import Case, Given, Per
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import Element, Extractant
from halfpail.domain.uptake import Habit
from halfpail.findings import Severity
from halfpail.reference.bibliography import bibliography
from halfpail.reference.compatibility import Verdict, families
from halfpail.reference.passport import Column, Passport, cells, header, passport, table_names
from halfpail.reference.table_units import NUMBERS, WORDS, is_number
from halfpail.sources import Mark

Cells = Mapping[str, str]
Check = Callable[[Passport, Sequence[Cells]], Iterator[str]]

_VOCABULARY: dict[str, type[StrEnum]] = {
    "Contact": Contact,
    "Frost": Frost,
    "Habit": Habit,
    "Buffer": Buffer,
    "Case": Case,
    "Element": Element,
    "Extractant": Extractant,
    "FinenessSystem": FinenessSystem,
    "Given": Given,
    "Nutrient": Nutrient,
    "OrganicUse": OrganicUse,
    "Per": Per,
    "Release": Release,
    "Severity": Severity,
    "SoilClass": SoilClass,
    "Texture": Texture,
    "Use": Use,
    "Verdict": Verdict,
    "Way": Way,
}
# What a person typed is never shipped.
_SHIPPED = frozenset(Mark) - {Mark.TYPED}
# These say that a publication was read, so they must say where.
_READ = (Mark.VERIFIED, Mark.DERIVED)


def faults_of(table: str) -> tuple[str, ...]:
    """Everything wrong with a shipped table; nothing where it keeps its passport.

    >>> faults_of("materials")
    ()
    """
    paper = passport(table)
    if header(table) != tuple(paper.columns):
        return (f"{table}: the header is {header(table)}, the passport has {tuple(paper.columns)}",)
    return faults(paper, cells(table))


def faults(paper: Passport, rows: Sequence[Cells]) -> tuple[str, ...]:
    """Everything wrong with rows under a passport, each fault with its table and row."""
    return tuple(f"{paper.table}: {fault}" for check in _CHECKS for fault in check(paper, rows))


def orphan_sources() -> frozenset[str]:
    """Sources of the bibliography that no row cites or names.

    >>> sorted(orphan_sources())
    []
    """
    return frozenset(bibliography()) - _named_sources()


def _named_sources() -> frozenset[str]:
    words = (
        word.strip(".,;:()")
        for table in table_names()
        for line in cells(table)
        for name, column in passport(table).columns.items()
        if column.unit == "source" or name.endswith("locator")
        for word in line[name].split()
    )
    return frozenset(words)


def _count(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    if len(rows) != paper.rows:
        yield f"has {len(rows)} rows, the passport {paper.rows}"


def _sums(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    for name, wanted in paper.sums.items():
        found = sum((Fraction(row[name]) for row in rows if _is_exact(row[name])), Fraction(0))
        if found != wanted:
            yield f"{name} adds up to {float(found)}, the passport has {float(wanted)}"


def _units(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    for column in paper.columns.values():
        if not is_number(column.unit) and column.unit not in WORDS:
            yield f"{column.name} has the unknown unit {column.unit}"
        if column.unit == "unit":
            for row in rows:
                if row[column.name] not in NUMBERS and (row[column.name] or not column.blank):
                    yield f"{_place(row)} has the unknown unit {row[column.name]}"


def _filled(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    for column in paper.columns.values():
        for row in rows:
            if not (row[column.name].strip() or column.blank):
                yield f"{_place(row)} has no {column.name}"


def _ranges(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    for column in paper.columns.values():
        for row in rows:
            if is_number(column.unit) and row[column.name] and not _fits(row[column.name], column):
                yield f"{_place(row)}: {column.name} is {row[column.name]}"


def _fits(cell: str, column: Column) -> bool:
    if not _is_exact(cell):
        return False
    low_enough = column.high is None or Fraction(cell) <= column.high
    return low_enough and (column.low is None or Fraction(cell) >= column.low)


def _is_exact(cell: str) -> bool:
    try:
        Fraction(cell)
    except (ValueError, ZeroDivisionError):
        return False
    return True


def _keys(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    if "key" in paper.columns:
        seen: set[str] = set()
        for row in rows:
            if row["key"] in seen:
                yield f"{row['key']} stands twice"
            seen.add(row["key"])


def _references(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    for column in paper.columns.values():
        if column.refers:
            allowed = _allowed(column.refers)
            for row in rows:
                for word in filter(None, map(str.strip, row[column.name].split(";"))):
                    if word not in allowed:
                        yield f"{_place(row)}: {column.name} {word} is not in {column.refers}"


def _allowed(refers: str) -> frozenset[str]:
    """The words a column may hold: of a vocabulary, of the families, or the keys of a table."""
    if refers in _VOCABULARY:
        return frozenset(_VOCABULARY[refers])
    if refers == "families":
        return families()
    first = header(refers)[0]
    return frozenset(line[first] for line in cells(refers))


def _citations(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    for column in paper.columns.values():
        if column.unit == "mark":
            prefix = column.name.removesuffix("mark")
            for row in rows:
                yield from _citation(row, prefix)


def _citation(row: Cells, prefix: str) -> Iterator[str]:
    mark, source = row[f"{prefix}mark"], row[f"{prefix}source"]
    if mark and mark not in _SHIPPED:
        yield f"{_place(row)} has the unknown {prefix}mark {mark}"
    if source and source not in bibliography():
        yield f"{_place(row)} names the unknown {prefix}source {source}"
    if mark in _READ and not row[f"{prefix}locator"]:
        yield f"{_place(row)} is {mark} without {prefix}locator"
    if mark == Mark.VERIFIED and not source:
        yield f"{_place(row)} is verified without {prefix}source"


def _spreads(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    stems = [name.removesuffix("_typical") for name in paper.columns if name.endswith("_typical")]
    for stem in stems:
        for row in rows:
            sides = [row[f"{stem}_{side}"] for side in ("low", "typical", "high")]
            filled = [Fraction(side) for side in sides if _is_exact(side)]
            if filled and (len(filled) < len(sides) or filled != sorted(filled)):
                yield f"{_place(row)}: {stem} runs {', '.join(sides)}"


def _figures_have_marks(paper: Passport, rows: Sequence[Cells]) -> Iterator[str]:
    """A figure with citation columns of its own has its mark exactly where it has a number."""
    for name in paper.columns:
        prefix = name.removesuffix("mark")
        if name.endswith("_mark"):
            numbers = [
                other
                for other, column in paper.columns.items()
                if other.startswith(prefix) and is_number(column.unit)
            ]
            for row in rows:
                if bool(row[name]) != any(row[number] for number in numbers):
                    yield f"{_place(row)}: {name} does not go with {', '.join(numbers)}"


def _place(row: Cells) -> str:
    return ", ".join(list(row.values())[:2])


_CHECKS: tuple[Check, ...] = (
    _count,
    _sums,
    _units,
    _filled,
    _ranges,
    _keys,
    _references,
    _citations,
    _spreads,
    _figures_have_marks,
)
