"""What tests and worked numbers in docstrings may use without saying where it comes from."""

import pytest

from halfpail.storage.setup import start_django
from halfpail.web.start import page_settings
from tests.unit.domain.bags import bag
from tests.unit.domain.growing import SHORT_SEASON, food

# Before anything is collected: rows and forms can be named only once Django runs.
start_django(page_settings(secret="a secret for tests alone, of no use to anybody"))


@pytest.fixture(autouse=True)
def made_up_bags(doctest_namespace: dict[str, object]) -> None:
    """Give docstrings `bag(name, n, p2o5, k2o)`, a made-up bag whose litre weighs a kilogram."""
    doctest_namespace["bag"] = bag


@pytest.fixture(autouse=True)
def made_up_season(doctest_namespace: dict[str, object]) -> None:
    """Give docstrings `season`, four days of a bed, and `food(name, measures)` for it."""
    doctest_namespace["season"] = SHORT_SEASON
    doctest_namespace["food"] = food
