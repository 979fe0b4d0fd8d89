"""Opening a file in the child, and what the child took of this machine at the most."""

import json
import subprocess
import sys
from typing import Any

from halfpail.sheets import reader

# A process as small as can be stands between, since a child begins with the size of its parent.
_BETWEEN = """
import resource, subprocess, sys
done = subprocess.run(sys.argv[1:], stderr=subprocess.DEVNULL)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(done.returncode, used.ru_maxrss, used.ru_utime + used.ru_stime, file=sys.stderr)
"""


def opened(raw: bytes) -> tuple[dict[str, Any], int, float]:
    """What the child answers, its largest size [bytes], and the time it worked [s]."""
    done = subprocess.run(
        [sys.executable, "-S", "-c", _BETWEEN, *reader.command()],
        input=raw,
        capture_output=True,
        env=reader.surroundings(),
        check=True,
    )
    _, kilobytes, seconds = done.stderr.split()
    return json.loads(done.stdout or b"{}"), int(kilobytes) * 1024, float(seconds)
