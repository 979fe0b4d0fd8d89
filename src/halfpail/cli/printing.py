"""Plain text for the terminal: tables, wrapped paragraphs, notices, refusals, the working."""

import textwrap
from collections.abc import Iterable, Sequence

from halfpail.findings import Fault, Notice, Refusal, Severity, loudest_first
from halfpail.sources import Citation
from halfpail.working import Working

WIDTH = 96

_LOUDNESS = {Severity.STOP: "STOP", Severity.CAUTION: "Caution", Severity.NOTE: "Note"}


def heading(title: str, mark: str = "-") -> str:
    """A title with a rule beneath it.

    >>> print(heading("Mixes"))
    Mixes
    -----
    """
    return f"{title}\n{mark * len(title)}"


def paragraph(text: str, indent: str = "", hang: str | None = None) -> str:
    """Text wrapped to the width of the page; lines after the first begin with `hang`.

    >>> paragraph("  two   words ", indent="- ")
    '- two words'
    """
    return textwrap.fill(
        " ".join(text.split()),
        width=WIDTH,
        initial_indent=indent,
        subsequent_indent=" " * len(indent) if hang is None else hang,
        break_long_words=False,
        break_on_hyphens=False,
    )


def table(
    headings: Sequence[str],
    rows: Iterable[Sequence[str]],
    left: int = 1,
    indent: str = "  ",
) -> str:
    """Columns in line: the first `left` columns begin at the left edge, the others end together.

    >>> print(table(("bag", "scoops"), (("meal", "2"), ("bone", "10")), indent=""))
    bag   scoops
    meal       2
    bone      10
    """
    lines = [tuple(headings), *(tuple(row) for row in rows)]
    widths = [max(len(line[column]) for line in lines) for column in range(len(headings))]
    return "\n".join((indent + "  ".join(_cells(line, widths, left))).rstrip() for line in lines)


def _cells(line: Sequence[str], widths: Sequence[int], left: int) -> Iterable[str]:
    for column, (cell, width) in enumerate(zip(line, widths, strict=True)):
        yield cell.ljust(width) if column < left else cell.rjust(width)


def cited(citation: Citation | None) -> str:
    """Who says so, in brackets; nothing where there is no citation."""
    if citation is None:
        return ""
    place = ", ".join(part for part in (citation.source, citation.locator) if part)
    return f" [{citation.mark}{': ' + place if place else ''}]"


def notices(found: Iterable[Notice]) -> str:
    """One wrapped line for each notice, the loudest first, each said once."""
    return "\n".join(
        paragraph(
            f"{_LOUDNESS[notice.severity]}: {notice.sentence}{cited(notice.citation)}",
            indent="  * ",
        )
        for notice in loudest_first(found)
    )


def working(steps: Working) -> str:
    """The steps, numbered: the reason, the sum on its own line, and who says so."""
    lines = []
    for number, step in enumerate(steps, start=1):
        lines.append(paragraph(step.reason + cited(step.citation), indent=f"  {number:>3}. "))
        lines.extend(f"         {line}" for line in step.sum.splitlines())
    return "\n".join(lines)


def refusal(refused: Refusal) -> str:
    """Every fault with its place, what was read and how to mend it."""
    count = len(refused.faults)
    said = "One thing needs mending:" if count == 1 else f"{count} things need mending:"
    return "\n".join([said, *(_fault(fault) for fault in refused.faults)])


def _fault(fault: Fault) -> str:
    lines = [paragraph(f"{fault.place}: {fault.sentence}", indent="  * ")]
    if fault.read:
        lines.append(f"      read:  {_shown(fault.read)}")
    if fault.remedy:
        lines.append(paragraph(fault.remedy, indent="      mend:  "))
    return "\n".join(lines)


def _shown(read: str, most: int = 78) -> str:
    """What was typed on one line, with control characters made visible."""
    visible = "".join(
        letter if letter.isprintable() else letter.encode("unicode_escape").decode()
        for letter in read
    )
    return visible if len(visible) <= most else visible[: most - 3] + "..."


def bug(error: Exception) -> str:
    """One plain sentence for a bug of ours, and what to do about it."""
    return (
        f"This is a bug in Halfpail, not a mistake of yours ({type(error).__name__}). "
        "Please report it with what you typed; 'halfpail --debug ...' shows the trace to send."
    )
