"""Run every published case and tell how many agree, by source: python tools/examples.py.

A case is a row of a table in tests/examples. The tests that hold the program to them are run here
as they stand; nothing is computed twice. A row that no test ran is told as left out, and counts
as a failure like a miss.
"""

import csv
import re
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
TABLES = ROOT / "tests" / "examples"
TESTS = ("tests/unit", "tests/properties")
QUIETLY = (
    "-o",
    "addopts=--import-mode=importlib",
    *("-p", "no:terminal", "-p", "no:cacheprovider", "-p", "no:django"),
)
LONGEST = 78

Row = dict[str, str]
# A row by what stands in it: the same row may be held to by several tests.
Case = tuple[tuple[str, str], ...]


def case_of(row: Row) -> Case:
    """A row as something to count by."""
    return tuple(row.items())


def tables() -> Iterator[tuple[str, list[Row]]]:
    """Every table of cases with its rows."""
    for path in sorted(TABLES.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as lines:
            yield path.stem, list(csv.DictReader(lines))


def sources(rows: list[Row]) -> Iterator[str]:
    """Who says so, row by row; "the same" stands for the row above."""
    said = ""
    for row in rows:
        if not row["source"].startswith("the same"):
            said = re.split(r" \((?!\d)|;", row["source"])[0].strip()
        yield said if len(said) <= LONGEST else f"{said[: LONGEST - 3]}..."


class Listener:
    """Hears what became of every row while the tests run."""

    def __init__(self) -> None:
        self.ran: set[Case] = set()
        self.missed: dict[Case, str] = {}

    @pytest.hookimpl(tryfirst=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Keep the tests of a published row only."""
        items[:] = [item for item in items if self.row(item) is not None]

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_makereport(self, item: pytest.Item, call: pytest.CallInfo[None]) -> None:
        """Remember a row that ran, and the two numbers of one that does not agree."""
        row = self.row(item)
        if row is not None and call.when == "call":
            case = case_of(row)
            self.ran.add(case)
            if call.excinfo is not None:
                said = str(call.excinfo.value).strip() or call.excinfo.typename
                self.missed[case] = " ".join(said.split())[:400]

    @staticmethod
    def row(item: pytest.Item) -> Row | None:
        """The published row a test is about."""
        params = getattr(getattr(item, "callspec", None), "params", {})
        row = params.get("row")
        return row if isinstance(row, dict) and "source" in row else None


def main() -> int:
    """Run, count, tell; 1 where a case misses or was left out."""
    listener = Listener()
    pytest.main(
        [*QUIETLY, f"--rootdir={ROOT}", *(str(ROOT / one) for one in TESTS)], plugins=[listener]
    )
    agree: Counter[str] = Counter()
    cases: Counter[str] = Counter()
    slips: defaultdict[str, list[str]] = defaultdict(list)
    for table, rows in tables():
        for row, source in zip(rows, sources(rows), strict=True):
            cases[source] += 1
            name = f"{table}: {'; '.join(value for value in list(row.values())[:3])}"
            case = case_of(row)
            if case not in listener.ran:
                slips["left out"].append(name)
            elif case in listener.missed:
                printed = {key: row[key] for key in ("exact", "printed") if row.get(key)}
                slips["missed"].append(f"{name}\n      {printed} and found {listener.missed[case]}")
            else:
                agree[source] += 1
    for source in sorted(cases, key=lambda one: (-cases[one], one)):
        print(f"{agree[source]:>5} of {cases[source]:>3}  {source}")
    for what, names in slips.items():
        print(f"\n{len(names)} {what}:")
        print("\n".join(f"  * {name}" for name in names))
    total = sum(cases.values())
    print(f"\n{sum(agree.values())} of {total} published cases agree, from {len(cases)} sources.")
    return int(bool(slips))


if __name__ == "__main__":
    sys.exit(main())
