"""`halfpail serve` on a store it cannot use: it says so in a sentence, and the file stays."""

import subprocess
import sys
from pathlib import Path

import pytest

from halfpail.storage.store_file import FILE_NAME

LONGEST_S = 60


def serve(folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "halfpail", "serve", "--no-browser", "--folder", str(folder)]
    return subprocess.run(command, capture_output=True, text=True, timeout=LONGEST_S, check=False)


@pytest.mark.parametrize(
    "held",
    [b"no store at all" * 300, b"SQLite format 3\x00" + b"\xff" * 5000],
    ids=["text", "torn"],
)
def test_a_damaged_file_is_told_and_left_as_it_is(tmp_path, held):
    (tmp_path / FILE_NAME).write_bytes(held)
    told = serve(tmp_path)
    assert told.returncode == 2
    assert "Traceback" not in told.stderr and "it is kept as it is" in told.stderr
    kept = [path for path in tmp_path.iterdir() if path.is_file() and path.read_bytes() == held]
    assert kept


def test_a_folder_that_is_a_file_is_told(tmp_path):
    (tmp_path / "garden").write_text("a file")
    told = serve(tmp_path / "garden")
    assert told.returncode != 0 and "Traceback" not in told.stderr and told.stderr.strip()
