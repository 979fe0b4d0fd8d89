"""The options for what goes on paper, for several commands, and writing it into a folder."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, time
from functools import wraps
from pathlib import Path
from typing import Any

import click

from halfpail.application.page import Page, Paper
from halfpail.findings import Fault, Refusal
from halfpail.quantities.dates import read_date
from halfpail.wiring import services


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """The paper, the folder to write into, whether prices are shown, and the day on the pages."""

    paper: Paper
    folder: Path
    prices: bool
    made_at: datetime


_OPTIONS = (
    click.option(
        "--paper",
        type=click.Choice([one.value for one in Paper], case_sensitive=False),
        default=Paper.LETTER.value,
        show_default=True,
        help="The paper in the printer.",
    ),
    click.option(
        "--to",
        type=click.Path(path_type=Path, file_okay=False),
        default=Path(),
        help="The folder to write into; made where it is not there. This one if not said.",
    ),
    click.option("--prices/--no-prices", default=True, help="Show prices; they are shown."),
    click.option("--dated", metavar="DATE", help="The day in the files; today if not said."),
)


def paper_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the paper options; it gets them read, as `printing`."""

    @wraps(command)
    def with_paper(*, paper: str, to: Path, prices: bool, dated: str | None, **rest: Any) -> None:
        printing = Printing(paper=Paper(paper), folder=to, prices=prices, made_at=moment_of(dated))
        command(printing=printing, **rest)

    for option in reversed(_OPTIONS):
        with_paper = option(with_paper)
    return with_paper


def moment_of(dated: str | None) -> datetime:
    """Noon of the day that was typed, or this moment."""
    if dated is None:
        return datetime.now(UTC).replace(microsecond=0)
    return datetime.combine(read_date(dated, "--dated"), time(12), UTC)


def print_pages(pages: Iterable[tuple[str, Page]], printing: Printing) -> None:
    """Write each page as a PDF of its name, and tell each file.

    Raises:
        Refusal: the folder cannot be written into.
    """
    for name, page in pages:
        printed = services().press.print(page, printing.paper, printing.made_at)
        write_file(printing.folder / f"{name}.pdf", printed)


def write_file(path: Path, content: bytes) -> None:
    """Write a file into a folder, which is made where it is not there, and tell it.

    Raises:
        Refusal: it cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    except OSError as error:
        sentence = f"It cannot be written: {error.strerror}."
        raise Refusal(Fault(place="--to", read=str(path), sentence=sentence)) from None
    click.echo(str(path))
