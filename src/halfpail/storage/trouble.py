"""Work on the rows: all of it or nothing; what SQLite complains of becomes the store's trouble."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from typing import ParamSpec, TypeVar

from django.db import DatabaseError, connection, transaction

from halfpail.application.store_trouble import (
    Damaged,
    DiskFull,
    ReadOnly,
    StoreBusy,
    StoreTrouble,
)

P = ParamSpec("P")
T = TypeVar("T")

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
_FIRST_BYTE = 0xFF


def trouble_of(error: BaseException | None) -> type[StoreTrouble] | None:
    """The trouble an error of SQLite stands for; None for what can only be a bug."""
    code = getattr(error, "sqlite_errorcode", None)
    if code is None:
        return None
    return _TROUBLE.get(code) or _TROUBLE.get(code & _FIRST_BYTE)


@contextmanager
def told_kindly() -> Iterator[None]:
    """Turn what SQLite complains of into the store's trouble; bugs pass as they are."""
    try:
        yield
    except (DatabaseError, sqlite3.Error) as error:
        trouble = trouble_of(error) or trouble_of(error.__cause__)
        if trouble is None:
            raise
        raise trouble() from error


def reading(work: Callable[P, T]) -> Callable[P, T]:
    """Work that only looks."""

    @wraps(work)
    def run(*args: P.args, **kwargs: P.kwargs) -> T:
        with told_kindly():
            return work(*args, **kwargs)

    return run


def writing(work: Callable[P, T]) -> Callable[P, T]:
    """Work that is done whole or not at all; tried once more where another writer was in the way.

    Inside other such work it is a part of that.
    """

    @wraps(work)
    def run(*args: P.args, **kwargs: P.kwargs) -> T:
        if connection.in_atomic_block:
            return work(*args, **kwargs)
        try:
            return at_once(*args, **kwargs)
        except StoreBusy:
            return at_once(*args, **kwargs)

    def at_once(*args: P.args, **kwargs: P.kwargs) -> T:
        with told_kindly(), transaction.atomic():
            return work(*args, **kwargs)

    return run
