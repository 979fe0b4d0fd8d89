"""Printing in a process of its own: the same bytes, and no more than its share of the machine."""

import sys

import pytest

from halfpail.application.page import Paper
from halfpail.documents import limited_press
from halfpail.documents.limited_press import LimitedPress
from halfpail.findings import Refusal
from tests.documents.papers import AT, card, printed

HUNGRY = """
from halfpail.documents import press_child
press_child.TypstPress.set_in_type = lambda press, setting: bytearray(8 * 2**30)
press_child.main()
"""


def printed_by(program: str, monkeypatch: pytest.MonkeyPatch) -> bytes:
    monkeypatch.setattr(limited_press, "command", lambda: [sys.executable, "-c", program])
    return LimitedPress().print(card("A mix"), Paper.LETTER, AT)


def test_the_bytes_are_the_same():
    page = card("A mix")
    assert LimitedPress().print(page, Paper.A4, AT) == printed(page, Paper.A4)


@pytest.mark.parametrize("program", [HUNGRY, "import os; os.abort()", "print('no paper')"])
def test_what_takes_too_much_is_refused(program, monkeypatch):
    with pytest.raises(Refusal, match="too much"):
        printed_by(program, monkeypatch)


def test_what_takes_too_long_is_refused(monkeypatch):
    monkeypatch.setattr(limited_press, "MOST_SECONDS", 0.3)
    with pytest.raises(Refusal, match="too much"):
        printed_by("while True: pass", monkeypatch)


def test_a_bug_is_not_taken_for_a_large_page(monkeypatch):
    with pytest.raises(RuntimeError, match="broke"):
        printed_by("raise ValueError", monkeypatch)
