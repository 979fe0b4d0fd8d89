"""Prints one document: what typst is to set comes in as JSON, the PDF goes out.

Run as `python -m halfpail.documents.press_child`.
"""

import json
import sys

from halfpail.documents.limited_press import MOST_CPU_SECONDS, MOST_MEMORY_BYTES, TOO_MUCH
from halfpail.documents.press import Setting, TypstPress


def keep_to_limits() -> None:
    """Let this process have so much and no more, where the machine can hold it to that."""
    if sys.platform == "win32":
        return
    import resource

    for what, most in (
        (resource.RLIMIT_AS, MOST_MEMORY_BYTES),
        (resource.RLIMIT_CPU, MOST_CPU_SECONDS),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
    ):
        resource.setrlimit(what, (most, most))


def main() -> None:
    """Print what is asked for."""
    keep_to_limits()
    try:
        asked = json.loads(sys.stdin.buffer.read())
        printed = TypstPress().set_in_type(Setting(**asked))
    except MemoryError:
        sys.exit(TOO_MUCH)
    sys.stdout.buffer.write(printed)


if __name__ == "__main__":
    main()
