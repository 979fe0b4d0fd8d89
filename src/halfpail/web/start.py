"""Starting the pages: the store is opened, and Django told both its settings and ours."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from halfpail.web import settings
from halfpail.web.run_jobs import is_alive
from halfpail.wiring import services


def page_settings(secret: str) -> Mapping[str, Any]:
    """What the pages add to the store's settings."""
    ours = {name: getattr(settings, name) for name in dir(settings) if name.isupper()}
    return {**ours, "SECRET_KEY": secret}


def start_pages(folder: Path) -> Any:
    """The application that answers requests, on the garden in this folder.

    Raises:
        StoreTrouble: the store there cannot be used.
    """
    store = services().open_store(folder, page_settings(services().secret(folder)))
    if not store.read_only:
        store.jobs.fail_lost(is_alive)
    from django.core.handlers.wsgi import WSGIHandler

    return WSGIHandler()
