"""Backups: whole copies of the store in one file each, made while it may be in use."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from halfpail.application.kept import StoreFile
from halfpail.application.store_trouble import (
    Damaged,
    NoStore,
    NotAStore,
    StoreTrouble,
    TooNew,
)
from halfpail.storage.store_file import (
    BACKUP_NAME,
    FILE_NAME,
    STAMP,
    address_of,
    look_at,
    newest_version,
)
from halfpail.storage.trouble import told_kindly

FOLDER = "backups"
KEEP = 10
PAGES_A_STEP = 256


def back_up(path: Path, why: str = "", into: Path | None = None) -> StoreFile:
    """Copy a store into one file, by default among its backups, of which the last ten stay.

    The copy bears its name only once it is whole.

    Raises:
        StoreTrouble: the store cannot be read, or the copy not be written.
    """
    if not path.exists():
        raise NoStore(place=str(path.parent))
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
        _keep_few(path.parent)
    return replace(copied, path=target)


def backups(folder: Path) -> list[Path]:
    """The backups of a data folder, the newest first."""
    found = (folder / FOLDER).glob("halfpail-*.sqlite3")
    return sorted((one for one in found if BACKUP_NAME.fullmatch(one.name)), reverse=True)


def good_backups(folder: Path) -> Iterator[StoreFile]:
    """The backups that are whole and known to this program, the newest first."""
    for path in backups(folder):
        with suppress(StoreTrouble):
            yield look_at_backup(path)


def bring(content: bytes, folder: Path) -> StoreFile:
    """Put a backup from elsewhere among those of a data folder, if it could be restored.

    Raises:
        StoreTrouble: it is damaged, of a newer program, or no store with rows.
    """
    target = _new_name(folder / FOLDER, "from elsewhere")
    unfinished = target.with_name(target.name + ".part")
    with told_kindly():
        target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        try:
            unfinished.touch(mode=0o600)
            unfinished.write_bytes(content)
            found = look_at_backup(unfinished)
            os.replace(unfinished, target)
        finally:
            unfinished.unlink(missing_ok=True)
    _keep_few(folder)
    return replace(found, path=target)


def _keep_few(folder: Path) -> None:
    for old in backups(folder)[KEEP:]:
        old.unlink()


def look_at_backup(path: Path) -> StoreFile:
    """What a backup holds.

    Raises:
        StoreTrouble: it is damaged, of a newer program, or no store with rows.
    """
    if not path.exists():
        raise NoStore(place=str(path), remedy="Check the name of the file.")
    found = look_at(path)
    if found.version > newest_version():
        raise TooNew(place=str(path), read=f"version {found.version}, known: {newest_version()}")
    if not found.version:
        raise NotAStore(place=str(path))
    return found


def restore(backup: Path, path: Path) -> Path | None:
    """Put what a backup holds in the place of what is in the store; answers where that is kept.

    It is one transaction, so the store may be open. A damaged store is set aside as it is. The
    store must be opened anew afterwards, since the backup may be of an older form.

    Raises:
        StoreTrouble: the backup is no good, or something cannot be written. Nothing changes then.
    """
    look_at_backup(backup)
    with told_kindly():
        if path.exists() and (kept := _kept_present(path)):
            _copy(backup, path)
            return kept
        incoming = path.with_name(path.name + ".incoming")
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        incoming.unlink(missing_ok=True)
        _copy(backup, incoming)
        aside = _set_aside(path)
        os.replace(incoming, path)
    return aside


def _kept_present(path: Path) -> Path | None:
    """The backup of the present store; None where it is too damaged, or not a store of ours."""
    try:
        look_at(path)
    except (Damaged, NotAStore):
        return None
    return back_up(path, "before restoring").path


def _set_aside(path: Path) -> Path | None:
    if not path.exists():
        return None
    aside = path.with_name(f"damaged-{_stamp()}.sqlite3")
    for tail in ("", "-wal", "-shm"):
        beside = path.with_name(path.name + tail)
        if beside.exists():
            os.replace(beside, aside.with_name(aside.name + tail))
    return aside


def _copy(path: Path, into: Path) -> None:
    """Page by page through SQLite, so that what still stands in the log comes along."""
    is_new = not into.exists()
    if is_new:
        into.touch(mode=0o600)
    with (
        closing(sqlite3.connect(address_of(path), uri=True)) as source,
        closing(sqlite3.connect(into)) as target,
    ):
        source.backup(target, pages=PAGES_A_STEP)
        if is_new:
            target.execute("PRAGMA journal_mode=DELETE")


def _new_name(folder: Path, why: str) -> Path:
    tail = f"-{why.replace(' ', '-')}" if why else ""
    return folder / f"halfpail-{_stamp()}{tail}.sqlite3"


def _stamp() -> str:
    return datetime.now(UTC).strftime(STAMP)


class FolderBackups:
    """The backups of one data folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def make(self, into: Path | None = None) -> StoreFile:
        """A backup of the store as it is now."""
        return back_up(self.folder / FILE_NAME, into=into)

    def bring(self, content: bytes) -> StoreFile:
        """A backup from elsewhere, put among the others."""
        return bring(content, self.folder)

    def all(self) -> tuple[StoreFile, ...]:
        """Every good backup, the newest first."""
        return tuple(good_backups(self.folder))

    def look_at(self, path: Path) -> StoreFile:
        """What a backup holds."""
        return look_at_backup(path)

    def restore(self, path: Path) -> Path | None:
        """Put a backup in the place of the store."""
        return restore(path, self.folder / FILE_NAME)
