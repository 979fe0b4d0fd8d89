"""The bibliography: every publication once, by key."""

import tomllib
from functools import cache
from importlib.resources import files

from halfpail.sources import Source


@cache
def bibliography() -> dict[str, Source]:
    """All sources by key.

    >>> bibliography()["high-n-study"].year
    '2006'
    """
    text = (files("halfpail.reference") / "bibliography.toml").read_text(encoding="utf-8")
    return {key: Source(key=key, **entry) for key, entry in tomllib.loads(text).items()}


def source(key: str) -> Source:
    """One source of the bibliography.

    Raises:
        KeyError: no source has that key.

    >>> source("high-n-study").publisher
    'HortTechnology'
    """
    return bibliography()[key]
