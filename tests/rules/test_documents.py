"""What the pages tell people to type exists, and what exists is told."""

import re
from importlib import import_module

import pytest

from halfpail.cli.main import COMMANDS
from tests.rules.tree import ROOT, text_of, tracked

PAGES = [path for path in tracked() if path.suffix == ".md"]
BLOCK = re.compile(r"^```.*?^```|^(?: {4}|\t)[^\n]+$|`[^`\n]+`", re.MULTILINE | re.DOTALL)
LINK = re.compile(r"\[[^\]]+\]\((?!\w+:)([^)#\s]+)(?:#[^)]*)?\)")


def code_in(text: str) -> str:
    """Only what stands in code blocks and code spans."""
    return "\n".join(BLOCK.findall(text))


def targets() -> set[str]:
    return set(re.findall(r"^([a-z-]+):", text_of(ROOT / "Makefile"), re.MULTILINE))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_what_a_page_says_exists(page):
    text = text_of(page)
    code = code_in(text)
    made = set(re.findall(r"(?<![\w.-])make ([a-z]+)", code))
    called = set(re.findall(r"(?<![\w./-])halfpail ([a-z]+)", code))
    links = [link for link in LINK.findall(text) if not (page.parent / link).exists()]
    assert made <= targets()
    assert called <= set(COMMANDS)
    assert links == []


def test_the_makefile_tells_its_loop():
    told = set(re.findall(r"^([a-z]+):.*## ", text_of(ROOT / "Makefile"), re.MULTILINE))
    assert {"help", "demo", "check", "test", "bench", "lock"} <= told


def test_the_version_is_told_once():
    assert import_module("halfpail").__version__
    assert "version = " not in text_of(ROOT / "pyproject.toml").split("[tool")[0]
