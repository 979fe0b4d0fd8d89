"""The derived-from list of a label: where it stands, and the sources it names."""

import re
from collections.abc import Sequence

from halfpail.domain.label_lines import Line

_HEADING = re.compile(
    r"(derived from|nutrient sources?|sources?|ingredients?|made from)\b"
    r"(?: the following)?(?: sources| materials| ingredients)?[ .]*",
    re.IGNORECASE,
)
_OTHER_HEADING = re.compile(
    r"(guaranteed|minimum|directions|made by|manufactured|distributed|caution|warning|information|"
    r"keep|use|apply|net|lot|registered|for best|f[0-9])\b",
    re.IGNORECASE,
)
_SENTENCE_END = re.compile(r"\.( |$)")
_PARTING = re.compile(r"[,;](?![^(]*\))")


def take_sources(lines: Sequence[Line]) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    r"""The lines without the derived-from list, and the phrases of that list in order.

    The list ends at a full stop, a blank line, a line with a percentage or another heading.

    >>> from halfpail.domain.label_lines import lines_of
    >>> rest, listed = take_sources(lines_of("Derived from: urea,\nkelp meal.\nMade by: us"))
    >>> [line.clean for line in rest], listed
    (['Made by us'], ('urea', 'kelp meal'))
    """
    rest: list[Line] = []
    listed: list[str] = []
    inside = False
    for line in lines:
        heading = _HEADING.match(line.clean)
        if heading and not listed:
            inside, text = True, line.clean[heading.end() :]
        elif inside and line.clean and not _ends_list(line):
            text = line.clean
        else:
            inside = False
            rest.append(line)
            continue
        end = _SENTENCE_END.search(text)
        listed.append(text[: end.start()] if end else text)
        inside = not (end and text[: end.start()])
    return tuple(rest), source_phrases(" ".join(listed))


def source_phrases(text: str) -> tuple[str, ...]:
    """The sources of a derived-from list, in order; a bracket stays with its source.

    >>> source_phrases("Derived from: urea, bone meal (steamed, ground); and kelp meal.")
    ('urea', 'bone meal (steamed, ground)', 'kelp meal')
    """
    listed = _HEADING.sub("", text.strip(), count=1) if _HEADING.match(text.strip()) else text
    trimmed = (
        re.sub(r"^(and|&)\s+", "", phrase.strip(" .:*"), flags=re.IGNORECASE)
        for phrase in _PARTING.split(listed)
    )
    return tuple(phrase for phrase in trimmed if phrase)


def _ends_list(line: Line) -> bool:
    return "%" in line.clean or _OTHER_HEADING.match(line.clean) is not None
