"""The server of the pages killed ten times while it saves; `make bench` does it fifty times."""

import pytest

from benchmarks.kills import kill_often


@pytest.mark.slow
def test_a_server_killed_while_it_saves_loses_nothing_it_acknowledged(tmp_path):
    tally = kill_often(tmp_path, kills=10, seed=2)
    print(tally.words)
    assert tally.kills == 10 and tally.is_sound, tally.words
