"""A backup is made, listed and put back at the command line; what stands in the way is told."""

import json
import sqlite3
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from django.db import connections

from halfpail.cli.main import main
from halfpail.wiring import services


@pytest.fixture
def folder(tmp_path: Path):
    """A data folder with the sample garden in its store."""
    store = services().open_store(tmp_path / "data")
    store.put_in(services().read_sample_garden())
    yield tmp_path / "data"
    connections.close_all()


def run(*words: object, typed: str | None = None) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words], input=typed)


def trouble(done: Result) -> str:
    """What was told, without its line breaks."""
    return " ".join(done.stderr.split())


def bags(folder: Path) -> int:
    store = services().open_store(folder)
    return len(store.shelf(store.gardens.all()[0].key).bags.all())


def test_backup_tells_its_file_date_form_and_counts(folder):
    done = run("backup", "--folder", folder)
    assert done.exit_code == 0
    path, made, counts = done.stdout.splitlines()
    assert Path(path).parent == folder / "backups" and Path(path).exists()
    assert "form 1 of the store" in made
    assert f"1 gardens, {bags(folder)} bags" in counts


def test_backups_are_listed_and_one_goes_where_it_is_wanted(folder, tmp_path):
    assert run("backup", "--folder", folder, "--list").stdout == "There is no backup yet.\n"
    run("backup", "--folder", folder)
    mine = tmp_path / "mine.sqlite3"
    run("backup", "--folder", folder, "--into", mine)
    listed = json.loads(run("backup", "--folder", folder, "--list", "--json").stdout)
    assert len(listed) == 1 and listed[0]["version"] == 1
    assert mine.exists()


def test_restore_shows_the_backup_asks_and_keeps_what_was_there(folder):
    before = bags(folder)
    run("backup", "--folder", folder)
    store = services().open_store(folder)
    drawer = store.shelf(store.gardens.all()[0].key).bags
    first = drawer.all()[0]
    drawer.remove(first.key, first.version)
    refused = run("restore", "--folder", folder, typed="n\n")
    assert refused.exit_code == 1
    assert f"{before} bags" in refused.stdout
    assert bags(folder) == before - 1
    done = run("restore", "--folder", folder, typed="y\n")
    assert done.exit_code == 0 and "What was there before is kept" in done.stdout
    assert bags(folder) == before
    newest = services().backups(folder).all()[0].path
    again = json.loads(run("restore", newest, "--folder", folder, "--yes", "--json").stdout)
    assert again["restored"]["path"] == str(newest)
    assert bags(folder) == before - 1


def test_what_stands_in_the_way_is_told(folder, tmp_path):
    nothing = run("backup", "--folder", tmp_path / "empty")
    assert nothing.exit_code == 2 and "no store in this folder" in trouble(nothing)
    assert run("restore", "--folder", folder).exit_code == 2
    assert run("restore", "--json", "--folder", folder).exit_code == 2
    missing = run("restore", tmp_path / "none.sqlite3", "--folder", folder, "--yes")
    assert missing.exit_code == 2 and "Check the name" in trouble(missing)
    strange = tmp_path / "strange.sqlite3"
    with sqlite3.connect(strange) as other:
        other.execute("CREATE TABLE theirs (x)")
    other.close()
    refused = run("restore", strange, "--folder", folder, "--yes")
    assert "no store of Halfpail" in trouble(refused)
    held = services().hold(folder, "http://127.0.0.1:8765/")
    running = run("restore", strange, "--folder", folder, "--yes")
    held.let_go()
    assert running.exit_code == 2 and "http://127.0.0.1:8765/" in trouble(running)
