"""What a file would bring is told; it is kept only when asked, and one word takes it back."""

import re
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from django.db import connections

from halfpail.application.kept import MixEntry
from halfpail.cli.main import main
from halfpail.domain.diary import Noted
from halfpail.wiring import sample_garden_text, services
from tests.sheets.honest_files import xlsx_of

BAGS = "product,grade,weight (lb),price\nMeal,4-4-4,25,12.49\nBlood meal,12-0-0,5,8\n"
FAULTY = BAGS + "Bad,99-99-99,5,x\n"


@pytest.fixture
def folder(tmp_path: Path):
    """A data folder with the sample garden."""
    store = services().open_store(tmp_path / "data")
    store.put_in(services().read_sample_garden())
    yield tmp_path / "data"
    connections.close_all()


@pytest.fixture
def bags(tmp_path: Path) -> Path:
    file = tmp_path / "bags.csv"
    file.write_text(BAGS, encoding="utf-8")
    return file


def run(*words: object) -> Result:
    return CliRunner().invoke(main, ["import", *map(str, words)])


def trouble(done: Result) -> str:
    return " ".join(done.stderr.split())


def names(folder: Path) -> list[str]:
    store = services().open_store(folder)
    return [bag.name for bag in store.shelf(store.gardens.all()[-1].key).garden().bags]


def test_a_spreadsheet_is_told_and_not_kept(folder, bags):
    before = names(folder)
    done = run(bags, "--folder", folder)
    assert done.exit_code == 0
    assert "columns: product = name, grade = label, weight (lb) = weight, price = price" in (
        done.stdout
    )
    assert "rows: 1 new, 1 here already, but different" in done.stdout
    assert "Nothing is kept yet. Say --keep to keep 1 row." in done.stdout
    assert names(folder) == before


def test_it_is_kept_and_taken_back(folder, bags):
    before = names(folder)
    done = run(bags, "--folder", folder, "--keep", "--put-over")
    assert done.exit_code == 0 and "Kept: 2 bags." in done.stdout
    assert names(folder) == [*before, "Meal"]
    (word,) = re.findall(r"--take-back=(\S+)", done.stdout)
    back = run(f"--take-back={word}", "--folder", folder)
    assert "the garden is as it was before" in back.stdout
    assert names(folder) == before


def test_rows_that_cannot_be_used_are_told_and_end_in_one(folder, bags):
    bags.write_text(FAULTY, encoding="utf-8")
    done = run(bags, "--folder", folder, "--keep")
    assert done.exit_code == 1
    told = " ".join(done.stdout.split())
    assert "row 4, price: it says “x”. x is not a sum of money. Write it as 12.99." in told
    assert "Meal" in names(folder) and "Bad" not in names(folder)


def test_rows_go_into_a_new_garden_file(tmp_path, bags):
    garden, new = tmp_path / "mine.toml", tmp_path / "new.toml"
    garden.write_text(sample_garden_text(), encoding="utf-8")
    assert "--to NEW.toml" in run(bags, "--garden", garden).stdout
    assert run(bags, "--garden", garden, "--to", new).exit_code == 0
    before, after = services().read_garden(garden), services().read_garden(new)
    assert after.faults == () and after.bags[-1].name == "Meal"
    assert len(after.bags) == len(before.bags) + 1


def test_the_diary_has_no_place_in_a_garden_file(tmp_path):
    garden, diary = tmp_path / "mine.toml", tmp_path / "diary.xlsx"
    garden.write_text(sample_garden_text(), encoding="utf-8")
    diary.write_bytes(xlsx_of([["day", "what", "note"], [date(2020, 5, 1), "noted", "rain"]]))
    assert "A garden file holds no diary" in run(diary, "--garden", garden).stdout


def test_all_that_is_written_comes_back(folder, tmp_path):
    file = tmp_path / "all.json"
    store = services().open_store(folder)
    shelf = store.shelf(store.gardens.all()[-1].key)
    shelf.diary.record(Noted(on=date(2027, 5, 1), note="rain"))
    before = shelf.garden()
    CliRunner().invoke(main, ["export", "--folder", str(folder), "--to", str(file)])
    told = run(file, "--folder", folder)
    assert "1 line of the diary" in told.stdout and "Nothing is kept yet" in told.stdout
    assert "is in the bin" in run(file, "--folder", folder, "--keep").stdout
    store = services().open_store(folder)
    assert len(store.gardens.all()) == 1
    assert store.shelf(store.gardens.all()[0].key).garden() == before


def test_a_garden_file_and_a_mix_are_opened_too(folder, tmp_path):
    garden, mix = tmp_path / "mine.toml", tmp_path / "mix.json"
    garden.write_text(sample_garden_text(), encoding="utf-8")
    store = services().open_store(folder)
    shelf = store.shelf(store.gardens.all()[-1].key)
    shelf.mixes.add(MixEntry(name="Pail", scoops={"Blood meal": 2}))
    words = ["export", "--folder", str(folder), "--mix", "Pail", "--to", str(mix)]
    CliRunner().invoke(main, words)
    assert "Kept as Pail (2)." in run(mix, "--folder", folder, "--keep").stdout
    assert "14 bags, 13 beds" in run(garden, "--folder", folder).stdout


@pytest.mark.parametrize(
    ("content", "name", "told"),
    [
        (b"", "a.csv", "The file is empty."),
        (b"%PDF-1.7", "a.xlsx", "This file is a PDF, not a spreadsheet"),
        (b"\xff\xfe\xfd", "a.toml", "The file is not text in UTF-8."),
        (b"name = [", "a.toml", "This cannot be read as TOML"),
        (b'{"a": 1}', "a.json", ""),
    ],
)
def test_what_cannot_be_read_is_refused(folder, tmp_path, content, name, told):
    (tmp_path / name).write_bytes(content)
    done = run(tmp_path / name, "--folder", folder, "--keep")
    assert done.exit_code == 2
    assert told in trouble(done)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "Name the file to bring in."),
        (("none.csv",), "The file cannot be opened: No such file or directory."),
        (("none.csv", "--garden", "a.toml", "--keep"), "With --garden write --to NEW.toml"),
    ],
)
def test_what_is_asked_wrongly_is_told(words, told):
    done = run(*words)
    assert done.exit_code == 2 and told in trouble(done)


def test_without_a_garden_it_is_told_how_to_begin(tmp_path, bags):
    assert "Start halfpail serve and keep a garden" in trouble(
        run(bags, "--folder", tmp_path / "x")
    )
    assert not (tmp_path / "x").exists()


def test_an_unknown_word_takes_nothing_back(folder):
    assert run("--take-back", "never", "--folder", folder).exit_code == 2
