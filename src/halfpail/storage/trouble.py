"""What SQLite and the disk complain of, told as the trouble of the store it is."""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from halfpail.application.store_trouble import (
    Damaged,
    DiskFull,
    ReadOnly,
    StoreBusy,
    StoreTrouble,
)

_TROUBLE: dict[int, type[StoreTrouble]] = {
    sqlite3.SQLITE_BUSY: StoreBusy,
    sqlite3.SQLITE_LOCKED: StoreBusy,
    sqlite3.SQLITE_FULL: DiskFull,
    sqlite3.SQLITE_IOERR_WRITE: DiskFull,
    sqlite3.SQLITE_IOERR_SHMSIZE: DiskFull,
    sqlite3.SQLITE_READONLY: ReadOnly,
    sqlite3.SQLITE_CANTOPEN: ReadOnly,
    sqlite3.SQLITE_CORRUPT: Damaged,
    sqlite3.SQLITE_NOTADB: Damaged,
}
_TROUBLE_OF_DISK: dict[int, type[StoreTrouble]] = {
    errno.ENOSPC: DiskFull,
    errno.EDQUOT: DiskFull,
    errno.EFBIG: DiskFull,
    errno.EACCES: ReadOnly,
    errno.EPERM: ReadOnly,
    errno.EROFS: ReadOnly,
    errno.ENOTDIR: ReadOnly,
    errno.EEXIST: ReadOnly,
}
_FIRST_BYTE = 0xFF


def trouble_of(error: BaseException | None) -> type[StoreTrouble] | None:
    """The trouble an error of SQLite or of the disk stands for; None for what must be a bug."""
    if isinstance(error, OSError):
        return _TROUBLE_OF_DISK.get(error.errno or 0)
    code = getattr(error, "sqlite_errorcode", None)
    if code is None:
        return None
    return _TROUBLE.get(code) or _TROUBLE.get(code & _FIRST_BYTE)


@contextmanager
def told_kindly() -> Iterator[None]:
    """Turn complaints, also those Django wraps, into the store's trouble; bugs pass as they are."""
    try:
        yield
    except Exception as error:
        trouble = trouble_of(error) or trouble_of(error.__cause__)
        if trouble is None:
            raise
        raise trouble() from error
