"""The secret that signs cookies: made at the first start, kept beside the garden, never shared."""

import os
import secrets
from pathlib import Path

FILE_NAME = "secret"
BYTES = 48


def secret_key(folder: Path) -> str:
    """The secret of this folder; it is made where there is none, readable by its owner only."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / FILE_NAME
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return path.read_text(encoding="ascii")
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_urlsafe(BYTES))
    return path.read_text(encoding="ascii")
