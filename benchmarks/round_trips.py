"""Whole gardens written to each kind of file and read back: how many come back exactly.

The gardens are drawn at random, always the same ones, under names and notes that a program might
act upon. Run it with PYTHONPATH=. (as `make bench` does); the number of gardens may be said:

    python benchmarks/round_trips.py 200
"""

import sys
from collections.abc import Callable

from hypothesis import HealthCheck, Phase, given, settings

from halfpail.application.whole_garden import WholeGarden
from halfpail.wiring import services
from tests.properties.test_tables_round_trip import (
    as_in_tables,
    csv_and_back,
    spreadsheet_and_back,
)
from tests.properties.whole_gardens import whole_gardens

GARDENS = 200


def json_and_back(whole: WholeGarden) -> bool:
    files = services().json_files
    return files.read(files.write(whole)) == whole


def garden_file_and_back(whole: WholeGarden) -> bool:
    again = services().read_garden_text(services().write_garden(whole.garden))
    return again == whole.garden


KINDS: dict[str, Callable[[WholeGarden], bool]] = {
    "JSON": json_and_back,
    "garden file (bags, beds, tools, likings)": garden_file_and_back,
    "spreadsheet": lambda whole: spreadsheet_and_back(whole) == as_in_tables(whole),
    "CSV": lambda whole: csv_and_back(whole) == as_in_tables(whole),
}


def drawn(count: int) -> list[WholeGarden]:
    """So many gardens."""
    found: list[WholeGarden] = []

    @settings(
        max_examples=count,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(whole_gardens())
    def draw(whole: WholeGarden) -> None:
        found.append(whole)

    draw()
    return found[:count]


def main() -> None:
    gardens = drawn(int(sys.argv[1]) if len(sys.argv) > 1 else GARDENS)
    lines = sum(len(whole.diary) for whole in gardens)
    mixes = sum(len(whole.mixes) for whole in gardens)
    plans = sum(len(whole.seasons) for whole in gardens)
    print(f"{len(gardens)} gardens with {lines} lines of diary, {mixes} mixes and {plans} plans")
    for kind, comes_back in KINDS.items():
        exact = sum(comes_back(whole) for whole in gardens)
        print(f"{kind}: {exact} of {len(gardens)} come back exactly")


if __name__ == "__main__":
    main()
