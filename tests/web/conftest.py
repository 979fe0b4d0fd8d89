"""A browser's place in the tests: a client that enforces tokens and asks this machine by name."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.db import connections
from django.test import Client

from halfpail.storage.store_file import FILE_NAME
from halfpail.wiring import services
from tests.web.asking import Sender


@pytest.fixture
def client() -> Client:
    """Asks as a browser at 127.0.0.1 would; a bug is raised, not answered."""
    return Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})


GARDENS = (None, "empty", "sample")
StoreFiles = dict[str | None, Path]


@pytest.fixture(scope="session")
def store_files(tmp_path_factory: pytest.TempPathFactory) -> StoreFiles:
    """A store without a garden, one with an empty garden and one with the sample, to copy."""
    files = {}
    for garden in GARDENS:
        folder = tmp_path_factory.mktemp("store")
        sender = Sender(Client(headers={"host": "127.0.0.1"}), services().open_store(folder))
        if garden:
            assert sender.send("/garden/start", {"with": garden}).status_code == 303
        _let_go()
        files[garden] = folder / FILE_NAME
    return files


@pytest.fixture
def sender(client: Client, tmp_path: Path, store_files: StoreFiles) -> Iterator[Sender]:
    """Sends forms of the pages, each with its token, to a store without a garden."""
    yield from _sender(client, tmp_path, store_files[None])


@pytest.fixture
def empty(client: Client, tmp_path: Path, store_files: StoreFiles) -> Iterator[Sender]:
    """The same with an empty garden in the store."""
    yield from _sender(client, tmp_path, store_files["empty"])


@pytest.fixture
def sample(client: Client, tmp_path: Path, store_files: StoreFiles) -> Iterator[Sender]:
    """The same with the sample garden in the store."""
    yield from _sender(client, tmp_path, store_files["sample"])


def _sender(client: Client, folder: Path, file: Path) -> Iterator[Sender]:
    shutil.copy(file, folder / FILE_NAME)
    yield Sender(client, services().open_store(folder))
    _let_go()


def _let_go() -> None:
    services().store = None
    connections.close_all()
