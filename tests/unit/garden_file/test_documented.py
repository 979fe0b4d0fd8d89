"""docs/garden-file.md knows every key of the reader, and no other; its examples can be read."""

import re
from pathlib import Path

import pytest

from halfpail.garden_file import keys, soil_keys, time_keys
from halfpail.garden_file.reader import read_text

PAGE = (Path(__file__).parents[3] / "docs" / "garden-file.md").read_text("utf-8")
TABLES = {
    "At the top": keys.TOP,
    "`[tools]`": keys.TOOLS,
    "`[preferences]`": keys.PREFERENCES,
    "`[[bags]]`": keys.BAG,
    "`[[beds]]`": keys.BED,
    "`[climate]`": time_keys.CLIMATE,
    "`[[beds.crops]]`": soil_keys.CROP,
    "`[beds.soil_test]`": soil_keys.SOIL_TEST,
    "`[[beds.manure]]`": soil_keys.MANURE,
    "`[[beds.years]]`": soil_keys.YEAR,
    "`[[beds.given]]`": time_keys.GIVEN,
    "`[beds.need.N]`": keys.NEED,
}


def rows_of(title: str) -> dict[str, tuple[str, str]]:
    """Meaning and example of each key in the table under a title."""
    section = next(part for part in PAGE.split("\n## ") if part.startswith(title))
    found = re.findall(r"^\| `(\w+)` \| (.*) \| `(.*)` \|$", section, re.MULTILINE)
    return {name: (meaning, example) for name, meaning, example in found}


@pytest.mark.parametrize("title", TABLES)
def test_every_key_is_documented_and_no_other(title):
    told = {
        key.name: (key.meaning + (" Needed." if key.required else ""), key.example)
        for key in TABLES[title]
    }
    assert rows_of(title) == told


def test_every_nutrient_of_a_need_is_documented():
    section = next(part for part in PAGE.split("\n## ") if part.startswith("`[beds.need.N]`"))
    assert all(f"`{nutrient}`" in section for nutrient in keys.NUTRIENTS)


def test_the_examples_make_a_garden_without_fault():
    def lines(title: str, without: tuple[str, ...] = ()) -> str:
        found = rows_of(title).items()
        return "\n".join(f"{name} = {one}" for name, (_, one) in found if name not in without)

    text = "\n".join(
        (
            lines("At the top"),
            "[tools]",
            lines("`[tools]`"),
            "[preferences]",
            lines("`[preferences]`", without=("avoid",)),
            "[climate]",
            lines("`[climate]`"),
            "[[bags]]",
            lines("`[[bags]]`"),
            "[[beds]]",
            lines("`[[beds]]`", without=("row", "row_width")),
            "[beds.need.P2O5]",
            lines("`[beds.need.N]`"),
            "[beds.soil_test]",
            lines("`[beds.soil_test]`", without=("acidity",)),
            "[[beds.manure]]",
            lines("`[[beds.manure]]`"),
            "[[beds.years]]",
            lines("`[[beds.years]]`"),
            "[[beds.given]]",
            lines("`[[beds.given]]`"),
            "[[beds]]",
            'name = "Several"',
            'size = "4 x 12 ft"',
            "[[beds.crops]]",
            lines("`[[beds.crops]]`"),
        )
    )
    assert read_text(text).faults == ()
