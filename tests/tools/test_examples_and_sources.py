"""The tellers of published cases and of shipped figures leave nothing out."""

import runpy
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from halfpail.reference.passport import table_names
from halfpail.reference.standing import count_by_mark
from halfpail.sources import Mark

TOOLS = Path(__file__).parents[2] / "tools"


@pytest.fixture(scope="module")
def examples():
    return SimpleNamespace(**runpy.run_path(str(TOOLS / "examples.py")))


def test_every_table_of_cases_is_found_and_every_row_has_a_source(examples):
    tables = dict(examples.tables())
    kept = {path.stem for path in (TOOLS.parent / "tests" / "examples").glob("*.csv")}
    assert set(tables) == kept
    for rows in tables.values():
        assert rows
        assert all(examples.sources(rows))


def test_the_same_stands_for_the_row_above(examples):
    rows = [{"source": "a bulletin (its-key)"}, {"source": "the same; computed"}]
    assert list(examples.sources(rows)) == ["a bulletin", "a bulletin"]


@pytest.mark.parametrize("wrong", [False, True])
def test_a_case_that_misses_is_heard_with_what_was_found(examples, wrong):
    row = {"id": "one", "source": "a bulletin"}
    item = SimpleNamespace(callspec=SimpleNamespace(params={"row": row}))
    error = SimpleNamespace(value=AssertionError("3.5"), typename="AssertionError")
    listener = examples.Listener()
    call = SimpleNamespace(when="call", excinfo=error if wrong else None)
    listener.pytest_runtest_makereport(item, call)
    case = examples.case_of(row)
    assert listener.ran == {case}
    assert listener.missed == ({case: "3.5"} if wrong else {})


def told(*words: str) -> subprocess.CompletedProcess[str]:
    line = [sys.executable, str(TOOLS / "sources.py"), *words]
    return subprocess.run(line, capture_output=True, text=True, check=False)


def test_the_count_by_mark_is_the_count_of_all_citations():
    lines = told().stdout.splitlines()
    *marks, total = [int(line.split()[0]) for line in lines]
    assert sum(marks) == total == sum(count_by_mark().values())
    assert str(len(table_names())) in lines[-1]


def test_what_is_remembered_is_listed_row_by_row():
    listed = told("memory").stdout.splitlines()
    assert len(listed) == count_by_mark()[Mark.MEMORY]
    assert all(line.split(":")[0].strip() in table_names() for line in listed)
    assert told("no such word").returncode == 2
