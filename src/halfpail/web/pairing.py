"""Who from the home network may come in: whoever was told the code that the terminal shows."""

import secrets
from collections.abc import Callable
from enum import Enum, auto
from hmac import compare_digest
from threading import Lock
from typing import Any

from django.core import signing
from django.http import HttpRequest

COOKIE = "halfpail_paired"
SALT = "halfpail.pairing"
DOOR = "halfpail.pairing"
# Our defaults, not published: a guess in twenty million for whoever may try so often.
DIGITS = 8
WRONG_TRIES = 5


class Answer(Enum):
    """What became of a try."""

    RIGHT = auto()
    WRONG = auto()
    CLOSED = auto()


class Pairing:
    """The code that lets one more device in, until this server ends; a used code is replaced.

    `on_new_code` is told each code, the first one too.
    """

    def __init__(self, on_new_code: Callable[[str], None] = lambda code: None) -> None:
        self._on_new_code = on_new_code
        self._lock = Lock()
        self._wrong = 0
        # A cookie names the run of the server it was given in, and is worth nothing in the next.
        self._run = secrets.token_urlsafe(16)
        self.renew()

    def renew(self) -> None:
        """Make another code."""
        self.code = f"{secrets.randbelow(10**DIGITS):0{DIGITS}}"
        self._on_new_code(self.code)

    @property
    def is_closed(self) -> bool:
        """Whether too many wrong codes were tried for any to count."""
        return self._wrong >= WRONG_TRIES

    def attempt(self, typed: str) -> Answer:
        """Try a code, with or without spaces and hyphens."""
        digits = "".join(letter for letter in typed if letter not in " -\u00a0")
        with self._lock:
            if self.is_closed:
                return Answer.CLOSED
            if compare_digest(digits.encode(), self.code.encode()):
                self.renew()
                return Answer.RIGHT
            self._wrong += 1
            return Answer.CLOSED if self.is_closed else Answer.WRONG

    def cookie(self) -> str:
        """What a device that was let in shows from then on."""
        return signing.dumps(self._run, salt=SALT)

    def knows(self, request: HttpRequest) -> bool:
        """Whether the device that asks was let in during this run."""
        try:
            run = signing.loads(request.COOKIES.get(COOKIE, ""), salt=SALT)
        except signing.BadSignature:
            return False
        return isinstance(run, str) and compare_digest(run.encode(), self._run.encode())


def through_home_network(application: Any, pairing: Pairing) -> Any:
    """The application as it is met from the home network: each request carries the pairing.

    The door one came in by tells, not an address or a header, which others can write.
    """

    def answer(environ: dict[str, Any], start_response: Any) -> Any:
        return application({**environ, DOOR: pairing}, start_response)

    return answer


def pairing_of(request: HttpRequest) -> Pairing | None:
    """The pairing that a request from the home network carries; None on this machine."""
    carried = request.META.get(DOOR)
    return carried if isinstance(carried, Pairing) else None
