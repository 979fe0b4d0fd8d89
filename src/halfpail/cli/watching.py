"""A live line while a season is planned, and Ctrl-C that keeps the best plan so far."""

import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from types import FrameType

import click

from halfpail.application.ports import SeasonEffort, SeasonProgress
from halfpail.application.word_season import progress_words

_CLEAR = "\r\x1b[K"


@contextmanager
def watching(effort: SeasonEffort, currency: str, *, show: bool) -> Iterator[SeasonEffort]:
    """The effort, ending early on Ctrl-C, its progress told on stderr where `show` says so.

    A second Ctrl-C ends the program as usual. On a terminal the line is written over; elsewhere
    each change of it stands on its own line.
    """
    stop = threading.Event()
    line = _Line(currency, sys.stderr.isatty())
    watched = replace(
        effort, should_stop=stop.is_set, on_progress=line.tell if show else effort.on_progress
    )

    def enough(number: int, frame: FrameType | None) -> None:
        stop.set()
        signal.signal(signal.SIGINT, signal.default_int_handler)
        click.echo("\nStopping; the best plan so far is kept.", err=True)

    with _on_interrupt(enough):
        yield watched
    line.done()


@contextmanager
def _on_interrupt(handler: object) -> Iterator[None]:
    """Signals reach the main thread only; elsewhere Ctrl-C does what it always does."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, handler)  # type: ignore[arg-type]  # a handler
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


class _Line:
    """The line of progress; what would read the same is not written again."""

    def __init__(self, currency: str, over: bool) -> None:
        self.currency, self.over = currency, over
        self.told = ""

    def tell(self, news: SeasonProgress) -> None:
        """Write the news over the line before it."""
        said = progress_words(news, self.currency)
        seconds = f"{news.seconds:.0f} s"
        if self.over:
            click.echo(f"{_CLEAR}{said}, {seconds}", nl=False, err=True)
        elif said != self.told:
            click.echo(f"{said}, {seconds}", err=True)
        self.told = said

    def done(self) -> None:
        """Clear the line."""
        if self.over and self.told:
            click.echo(_CLEAR, nl=False, err=True)
