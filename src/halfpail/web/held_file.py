"""A file that was looked at and not kept yet: its text lies among the drafts, the last few."""

import secrets

from halfpail.application.shelf_ports import Store

MOST_HELD = 5
_START = "file "
_TEXT = "text"


def hold(store: Store | None, text: str) -> str:
    """Keep a text to be confirmed; the token it lies under, none where nothing can be kept.

    Raises:
        StoreTrouble: it cannot be kept.
    """
    if store is None or store.read_only:
        return ""
    token = secrets.token_urlsafe(16)
    store.drafts.keep(f"{_START}{token}", {_TEXT: text})
    store.drafts.keep_few(_START, MOST_HELD)
    return token


def held_under(store: Store | None, token: str) -> str:
    """The text of a token; none where it was forgotten."""
    return store.drafts.get(f"{_START}{token}").get(_TEXT, "") if store else ""
