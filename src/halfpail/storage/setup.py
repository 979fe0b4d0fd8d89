"""Starting Django for the store, pointing it at a file, and bringing that file up to date."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import django
from django.conf import settings as django_settings
from django.db import connection, connections, transaction
from django.db.migrations.executor import MigrationExecutor

from halfpail.storage import settings
from halfpail.storage.store_file import APPLICATION_ID, address_of, is_lonely, newest_version


def start_django(more: Mapping[str, Any] | None = None) -> None:
    """Configure Django for this process with the store's settings and an entrance's own.

    What an entrance adds to INSTALLED_APPS comes after the store. A second call does nothing.
    """
    if django_settings.configured:
        return
    told = {name: getattr(settings, name) for name in dir(settings) if name.isupper()}
    added = dict(more or {})
    apps = [*settings.INSTALLED_APPS, *added.pop("INSTALLED_APPS", ())]
    django_settings.configure(**{**told, **added, "INSTALLED_APPS": apps})
    django.setup()


def point_at(path: Path, *, read_only: bool, busy_seconds: float) -> None:
    """Let every connection from now on be one to this file."""
    connections.close_all()
    usual = settings.DATABASES["default"]["OPTIONS"]
    assert isinstance(usual, dict)
    options = {**usual, "timeout": busy_seconds}
    name = str(path)
    if read_only:
        del options["init_command"]
        # What a killed program kept last lies in the log beside the file, and is to be seen too.
        name = address_of(path, immutable=is_lonely(path), read_only=True)
    connections.settings["default"].update(NAME=name, OPTIONS=options)
    connection.settings_dict.update(connections.settings["default"])


def migrate() -> None:
    """Bring the file to the form this program knows: every step of it, or none.

    SQLite cannot switch its foreign keys off inside a transaction, so they are off before it.
    """
    connection.ensure_connection()
    connection.disable_constraint_checking()
    try:
        with transaction.atomic():
            executor = MigrationExecutor(connection)
            executor.migrate(executor.loader.graph.leaf_nodes("storage"))
            with connection.cursor() as cursor:
                cursor.execute(f"PRAGMA application_id = {APPLICATION_ID}")
                cursor.execute(f"PRAGMA user_version = {newest_version()}")
    finally:
        connection.close()
