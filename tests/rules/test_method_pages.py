"""docs/method tells where every number comes from: its keys, tables and pages exist."""

import re

import pytest

from halfpail.domain.safe_gate import Given
from halfpail.reference.bibliography import bibliography
from halfpail.reference.hard_limits import hard_limits
from halfpail.reference.passport import table_names
from tests.rules.tree import ROOT, text_of

METHOD = ROOT / "docs" / "method"
PAGES = sorted(METHOD.glob("*.md"))
SOURCES = set(bibliography())
KEYS = re.compile(r"\[((?:[a-z]+-[a-z0-9-]+)(?:[,;] [^\]]+)?)\](?!\()")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_key_in_brackets_is_a_source(page):
    told = [key.strip() for found in KEYS.findall(text_of(page)) for key in re.split("[,;]", found)]
    assert [key for key in told if " " not in key and key not in SOURCES] == []


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_table_named_is_there(page):
    assert set(re.findall(r"`([a-z_]+)\.csv`", text_of(page))) <= set(table_names())


def test_the_first_page_leads_to_every_other():
    first = text_of(METHOD / "README.md")
    assert [page.name for page in PAGES if page.stem != "README" and page.name not in first] == []


def test_the_gate_is_told_limit_by_limit():
    rows = [line for line in text_of(METHOD / "gate.md").splitlines() if line.startswith("| ")]
    assert len(rows) == len(hard_limits()) + 1
    assert {row.split(" | ")[0].strip("| ") for row in rows[1:]} == {str(of) for of in Given}
