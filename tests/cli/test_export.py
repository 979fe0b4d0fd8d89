"""A garden, a mix or a plan is written into the file that was asked for, or it is told why not."""

from datetime import date
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from click.testing import CliRunner, Result
from django.db import connections
from python_calamine import CalamineWorkbook

from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.open_json import open_shared, read_whole_garden
from halfpail.application.shared_pieces import SharedMix, SharedPlan
from halfpail.cli.main import main
from halfpail.domain.diary import Noted
from halfpail.wiring import sample_garden_text, services
from tests.properties.test_json_files import plan_of

ON = date(2027, 5, 1)


@pytest.fixture
def folder(tmp_path: Path):
    """A data folder with the sample garden, a mix, a plan and a line of the diary."""
    store = services().open_store(tmp_path / "data")
    entry = services().read_sample_garden()
    shelf = store.shelf(store.put_in(entry))
    shelf.mixes.add(MixEntry(name="Pail / one", scoops={entry.bags[0].name: 2}, note="mine"))
    shelf.seasons.add(
        SeasonEntry(name="2027", made_on=ON, plan=plan_of(entry), garden=entry, note="mine")
    )
    shelf.diary.record(Noted(on=ON, note="rain"))
    yield tmp_path / "data"
    connections.close_all()


@pytest.fixture
def garden(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A garden file in the folder where the command is run."""
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "mine.toml"
    file.write_text(sample_garden_text(), encoding="utf-8")
    return file


def run(*words: object) -> Result:
    return CliRunner().invoke(main, ["export", *map(str, words)])


def trouble(done: Result) -> str:
    return " ".join(done.stderr.split())


def test_all_that_is_kept_leaves_as_json_and_reads_back(folder, tmp_path):
    file = tmp_path / "all.json"
    assert run("--folder", folder, "--to", file).exit_code == 0
    whole = read_whole_garden(services(), file.read_bytes())
    assert [mix.name for mix in whole.mixes] == ["Pail / one"]
    assert [season.name for season in whole.seasons] == ["2027"]
    assert [event.note for event in whole.diary] == ["rain"]


@pytest.mark.parametrize("kind", ["xlsx", "csv", "json", "toml"])
def test_a_garden_file_leaves_as_any_kind_and_always_the_same(garden, kind):
    done = run(garden, "--as", kind, "--dated", "2027-05-01")
    assert done.exit_code == 0, done.output
    file = Path(done.output.strip())
    first = file.read_bytes()
    run(garden, "--as", kind, "--dated", "2027-05-01")
    assert file.read_bytes() == first
    if kind == "xlsx":
        assert "Bags" in CalamineWorkbook.from_filelike(BytesIO(first)).sheet_names
    elif kind == "csv":
        assert "bags.csv" in ZipFile(BytesIO(first)).namelist()
    elif kind == "toml":
        assert services().read_garden(file) == services().read_garden(garden)
    else:
        assert read_whole_garden(services(), first).garden.name


def test_the_ending_tells_the_kind(garden, tmp_path):
    assert run(garden, "--to", tmp_path / "a" / "g.XLSX").exit_code == 0
    assert (tmp_path / "a" / "g.XLSX").read_bytes().startswith(b"PK")


def test_a_mix_and_a_plan_to_hand_on(folder, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run("--folder", folder, "--mix", "Pail / one").output == "pail-one.json\n"
    assert run("--folder", folder, "--plan", "2027").output == "2027.json\n"
    mix = open_shared(services(), Path("pail-one.json").read_bytes())
    plan = open_shared(services(), Path("2027.json").read_bytes())
    assert isinstance(mix, SharedMix)
    assert mix.mix.note == ""
    assert isinstance(plan, SharedPlan)
    for file in (Path("pail-one.json"), Path("2027.json")):
        assert "mine" not in file.read_text()
        assert services().read_sample_garden().name not in file.read_text()


@pytest.mark.slow
def test_the_plan_of_a_garden_file_is_worked_out(garden):
    done = run(garden, "--plan", "Club plan", "--dated", "2027-05-01")
    assert done.exit_code == 0, done.output
    plan = open_shared(services(), Path("club-plan.json").read_bytes())
    assert isinstance(plan, SharedPlan)
    assert (plan.name, plan.made_on) == ("Club plan", ON)
    assert plan.plan.feedings


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--to", "x.pdf"], "does not tell what kind"),
        (["--to", "mine.toml"], "the garden file itself"),
        (["--mix", "Pail"], "No kept mix has this name. read: Pail mend: Kept: none."),
        (["--plan", "P", "--to", "p.xlsx"], "handed on as JSON"),
        (["--plan", "P", "--mix", "M"], "one at a time"),
        (["--as", "pdf"], "'pdf' is not one of"),
        (["--dated", "1/2/2027"], "--dated"),
        (["--to", "mine.toml/x.json"], "cannot be written"),
    ],
)
def test_what_cannot_be_written_is_told(garden, words, said):
    done = run("mine.toml", *words)
    assert done.exit_code == 2
    assert said in trouble(done)


def test_nothing_is_made_where_nothing_is_kept(tmp_path):
    done = run("--folder", tmp_path / "none", "--to", tmp_path / "x.json")
    assert done.exit_code == 2
    assert "Name a garden file" in trouble(done)
    assert not (tmp_path / "none").exists()


def test_a_near_name_is_offered(folder, tmp_path):
    done = run("--folder", folder, "--mix", "Pail one", "--to", tmp_path / "x.json")
    assert "Did you mean Pail / one?" in trouble(done)
