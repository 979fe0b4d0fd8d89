"""Backups: whole copies of the store in one file each, made while it may be in use."""

import os
import re
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from halfpail.application.store_trouble import NotAStore, StoreTrouble, TooNew
from halfpail.storage.setup import newest_version
from halfpail.storage.store_file import StoreFile, address_of, look_at
from halfpail.storage.trouble import told_kindly

FOLDER = "backups"
KEEP = 10
PAGES_A_STEP = 256

_NAME = re.compile(r"halfpail-(\d{8}-\d{6}-\d{6})(?:-[a-z-]+)?\.sqlite3")


def back_up(path: Path, why: str = "", into: Path | None = None) -> StoreFile:
    """Copy a store into one file, by default among its backups, of which the last ten stay.

    The copy bears its name only once it is whole.

    Raises:
        StoreTrouble: the store cannot be read, or the copy not be written.
    """
    target = into or _new_name(path.parent / FOLDER, why)
    unfinished = target.with_name(target.name + ".part")
    with told_kindly():
        target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        unfinished.unlink(missing_ok=True)
        try:
            _copy(path, unfinished)
            copied = look_at(unfinished)
            os.replace(unfinished, target)
        finally:
            unfinished.unlink(missing_ok=True)
    if into is None:
        for old in backups(path.parent)[KEEP:]:
            old.unlink()
    return StoreFile(path=target, version=copied.version, counts=copied.counts)


def backups(folder: Path) -> list[Path]:
    """The backups of a data folder, the newest first."""
    found = (folder / FOLDER).glob("halfpail-*.sqlite3")
    return sorted((one for one in found if _NAME.fullmatch(one.name)), reverse=True)


def newest_good_backup(folder: Path) -> StoreFile | None:
    """The newest backup that is whole and known to this program; None where there is none."""
    for path in backups(folder):
        try:
            return look_at_backup(path)
        except StoreTrouble:
            continue
    return None


def look_at_backup(path: Path) -> StoreFile:
    """What a backup holds.

    Raises:
        StoreTrouble: it is damaged, of a newer program, or no store with rows.
    """
    found = look_at(path)
    if found.version > newest_version():
        raise TooNew(place=str(path), read=f"version {found.version}, known: {newest_version()}")
    if not found.version:
        raise NotAStore(place=str(path))
    return found


def made_at(path: Path) -> datetime:
    """When a backup was made, by its name, else by its file."""
    if match := _NAME.fullmatch(path.name):
        return datetime.strptime(match[1], "%Y%m%d-%H%M%S-%f").replace(tzinfo=UTC)
    return datetime.fromtimestamp(path.stat().st_mtime, tz=UTC)


def restore(backup: Path, path: Path) -> Path | None:
    """Put a backup in the place of the store; answers where the present one is kept.

    What lies there now is backed up first; where it is damaged the file itself is set aside.

    Raises:
        StoreTrouble: the backup is no good, or something cannot be written. Nothing changes then.
    """
    look_at_backup(backup)
    incoming = path.with_name(path.name + ".incoming")
    with told_kindly():
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        incoming.unlink(missing_ok=True)
        _copy(backup, incoming)
    kept = _keep_present(path)
    for beside in ("-wal", "-shm"):
        path.with_name(path.name + beside).unlink(missing_ok=True)
    os.replace(incoming, path)
    return kept


def _keep_present(path: Path) -> Path | None:
    if not path.exists():
        return None
    try:
        return back_up(path, "before restoring").path
    except StoreTrouble:
        aside = path.with_name(f"damaged-{_stamp()}.sqlite3")
        os.replace(path, aside)
        return aside


def _copy(path: Path, into: Path) -> None:
    """Page by page through SQLite, so that what still stands in the log comes along."""
    with (
        closing(sqlite3.connect(address_of(path), uri=True)) as source,
        closing(sqlite3.connect(into)) as target,
    ):
        source.backup(target, pages=PAGES_A_STEP)
        target.execute("PRAGMA journal_mode=DELETE")
    os.chmod(into, 0o600)


def _new_name(folder: Path, why: str) -> Path:
    tail = f"-{why.replace(' ', '-')}" if why else ""
    return folder / f"halfpail-{_stamp()}{tail}.sqlite3"


def _stamp() -> str:
    return datetime.now(UTC).strftime("%Y%m%d-%H%M%S-%f")
