"""Opening the store: look at the file, back it up before it changes its form, refuse kindly."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halfpail.application.kept import StoreFile
from halfpail.application.store_trouble import Damaged, ReadOnly, TooNew
from halfpail.storage.backup import back_up, good_backups
from halfpail.storage.settings import BUSY_SECONDS
from halfpail.storage.setup import migrate, point_at, start_django
from halfpail.storage.store_file import FILE_NAME, look_at, newest_version
from halfpail.storage.trouble import told_kindly

if TYPE_CHECKING:
    from halfpail.storage.shelf import RowStore


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """How to open a store: its folder, and what an entrance adds to Django's settings."""

    folder: Path
    more_settings: Mapping[str, Any] | None = None
    busy_seconds: float = BUSY_SECONDS


def open_store(opening: Opening) -> "RowStore":
    """The store in a folder, made where there is none yet.

    Raises:
        StoreTrouble: damaged, written by a newer program, no store of ours, or not to be read.
    """
    path = opening.folder / FILE_NAME
    _make_folder(opening.folder)
    found = _look_at_own(path)
    read_only = found is not None and not _can_write(path)
    if found is None:
        _make_file(path)
    start_django(opening.more_settings)
    point_at(path, read_only=read_only, busy_seconds=opening.busy_seconds)
    if found is None or found.version < newest_version():
        if read_only:
            raise ReadOnly(place=str(path))
        with told_kindly():
            if found is not None and found.version:
                back_up(path, "before a new form")
            migrate()
    from halfpail.storage.shelf import RowStore

    return RowStore(read_only=read_only)


def _make_folder(folder: Path) -> None:
    with told_kindly():
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)


def _make_file(path: Path) -> None:
    """An empty file for its owner alone; SQLite would let others of this machine read it."""
    with told_kindly():
        path.touch(mode=0o600)


def _look_at_own(path: Path) -> StoreFile | None:
    """What lies there; None where nothing does, or nothing was ever written into it."""
    if not path.exists() or not path.stat().st_size:
        return None
    try:
        found = look_at(path)
    except Damaged as damaged:
        good = next(good_backups(path.parent), None)
        if good is None:
            remedy = "There is no good backup beside it; keep the file, and start in a new folder."
        else:
            remedy = f"The newest good backup is {good.path.name}; restore it: halfpail restore."
        raise Damaged(place=str(path), remedy=remedy) from damaged
    if found.version > newest_version():
        raise TooNew(place=str(path), read=f"version {found.version}, known: {newest_version()}")
    return found


def _can_write(path: Path) -> bool:
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)
