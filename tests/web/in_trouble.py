"""Trouble with the store of the pages, made for real."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager

from django.db import connection

from halfpail.storage.store_file import FILE_NAME
from halfpail.wiring import services

SHORT_MS = 20


@contextmanager
def held_by_another() -> Iterator[None]:
    """Another program writes to the store and does not end; the pages wait for it but shortly."""
    folder = services().folder
    assert folder
    connection.ensure_connection()
    connection.cursor().execute(f"PRAGMA busy_timeout = {SHORT_MS}")
    with closing(sqlite3.connect(folder / FILE_NAME)) as other:
        other.execute("BEGIN IMMEDIATE")
        yield
        other.rollback()
