"""A browser's place in the tests: a client that enforces tokens and asks this machine by name."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.db import connections
from django.test import Client

from halfpail.application.shelf_ports import Store
from halfpail.storage.store_file import FILE_NAME
from halfpail.wiring import services
from tests.web.asking import Sender


@pytest.fixture
def client() -> Client:
    """Asks as a browser at 127.0.0.1 would; a bug is raised, not answered."""
    return Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})


@pytest.fixture(scope="session")
def fresh_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with nothing in it."""
    folder = tmp_path_factory.mktemp("fresh")
    services().open_store(folder)
    _let_go()
    return folder / FILE_NAME


@pytest.fixture
def store(tmp_path: Path, fresh_file: Path) -> Iterator[Store]:
    """The store of the pages, new and empty."""
    shutil.copy(fresh_file, tmp_path / FILE_NAME)
    yield services().open_store(tmp_path)
    _let_go()


@pytest.fixture
def sender(client: Client, store: Store) -> Sender:
    """Sends forms of the pages, each with its token, to a store without a garden."""
    return Sender(client, store)


@pytest.fixture
def sample(sender: Sender) -> Sender:
    """The same with the sample garden in the store."""
    sender.send("/garden/start", {"with": "sample"})
    return sender


def _let_go() -> None:
    services().store = None
    connections.close_all()
