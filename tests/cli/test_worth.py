"""`halfpail worth`, run as a person runs it."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from halfpail.cli.main import main
from tests.unit.application.worth_garden import TEXT


def halfpail(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A garden file of two beds."""
    path = tmp_path_factory.mktemp("garden") / "garden.toml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_the_page_has_every_part_that_was_asked_for(file):
    also = ("--also", "card", "--also", "curve", "--also", "inside")
    result = halfpail("worth", file, "--working", *also)
    assert result.exit_code == 0, result.output
    for part in (
        "highest price worth paying",
        "What to buy today",
        "What more money would do",
        "The same stuff under other names",
        "What is likely in them",
        "Card for the shop",
        "still wanted",
        "Working",
    ):
        assert part in result.stdout
    assert result.stdout.count("_____ % N") == 2


def test_only_what_was_asked_for_is_shown(file):
    page = halfpail("worth", file).stdout
    for part in ("Card for the shop", "What more money would do", "What is likely in them"):
        assert part not in page


def test_the_answer_in_json(file):
    result = halfpail("worth", file, "--json", "--also", "curve", "--budget", "5")
    answer = json.loads(result.stdout)
    bags = {bag["bag"]: bag for bag in answer["worth"]["bags"]}
    assert bags["Green blend"]["worth"]["low_money"] <= bags["Green blend"]["worth"]["high_money"]
    assert bags["Potash"]["advice"] == "ask the price"
    assert answer["worth"]["buying"]["budget"] == 5
    assert answer["worth"]["buying"]["cost"] <= 5
    assert answer["budget_curve"][0]["budget"] == 0
    assert "shop_card" not in answer


def test_prices_by_weight_follow_the_units(file):
    assert "per lb" in halfpail("worth", file).stdout
    assert "per kg" in halfpail("worth", file, "--units", "metric").stdout


def test_a_budget_that_is_no_money_is_refused(file):
    result = halfpail("worth", file, "--budget", "a lot")
    assert result.exit_code == 2
    assert "--budget" in result.stderr
