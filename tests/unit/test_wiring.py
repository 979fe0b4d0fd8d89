"""Only what is asked for is loaded."""

import subprocess
import sys

import pytest

HEAVY = ("highspy", "pyscipopt", "numpy")


@pytest.mark.parametrize(
    "code",
    [
        "import halfpail.cli.main",
        "import halfpail.cli.quick",
        "import halfpail.cli.season",
        "from halfpail.wiring import services; services().read_sample_garden()",
    ],
)
def test_no_solver_is_loaded_before_it_is_needed(code):
    check = f"{code}; import sys; print([m for m in {HEAVY} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", check], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
