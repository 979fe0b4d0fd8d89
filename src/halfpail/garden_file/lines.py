"""On which line of a TOML text each key stands; the standard reader does not tell.

The text has been read without an error before it comes here, so this scan may be simple.
"""

import re

_HEADER = re.compile(r"\s*(\[\[?)\s*(.+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[A-Za-z0-9_\-. \t])+?)\s*=""")
_PART = re.compile(r"""\s*("[^"]*"|'[^']*'|[A-Za-z0-9_\-]+)\s*(?:\.|$)""")
_TOKEN = re.compile(r'"""|\'\'\'|"(?:\\.|[^"\\])*"|\'[^\']*\'|#.*|[\[{]|[\]}]')


def lines_of(text: str) -> dict[str, int]:
    r"""Line number of every key and header, by place; members of a list count from one.

    >>> lines_of('name = "ours"\n[[bags]]\nprice = 3\n[[bags]]\nprice = 4')["bags[2].price"]
    5
    """
    found: dict[str, int] = {}
    counts: dict[str, int] = {}
    prefix, closing, depth = "", "", 0
    for number, line in enumerate(text.splitlines(), start=1):
        rest = line
        if not closing and not depth:
            if header := _HEADER.match(line):
                prefix = _header_place(header[2], header[1] == "[[", counts)
                found.setdefault(prefix, number)
                continue
            if key := _KEY.match(line):
                found.setdefault(".".join(filter(None, (prefix, *_parts(key[1])))), number)
                rest = line[key.end() :]
        closing, depth = _state_after(rest, closing, depth)
    return found


def _parts(dotted: str) -> list[str]:
    return [part.strip("\"'") for part in _PART.findall(dotted)]


def _header_place(dotted: str, is_list: bool, counts: dict[str, int]) -> str:
    parts = _parts(dotted)
    place = ""
    for number, part in enumerate(parts, start=1):
        place = f"{place}.{part}" if place else part
        if is_list and number == len(parts):
            counts[place] = counts.get(place, 0) + 1
        if place in counts:
            place = f"{place}[{counts[place]}]"
    return place


def _state_after(rest: str, closing: str, depth: int) -> tuple[str, int]:
    """Whether a long string or a list is still open at the end of a line."""
    while rest:
        if closing:
            end = rest.find(closing)
            if end < 0:
                return closing, depth
            rest, closing = rest[end + 3 :].lstrip(closing[0]), ""
        token = _TOKEN.search(rest)
        if token is None or token[0].startswith("#"):
            return "", depth
        rest = rest[token.end() :]
        if token[0] in ('"""', "'''"):
            closing = token[0]
        elif token[0] in "[{":
            depth += 1
        elif token[0] in "]}":
            depth -= 1
    return closing, depth
