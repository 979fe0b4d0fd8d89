"""The press in a process of its own, with so much memory and time and no more."""

import json
import os
import subprocess
import sys
from dataclasses import asdict
from datetime import datetime

from halfpail.application.page import Page, Paper
from halfpail.documents.press import setting_of
from halfpail.findings import Fault, Refusal

# Our defaults, not published: what one document may take of this machine.
MOST_MEMORY_BYTES = 2 * 2**30
MOST_CPU_SECONDS = 20
MOST_SECONDS = 30.0
# How the child says that its memory did not do; 1 is how Python says that something broke.
TOO_MUCH, _BROKE = 3, 1
_REFUSED = Fault(
    place="",
    read="",
    sentence="This document asks for too much of this machine to be printed.",
    remedy="Print fewer beds or bags at once.",
)
# What the child needs to know of its surroundings; secrets and settings stay here.
_PASSED_ON = ("PATH", "PYTHONPATH", "SYSTEMROOT", "LD_LIBRARY_PATH", "PYTHONDONTWRITEBYTECODE")


def command() -> list[str]:
    """How the child is started."""
    return [sys.executable, "-m", "halfpail.documents.press_child"]


class LimitedPress:
    """Prints each page in a child that may fail without harm."""

    def print(self, page: Page, paper: Paper, made_at: datetime) -> bytes:
        """The PDF of a page, the same bytes as without limits.

        Raises:
            Refusal: it takes too much memory or time.
            ValueError: `made_at` has no time zone.
        """
        setting = setting_of(page, paper, made_at)
        try:
            done = subprocess.run(
                command(),
                input=json.dumps(asdict(setting)).encode(),
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env={name: os.environ[name] for name in _PASSED_ON if name in os.environ},
                timeout=MOST_SECONDS,
                start_new_session=True,
                check=False,
            )
        except subprocess.TimeoutExpired:
            raise Refusal(_REFUSED) from None
        if done.returncode == _BROKE:
            raise RuntimeError("the process that prints broke")
        if done.returncode or not done.stdout.startswith(b"%PDF-"):
            raise Refusal(_REFUSED)
        return done.stdout
