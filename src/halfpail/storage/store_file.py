"""The store's file looked at from outside, without Django: whole, ours, how new, what is in it."""

import re
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote

from halfpail.application.kept import StoreFile
from halfpail.application.store_trouble import Damaged, NotAStore
from halfpail.storage.trouble import trouble_of

FILE_NAME = "halfpail.sqlite3"

# Stands in the head of every store, so that another program's file is told from ours.
APPLICATION_ID = int.from_bytes(b"Pail", "big")

STAMP = "%Y%m%d-%H%M%S-%f"
BACKUP_NAME = re.compile(r"halfpail-(\d{8}-\d{6}-\d{6})(?:-[a-z-]+)?\.sqlite3")

_COUNTED = {
    "gardens": "storage_garden",
    "bags": "storage_bag",
    "beds": "storage_bed",
    "mixes": "storage_mix",
    "seasons": "storage_season",
    "diary lines": "storage_diaryline",
}
_WAL_MARK_AT = 18
_WAL_MARK = b"\x02"


def newest_version() -> int:
    """The form of the file this program knows: the number of its last migration."""
    steps = Path(__file__).with_name("migrations").glob("[0-9]*.py")
    return max(int(step.name[:4]) for step in steps)


def made_at(path: Path) -> datetime:
    """When a file was made, by its name if it is one of our backups, else by its last change."""
    if match := BACKUP_NAME.fullmatch(path.name):
        return datetime.strptime(match[1], STAMP).replace(tzinfo=UTC)
    return datetime.fromtimestamp(path.stat().st_mtime, tz=UTC)


def address_of(path: Path, *, immutable: bool = False, read_only: bool = False) -> str:
    """The address SQLite opens a file under; an immutable one is read without a trace.

    >>> address_of(Path("/shed/garden.sqlite3"), read_only=True)
    'file:/shed/garden.sqlite3?mode=ro'
    """
    how = "mode=ro&immutable=1" if immutable else "mode=ro" if read_only else "mode=rw"
    return f"file:{quote(str(path.absolute()))}?{how}"


def is_lonely(path: Path) -> bool:
    """Whether all rows lie in the file itself: no log beside it holds any, as after a crash."""
    wal = path.with_name(path.name + "-wal")
    return not (wal.exists() and wal.stat().st_size)


def look_at(path: Path) -> StoreFile:
    """Check a file page by page and tell what it is.

    Raises:
        Damaged: pages or rows of it are broken.
        NotAStore: it belongs to another program, or holds no rows of ours.
        StoreTrouble: it cannot be opened now.
    """
    lonely = is_lonely(path)
    try:
        with closing(sqlite3.connect(address_of(path, immutable=lonely), uri=True)) as file:
            return _look_at(path, file, loose=lonely and _is_marked_wal(path))
    except (sqlite3.Error, OSError) as error:
        raise (trouble_of(error) or Damaged)(place=str(path)) from error


def _look_at(path: Path, file: sqlite3.Connection, *, loose: bool) -> StoreFile:
    if file.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        raise Damaged(place=str(path))
    tables = {name for (name,) in file.execute("SELECT name FROM sqlite_master")}
    if file.execute("SELECT 1 FROM sqlite_master WHERE type IN ('trigger', 'view')").fetchone():
        raise NotAStore(place=str(path))  # ours has neither: somebody put commands into this file
    version = file.execute("PRAGMA user_version").fetchone()[0]
    if not tables:
        return StoreFile(path=path, made_at=made_at(path), version=0, counts=(), loose=loose)
    ours = file.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
    if not ours or not set(_COUNTED.values()) <= tables:
        raise NotAStore(place=str(path))
    counts = tuple((name, _count(file, table)) for name, table in _COUNTED.items())
    made = made_at(path)
    return StoreFile(path=path, made_at=made, version=version, counts=counts, loose=loose)


def _count(file: sqlite3.Connection, table: str) -> int:
    number: int = file.execute(f"SELECT count(*) FROM {table} WHERE removed_at IS NULL").fetchone()[
        0
    ]
    return number


def _is_marked_wal(path: Path) -> bool:
    with path.open("rb") as file:
        return file.read(_WAL_MARK_AT + 1)[_WAL_MARK_AT:] == _WAL_MARK
