"""The glossary knows every unit that ends a name, every nutrient, content and mark."""

import ast
import re

import pytest

from halfpail.domain.bed import Content
from halfpail.domain.matter import Nutrient
from halfpail.sources import Mark
from tests.rules.tree import ROOT, functions, modules, parsed, text_of

UNITS = {"kg", "g", "mg", "lb", "oz", "m", "m2", "cm", "ft", "ft2", "sqft", "acre", "l", "ml"}
UNITS |= {
    "meq",
    "cmol",
    "100",
    "1000",
    "cup",
    "cups",
    "gal",
    "percent",
    "share",
    "seconds",
    "days",
    "ppm",
    "per",
}


def rows() -> list[list[str]]:
    lines = text_of(ROOT / "docs" / "glossary.md").splitlines()
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if "|" in line]
    return [row for row in cells if row[0] != "word or symbol" and not row[0].startswith("---")]


def unit_ending(name: str) -> str:
    """The longest ending of a name that is made of units: `rate_kg_per_m2` ends in kg_per_m2."""
    tokens = name.split("_")
    kept = len(tokens)
    while kept > 0 and tokens[kept - 1] in UNITS:
        kept -= 1
    while kept < len(tokens) and tokens[kept].isdigit():
        kept += 1
    return "" if tokens[-1] == "per" else "_".join(tokens[kept:])


def names() -> set[str]:
    """Every parameter, and every annotated field, of the source."""
    fields = {
        node.target.id
        for module in modules()
        for node in ast.walk(parsed(module))
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)
    }
    parameters = {
        parameter.arg
        for module in modules()
        for place in functions(module)
        for parameter in place.parameters
    }
    return fields | parameters


def test_every_row_has_four_cells():
    assert [row for row in rows() if len(row) != 4] == []


def test_no_word_stands_twice():
    words = [row[0] for row in rows()]
    assert sorted(set(words)) == sorted(words)


def test_every_unit_in_a_name_is_told():
    told = {
        re.sub(r"^\*?_", "", code) for row in rows() for code in re.findall(r"`([^`]+)`", row[1])
    }
    used = {unit_ending(name) for name in names() if "_" in name} - {""}
    assert {"kg", "m2", "l"} <= used
    assert used - told == set()


@pytest.mark.parametrize("kind", [Nutrient, Content, Mark])
def test_every_kind_is_told(kind):
    told = {word.strip() for row in rows() for word in row[0].split(",")} | {
        row[0] for row in rows()
    }
    assert {member.value for member in kind} - told == set()


@pytest.mark.parametrize(
    ("name", "ending"),
    [
        ("mass_kg", "kg"),
        ("rate_kg_per_m2", "kg_per_m2"),
        ("saved_share", "share"),
        ("cec_meq_per_100_g", "meq_per_100_g"),
        ("least_100", ""),
        ("text", ""),
    ],
)
def test_a_unit_ending_is_read(name, ending):
    assert unit_ending(name) == ending
