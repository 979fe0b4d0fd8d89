"""The import contracts bite: each breach, planted in a copy of the source, is caught."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.rules.tree import ROOT, SOURCE

FLOORS = "The floors: imports go downwards only"
DOMAIN = "The floors inside the domain"
PURE = "Pure floors know no world"
ENTRANCES = "Entrances use the wiring"
LOOPS = "No loops among neighbours"
STRANGERS = "Files of strangers are opened by the child alone"

BREACHES = [
    ("domain/matter.py", "import halfpail.domain.label", DOMAIN),
    ("domain/label.py", "import halfpail.domain.stock", DOMAIN),
    ("domain/bed.py", "import halfpail.domain.recipe", DOMAIN),
    ("domain/misc.py", "", DOMAIN),
    ("helpers.py", "", FLOORS),
    ("sources.py", "import halfpail.findings", FLOORS),
    ("reference/planted.py", "import halfpail.blending.ports", FLOORS),
    ("engine/planted.py", "import halfpail.solvers.highs", FLOORS),
    ("application/planted.py", "import halfpail.engine", FLOORS),
    ("domain/stock.py", "def late():\n    import halfpail.blending.ports", FLOORS),
    (
        "domain/stock.py",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import halfpail.reference",
        FLOORS,
    ),
    ("domain/stock.py", "import sqlite3", PURE),
    ("domain/matter.py", "import numpy", PURE),
    ("application/planted.py", "from time import monotonic", PURE),
    ("blending/programme.py", "import highspy", PURE),
    ("quantities/units.py", "import pint", PURE),
    ("solvers/scip.py", "import highspy", "One door to HiGHS"),
    ("engine/planted.py", "import pyscipopt", "One door to SCIP"),
    ("workbooks/planted.py", "import python_calamine", STRANGERS),
    ("cli/planted.py", "import halfpail.sheets.cells", ENTRANCES),
    ("cli/planted.py", "import halfpail.garden_file", ENTRANCES),
    ("cli/planted.py", "from halfpail.blending import programme", ENTRANCES),
    ("notebook.py", "import halfpail.engine.planner", ENTRANCES),
    ("blending/programme.py", "import halfpail.blending.ports", LOOPS),
    ("cli/planted.py", "import halfpail.storage.open_store", ENTRANCES),
    ("cli/planted.py", "from django.db import models", "Django is fenced"),
    ("domain/stock.py", "import django", PURE),
    ("wiring.py", "def late():\n    import halfpail.storage.models", "Rows stay at home"),
]


def lint(tree: Path) -> str:
    """What the import linter says of a copy of the source."""
    call = "from importlinter.cli import lint_imports_command as lint; lint()"
    config = str(ROOT / "pyproject.toml")
    done = subprocess.run(
        [sys.executable, "-c", call, "--no-cache", "--no-logo", config],
        cwd=tree,
        env={**os.environ, "PYTHONPATH": str(tree), "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.stdout + done.stderr


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    tree = tmp_path_factory.mktemp("tree")
    shutil.copytree(SOURCE, tree / "halfpail", ignore=shutil.ignore_patterns("__pycache__"))
    return tree


@pytest.mark.slow
@pytest.mark.parametrize(("file", "code", "contract"), BREACHES)
def test_a_planted_breach_is_caught(copy, file, code, contract):
    planted = copy / "halfpail" / file
    before = planted.read_text("utf-8") if planted.exists() else None
    planted.write_text(f"{before or ''}\n{code}\n", "utf-8")
    try:
        report = lint(copy)
    finally:
        if before is None:
            planted.unlink()
        else:
            planted.write_text(before, "utf-8")
    assert f"{contract} BROKEN" in report, report


@pytest.mark.slow
def test_the_source_as_it_is_keeps_every_contract(copy):
    assert " 0 broken" in lint(copy)
