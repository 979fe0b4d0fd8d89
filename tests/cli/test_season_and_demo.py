"""`halfpail season` and `halfpail demo`, run as a person runs them."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from halfpail import notebook
from halfpail.application.season_answer import SeasonAnswer
from halfpail.cli.main import main
from halfpail.cli.season_report import season_text
from halfpail.domain.bed import Fit
from halfpail.quantities.units import System
from tests.unit.application.test_plan_season import GARDEN


def halfpail(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A garden file of two beds."""
    path = tmp_path_factory.mktemp("garden") / "garden.toml"
    path.write_text(GARDEN, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def demo() -> Result:
    """The sample garden, planned once for all that is asked of it."""
    return halfpail("demo")


def test_season_answers_in_text_with_its_working(file):
    result = halfpail("season", file, "--working")
    assert result.exit_code == 0, result.stderr
    for part in ("Season plan", "What each bed gets", "What holds it back", "Working", "better is"):
        assert part in result.stdout
    assert "lb per 100 sq ft" in result.stdout


def test_season_answers_in_metric_units(file):
    page = halfpail("season", file, "--units", "metric").stdout
    assert "g per m²" in page
    assert " lb" not in page


def test_season_answers_in_json_with_exact_money(file):
    answer = json.loads(halfpail("season", file, "--json").stdout)["season"]
    plan = answer["plan"]
    paid = sum(bag["cost"] for bag in answer["bags"])
    assert plan["money"] == pytest.approx(paid)
    assert plan["bound"] <= plan["money"] + plan["missed"]
    assert {bed["bed"]["name"] for bed in answer["beds"]} == {"North", "South"}
    assert isinstance(answer["beds"][0]["feeds"][0]["mass_kg"], float)


def test_season_plans_the_same_from_the_same_file(file):
    assert halfpail("season", file).stdout == halfpail("season", file).stdout


def test_season_refuses_a_wrong_file_with_every_fault(tmp_path):
    path = tmp_path / "wrong.toml"
    path.write_text(GARDEN.replace("10 lb", "10").replace("tomato", "tomatto"), encoding="utf-8")
    result = halfpail("season", path)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "4 things need mending" in result.stderr
    assert "bags[1].weight (line 9)" in result.stderr
    assert "Traceback" not in result.stderr


def test_season_refuses_a_file_that_is_not_there():
    result = halfpail("season", "nowhere.toml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "cannot be opened" in result.stderr


def test_demo_prints_its_file_and_the_file_can_be_planned(tmp_path):
    printed = halfpail("demo", "--file").stdout
    path = tmp_path / "mine.toml"
    path.write_text(printed, encoding="utf-8")
    assert notebook.garden(path) == notebook.sample_garden()


@pytest.mark.slow
def test_demo_goes_the_whole_way_to_a_plan_near_the_best_and_comes_to_it_again(demo):
    result = demo
    assert result.exit_code == 0, result.stderr
    assert "invented" in result.stdout
    assert "as their labels read" in result.stdout
    answer = notebook.season(notebook.sample_garden())
    assert isinstance(answer, SeasonAnswer)
    assert season_text(answer, System.US) in result.stdout
    assert answer.plan.gap <= 0.03
    assert any(len(mix.round.parts) > 1 for mix in answer.mixes)
    assert all(each.word is not Fit.TOO_MUCH for bed in answer.beds for each in bed.fits)


def test_season_tells_what_is_asked_beside_the_plan(file):
    result = halfpail("season", file, "--compare", "--explain", "--others")
    assert result.exit_code == 0, result.stderr
    titles = (
        "One mix, or more",
        "What a little more room would save",
        "Why each bag is in",
        "What is left over",
        "Other plans",
    )
    places = [result.stdout.index(title) for title in titles]
    assert places == sorted(places)
    assert result.stdout.index("Season plan") < places[0]


def test_season_answers_all_that_is_asked_in_json(file):
    asked = halfpail("season", file, "--compare", "--explain", "--others", "--json")
    answer = json.loads(asked.stdout)
    assert set(answer) >= {"season", "comparison", "explanation", "others", "notices"}
    names = [way["name"] for way in answer["comparison"]["ways"]]
    assert names[0] == "one mix"
    assert answer["comparison"]["asked"] in names
    plain = json.loads(halfpail("season", file, "--json").stdout)
    assert set(plain) == {"season", "lime", "dates", "notices"}


def test_season_tells_progress_on_the_error_stream_only(file):
    watched = halfpail("season", file, "--watch")
    assert "best plan so far" in watched.stderr
    assert watched.stdout == halfpail("season", file).stdout


def test_season_compares_where_the_number_of_mixes_is_to_be_found(tmp_path):
    path = tmp_path / "find.toml"
    path.write_text("[preferences]\nmixes = 'find'\n" + GARDEN, encoding="utf-8")
    page = halfpail("season", path).stdout
    assert "Enough: " in page
    assert "our default, not published" in page


def test_season_keeps_an_old_plan(file, tmp_path):
    old = tmp_path / "plan.json"
    old.write_text(halfpail("season", file, "--json").stdout, encoding="utf-8")
    result = halfpail("season", file, "--keep", old, "--unless-saves", "0.50")
    assert result.exit_code == 0, result.stderr
    assert "The old plan is kept" in result.stdout
    answer = json.loads(halfpail("season", file, "--keep", old, "--json").stdout)
    assert answer["kept"]["kept"] == "the old plan is kept"


def test_season_refuses_what_is_no_old_plan(file, tmp_path):
    old = tmp_path / "plan.json"
    old.write_text("{}", encoding="utf-8")
    for path in (old, tmp_path / "nowhere.json"):
        result = halfpail("season", file, "--keep", path)
        assert (result.exit_code, result.stdout) == (2, "")
        assert "--json > plan.json" in result.stderr


def test_season_gives_amounts_in_a_few_sizes(file):
    result = halfpail("season", file, "--cups", "1")
    assert result.exit_code == 0, result.stderr
    assert "Amounts in a few sizes" in result.stdout or "So few sizes would break" in result.stdout
    grouped = json.loads(halfpail("season", file, "--cups", "2", "--json").stdout)["grouped"]
    assert all(len(sizes) <= 2 for sizes in grouped["sizes_scoops"].values())


@pytest.mark.slow
def test_the_demo_tells_needs_lime_dates_and_notices(demo):
    """One bed is very high in phosphorus, one sour, one in barrels, most untested."""
    page = demo.stdout
    for part in (
        "What the beds should get",
        "Phosphorus is very high: give none at all",
        "What to do when",
        "beside the rows",
        "Lime, sulfur, calcium and magnesium, by soil test",
        "2, 6 months apart",
        "No pH, so nothing to be spread for it: Peppers and eggplants",
    ):
        assert part in page
    fits = page.split("How it fits")[1].split("What it costs")[0]
    (cabbages,) = [line for line in fits.splitlines() if "Cabbage family" in line]
    # Usable N, its aim and fit, then all P2O5 that is given, its aim and fit.
    assert cabbages.split()[5:7] == ["0.00", "0.00"]


def test_from_a_day_on_no_day_is_planned_before_it(file, tmp_path):
    path = tmp_path / "dated.toml"
    climate = '[climate]\nlast_frost = "2027-05-10"\nfirst_frost = "2027-10-01"\n'
    path.write_text(climate + GARDEN, encoding="utf-8")
    days = [
        [feed["on"] for feed in json.loads(halfpail(*line, "--json").stdout)["dates"]["feeds"]]
        for line in (("season", path), ("season", path, "--from", "2027-06-01"))
    ]
    assert min(days[0]) < "2027-06-01" <= min(days[1])
    refused = halfpail("season", file, "--from", "soon")
    assert refused.exit_code == 2
    assert "--from" in refused.stderr


def test_without_frost_dates_the_page_says_what_is_missing(file):
    page = " ".join(halfpail("season", file).stdout.split())
    assert "Without the frost dates there are no dates" in page
    assert "No bed has a soil pH" in page


def test_a_notebook_dates_a_plan_and_asks_lime_in_three_lines(tmp_path):
    path = tmp_path / "dated.toml"
    climate = '[climate]\nlast_frost = "2027-05-10"\nfirst_frost = "2027-10-01"\n'
    path.write_text(climate + GARDEN, encoding="utf-8")
    plan = notebook.season(notebook.garden(path))
    assert isinstance(plan, SeasonAnswer)
    dated = notebook.dates(plan, path)
    planned = [feeding.measures for feeding in plan.plan.feedings]
    on_days = [feed.measures for feed in dated.feeds]
    assert sum(on_days) == sum(planned)
    assert notebook.lime(path).untested == ("North", "South")


def test_nothing_very_high_in_phosphorus_is_fed_even_where_a_need_is_typed(tmp_path):
    """A need typed by hand takes the place of the table, but not of a soil test like this."""
    path = tmp_path / "very_high.toml"
    below = """
need.P2O5 = { aim = "0.1 lb per 100 sq ft", most = "0.3 lb per 100 sq ft" }
soil_test = { extractant = "Mehlich-3 ICP", P = "150 ppm", K = "60 ppm" }
"""
    first, last = GARDEN.rsplit("[[beds]]", 1)
    path.write_text(f"{first}{below}\n[[beds]]{last}", encoding="utf-8")
    answer = json.loads(halfpail("season", path, "--json").stdout)
    (north,) = [bed for bed in answer["season"]["beds"] if bed["bed"]["name"] == "North"]
    assert north["p2o5_given_kg_per_m2"] == 0
    assert north["feeds"]
    stops = [one["sentence"] for one in answer["notices"] if one["severity"] == "stop"]
    assert any("North: the P2O5 that is typed is not used" in said for said in stops)
