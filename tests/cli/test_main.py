"""The frame of the command line: finding commands, refusals, bugs."""

from types import SimpleNamespace

import click
import pytest
from click.testing import CliRunner

from halfpail.cli import main as frame
from halfpail.findings import Fault, Refusal


def run_with(monkeypatch: pytest.MonkeyPatch, error: BaseException, *options: str):
    """Run `halfpail quick` with a command that raises `error`."""

    @click.command()
    def command() -> None:
        raise error

    monkeypatch.setattr(frame, "import_module", lambda name: SimpleNamespace(command=command))
    return CliRunner().invoke(frame.main, [*options, "quick"])


def test_refusal_is_plain_lines_with_place_read_and_remedy(monkeypatch):
    """Every fault is told, the exit code is 2, and nothing goes to the answer's stream."""
    refusal = Refusal(
        Fault(
            place="bags[1].price",
            read="1x",
            sentence="not a price",
            remedy="write 9.99",
        ),
        Fault(place="bags[2].name", read="", sentence="missing"),
    )
    result = run_with(monkeypatch, refusal)
    assert result.exit_code == 2
    assert result.stdout == ""
    for part in (
        "2 things",
        "bags[1].price: not a price",
        "1x",
        "write 9.99",
        "bags[2].name",
    ):
        assert part in result.stderr


def test_refused_text_cannot_write_to_the_terminal(monkeypatch):
    """Control characters in what was read are shown, not sent."""
    result = run_with(monkeypatch, Refusal(Fault(place="x", read="\x1b[2J\n", sentence="no")))
    assert "\x1b" not in result.stderr
    assert r"\x1b[2J\n" in result.stderr


def test_bug_is_one_sentence_without_a_trace(monkeypatch):
    """A bug of ours says so and how to report it; the trace is asked for."""
    result = run_with(monkeypatch, KeyError("inside"))
    assert result.exit_code == 70
    assert "bug in Halfpail" in result.stderr
    assert "Traceback" not in result.stderr


def test_debug_shows_the_trace(monkeypatch):
    """With --debug the trace is there for the report."""
    assert "Traceback" in run_with(monkeypatch, KeyError("inside"), "--debug").stderr


def test_unknown_command_is_a_usage_error():
    """A command that does not exist is told by click, exit code 2."""
    result = CliRunner().invoke(frame.main, ["stir"])
    assert result.exit_code == 2
    assert "stir" in result.stderr
