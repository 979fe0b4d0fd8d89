"""Nothing in the tree belongs to one machine, and no rule is switched off without its reason."""

import re
from pathlib import Path

import pytest

from tests.rules.tree import ROOT, modules, text_of, tracked

# Written with a bracket so that this file does not hold what it looks for.
ONE_MACHINE = {
    "an absolute path": r"(?<![\w.$}])/(?:wor[k]|hom[e]|roo[t]|Use[r]s|tm[p]|op[t])/[\w.]",
    "a package index": r"py[p]i\.(?:org|io)|pytho[n]hosted|npmj[s]\.",
    "an index setting": r"--(?:extra-)?inde[x]-url|--find-link[s]|UV_INDE[X]|PIP_INDE[X]",
}
NOQA = re.compile(r"#\s*noqa(?!: [A-Z]+[0-9]+(?:, ?[A-Z]+[0-9]+)* +[-(#]? ?\w)")
TYPE_IGNORE = re.compile(r"#\s*type:\s*ignore(?!\[[\w, -]+\] +[-(#] ?\w)")


@pytest.mark.parametrize("what", ONE_MACHINE)
def test_nothing_belongs_to_one_machine(what):
    pattern = re.compile(ONE_MACHINE[what])
    slips = [
        f"{path.relative_to(ROOT)}:{number} {line.strip()[:80]}"
        for path in tracked()
        for number, line in enumerate(text_of(path).splitlines(), 1)
        if pattern.search(line)
    ]
    assert slips == []


def test_the_locks_name_no_host():
    locks = sorted((ROOT / "requirements").glob("*.lock"))
    assert [lock.name for lock in locks] == ["browser.lock", "run.lock", "test.lock"]
    for lock in locks:
        text = text_of(lock)
        assert "--hash=sha256:" in text
        assert "://" not in text
        assert not re.search(r"^--?[a-z]", text, re.MULTILINE), f"an option stands in {lock.name}"


def test_every_silenced_line_says_why():
    code = [*modules(ROOT / "src"), *modules(ROOT / "tests"), *modules(ROOT / "benchmarks")]
    slips = [
        f"{path.relative_to(ROOT)}:{number} {line.strip()}"
        for path in code
        if path != Path(__file__)
        for number, line in enumerate(text_of(path).splitlines(), 1)
        if NOQA.search(line) or TYPE_IGNORE.search(line)
    ]
    assert slips == []


def test_every_lint_exception_says_why():
    text = text_of(ROOT / "pyproject.toml")
    ruff = text.split("[tool.ruff.lint]")[1].split("[tool.ruff.lint.flake8")[0]
    rules = [line for line in ruff.splitlines() if re.match(r'\s+"[A-Z]+\d+"|"[\w*/]+" = ', line)]
    assert rules
    assert [line for line in rules if not re.search(r"# \S+ \S+", line)] == []
