"""Every shipped table keeps its passport, and every slip in one would be found."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.reference.bibliography import bibliography
from halfpail.reference.passport import DATA, Passport, cells, header, passport, table_names
from halfpail.reference.standing import count_by_mark
from halfpail.reference.table_check import faults, faults_of, orphan_sources
from halfpail.sources import Mark

CITED = ("source", "locator", "mark")
Rows = list[dict[str, str]]


@pytest.mark.parametrize("table", table_names())
def test_table_keeps_its_passport(table):
    assert faults_of(table) == ()


def test_each_table_has_a_passport_and_each_passport_a_table():
    names = [entry.name for entry in DATA.iterdir()]
    tables = sorted(name.removesuffix(".csv") for name in names if name.endswith(".csv"))
    papers = sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml"))
    assert tables == papers


@pytest.mark.parametrize("table", table_names())
def test_every_row_ends_in_its_citation(table):
    assert header(table)[-3:] == CITED


def test_every_source_is_cited():
    assert orphan_sources() == frozenset()


def test_every_source_can_be_found():
    lost = [
        one.key
        for one in bibliography().values()
        if not (one.title and (one.publisher or one.address))
    ]
    assert lost == []


def test_marks_are_counted():
    marks = [
        line[name]
        for table in table_names()
        for line in cells(table)
        for name, column in passport(table).columns.items()
        if column.unit == "mark" and line[name]
    ]
    assert sum(count_by_mark().values()) == len(marks)
    assert count_by_mark("label_allowances")[Mark.VERIFIED] == 12


def _set(column: str, value: str) -> Callable[[Rows], None]:
    def slip(rows: Rows) -> None:
        rows[0][column] = value

    return slip


def _double(rows: Rows) -> None:
    rows[1] = dict(rows[1], key=rows[0]["key"])


def _drop(rows: Rows) -> None:
    rows.pop()


@pytest.mark.parametrize(
    ("slip", "told"),
    [
        (_drop, "rows, the passport"),
        (_double, "stands twice"),
        (_set("n_percent_typical", "11.9"), "adds up to"),
        (_set("n_percent_typical", "14"), "n_percent runs 10, 14, 13"),
        (_set("n_percent_low", ""), "has no n_percent_low"),
        (_set("n_percent_low", "ten"), "n_percent_low is ten"),
        (_set("n_percent_high", "48"), "n_percent_high is 48"),
        (_set("name", " "), "has no name"),
        (_set("cautions", "dust; dragons"), "dragons is not in cautions"),
        (_set("usable_class", "magic"), "magic is not in usable_nitrogen"),
        (_set("family", "strangers"), "strangers is not in families"),
        (_set("release", "soon"), "soon is not in Release"),
        (_set("mark", "sworn"), "unknown mark sworn"),
        (_set("mark", "typed by you"), "unknown mark typed by you"),
        (_set("source", "hearsay"), "unknown source hearsay"),
        (_set("source", ""), "verified without source"),
        (_set("locator", ""), "verified without locator"),
        (_set("density_source", "hearsay"), "unknown density_source hearsay"),
        (_set("density_mark", ""), "density_mark does not go with"),
    ],
)
def test_a_slip_in_the_materials_is_told(slip, told):
    rows = [dict(line) for line in cells("materials")]
    slip(rows)
    assert any(told in fault for fault in faults(passport("materials"), rows))


def test_a_slip_in_a_unit_is_told():
    rows = [dict(line) for line in cells("defaults")]
    rows[0]["unit"] = "furlong"
    assert any("unknown unit furlong" in fault for fault in faults(passport("defaults"), rows))


def _with_unit(unit: str) -> Passport:
    paper = passport("purposes")
    name = "k2o_aim_lb_per_lb_n"
    return replace(paper, columns={**paper.columns, name: replace(paper.columns[name], unit=unit)})


def test_a_slip_in_a_passport_is_told():
    rows = cells("purposes")
    assert any("unknown unit" in fault for fault in faults(_with_unit("furlong"), rows))
    wrong_sum = replace(passport("purposes"), sums={"k2o_aim_lb_per_lb_n": Fraction(7)})
    assert any("adds up to 6.0" in fault for fault in faults(wrong_sum, rows))
