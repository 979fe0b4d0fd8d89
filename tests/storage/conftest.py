"""A real file for every test: copied from one that was migrated once, since that is quicker."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.db import connections

from halfpail.storage.open_store import Opening, open_store
from halfpail.storage.shelf import RowShelf, RowStore
from halfpail.storage.store_file import FILE_NAME
from halfpail.wiring import services

BUSY_SECONDS = 0.05


def opened(folder: Path) -> RowStore:
    """The store in a folder; a writer in the way is not waited for long."""
    return open_store(Opening(folder=folder, busy_seconds=BUSY_SECONDS))


@pytest.fixture(scope="session")
def fresh_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with nothing in it."""
    folder = tmp_path_factory.mktemp("fresh")
    opened(folder)
    connections.close_all()
    return folder / FILE_NAME


@pytest.fixture
def folder(tmp_path: Path, fresh_file: Path) -> Iterator[Path]:
    """A data folder with a fresh store in it, under an awkward name."""
    place = tmp_path / "Jardín d'été"
    place.mkdir()
    shutil.copy(fresh_file, place / FILE_NAME)
    yield place
    connections.close_all()


@pytest.fixture
def file(folder: Path) -> Path:
    """The store's file."""
    return folder / FILE_NAME


@pytest.fixture
def store(folder: Path) -> RowStore:
    """An open store."""
    return opened(folder)


@pytest.fixture
def shelf(store: RowStore) -> RowShelf:
    """The shelf of the sample garden."""
    return store.shelf(store.put_in(services().read_sample_garden(), is_sample=True))
