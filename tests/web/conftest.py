"""A browser's place in the tests: a client that enforces tokens and asks this machine by name."""

import pytest
from django.test import Client


@pytest.fixture
def client() -> Client:
    """Asks as a browser at 127.0.0.1 would; a bug is raised, not answered."""
    return Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})
