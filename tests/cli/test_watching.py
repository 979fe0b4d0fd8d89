"""A live line of progress, and Ctrl-C that keeps the best plan so far."""

import signal

import pytest

from halfpail.application.ports import SeasonEffort, SeasonProgress
from halfpail.cli.watching import watching


def news(value: float | None, bound: float | None, seconds: float = 1.0) -> SeasonProgress:
    return SeasonProgress(value=value, bound=bound, seconds=seconds)


def test_progress_is_told_once_for_each_change(capsys: pytest.CaptureFixture[str]) -> None:
    with watching(SeasonEffort(), "USD", show=True) as effort:
        assert effort.on_progress is not None
        for each in (news(None, 1.0), news(20.0, 15.5), news(20.001, 15.5, 2.0), news(18.0, None)):
            effort.on_progress(each)
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.splitlines() == [
        "no plan yet, 1 s",
        "best plan so far $20.00, at most $4.50 better is possible, 1 s",
        "best plan so far $18.00, 1 s",
    ]


def test_nothing_is_told_unasked(capsys: pytest.CaptureFixture[str]) -> None:
    with watching(SeasonEffort(), "USD", show=False) as effort:
        assert effort.on_progress is None
    assert capsys.readouterr().err == ""


def test_ctrl_c_asks_the_engine_to_stop_and_a_second_one_ends_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    before = signal.getsignal(signal.SIGINT)
    with watching(SeasonEffort(), "USD", show=False) as effort:
        assert effort.should_stop is not None
        assert not effort.should_stop()
        signal.raise_signal(signal.SIGINT)
        assert effort.should_stop()
        with pytest.raises(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)
    assert "best plan so far is kept" in capsys.readouterr().err
    assert signal.getsignal(signal.SIGINT) is before
