"""What the worked numbers in docstrings may use without saying where it comes from."""

import pytest

from tests.unit.domain.bags import bag


@pytest.fixture(autouse=True)
def made_up_bags(doctest_namespace: dict[str, object]) -> None:
    """Give docstrings `bag(name, n, p2o5, k2o)`, a made-up bag whose litre weighs a kilogram."""
    doctest_namespace["bag"] = bag
