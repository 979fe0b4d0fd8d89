"""What lies in the data folder beside the store: the pages' secret, and who is running."""

import json
import os
import secrets
import sys
from pathlib import Path
from typing import IO

from halfpail.application.store_trouble import AlreadyRunning
from halfpail.storage.trouble import told_kindly

SECRET_FILE = "secret"
RUNNING_FILE = "running"
SECRET_BYTES = 48

# Far behind what is written, since Windows lets nobody read a locked byte.
_LOCKED_BYTE = 1 << 20


def secret_of(folder: Path) -> str:
    """The secret of this folder, at least 50 random characters; made where there is none yet."""
    path = folder / SECRET_FILE
    with told_kindly():
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not path.exists():
            _write_whole(path, secrets.token_urlsafe(SECRET_BYTES))
        return path.read_text("ascii")


def _write_whole(path: Path, text: str) -> None:
    """Under its own name only once it is whole."""
    unfinished = path.with_name(f"{path.name}.{os.getpid()}")
    with open(os.open(unfinished, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
        file.write(text)
    os.replace(unfinished, path)


class Running:
    """Holds a data folder for one server; the system lets go of it however the server ends."""

    def __init__(self, folder: Path, address: str) -> None:
        """Take the folder and leave word under which address it is served.

        Raises:
            AlreadyRunning: another server holds it; its process and address are told.
        """
        with told_kindly():
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._file = open(folder / RUNNING_FILE, "a+", encoding="utf-8")  # noqa: SIM115 - held open as long as the server runs
        if not _lock(self._file):
            self._file.seek(0)
            told = _told(self._file.read())
            self._file.close()
            raise AlreadyRunning(*told)
        with told_kindly():
            self.tell(address)

    def tell(self, address: str) -> None:
        """Leave word of another address."""
        self._file.truncate(0)
        json.dump({"pid": os.getpid(), "address": address}, self._file)
        self._file.flush()

    def let_go(self) -> None:
        """Leave the folder to the next server."""
        self._file.truncate(0)
        self._file.close()


def _told(text: str) -> tuple[int, str]:
    try:
        word = json.loads(text)
        return int(word["pid"]), str(word["address"])
    except (ValueError, KeyError, TypeError):
        return 0, ""


if sys.platform == "win32":
    import msvcrt

    def _lock(file: IO[str]) -> bool:
        file.seek(_LOCKED_BYTE)
        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _lock(file: IO[str]) -> bool:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
