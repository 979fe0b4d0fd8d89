"""Starting the pages: the store is opened, and Django told both its settings and ours."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from halfpail.web import settings
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
    services().open_store(folder, page_settings(services().secret(folder)))
    from django.core.handlers.wsgi import WSGIHandler

    return WSGIHandler()
