"""Starting the pages: the store is opened, and Django told both its settings and ours."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from halfpail.web import settings
from halfpail.web.run_jobs import is_alive
from halfpail.wiring import services


def page_settings(secret: str, also_known_as: Sequence[str] = ()) -> Mapping[str, Any]:
    """What the pages add to the store's settings; `also_known_as` are more names they go by."""
    ours = {name: getattr(settings, name) for name in dir(settings) if name.isupper()}
    hosts = [*settings.ALLOWED_HOSTS, *also_known_as]
    return {**ours, "SECRET_KEY": secret, "ALLOWED_HOSTS": hosts}


def start_pages(folder: Path, also_known_as: Sequence[str] = ()) -> Any:
    """The application that answers requests, on the garden in this folder.

    Raises:
        StoreTrouble: the store there cannot be used.
    """
    store = services().open_store(folder, page_settings(services().secret(folder), also_known_as))
    if not store.read_only:
        store.jobs.fail_lost(is_alive)
    from django.core.handlers.wsgi import WSGIHandler

    return WSGIHandler()
