"""Stores of every form that was ever written open with this program, and nothing is lost."""

import sqlite3
from datetime import date
from fractions import Fraction
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from halfpail.domain.diary import Harvested
from halfpail.storage.backup import backups
from halfpail.storage.store_file import FILE_NAME, look_at, newest_version
from tests.storage.conftest import opened

FORMS = Path(__file__).with_name("forms")


@pytest.fixture(params=sorted(FORMS.glob("*.sql")), ids=lambda path: path.stem)
def old_folder(request, tmp_path: Path) -> Path:
    """A folder with a store as an older program left it."""
    with sqlite3.connect(tmp_path / FILE_NAME) as file:
        file.executescript(request.param.read_text("utf-8"))
    file.close()
    return tmp_path


def test_an_old_store_opens_with_all_that_is_in_it(old_folder):
    form = look_at(old_folder / FILE_NAME).version
    store = opened(old_folder)
    assert look_at(old_folder / FILE_NAME).version == newest_version()
    assert len(backups(old_folder)) == (form < newest_version())
    (garden,) = store.gardens.all()
    shelf = store.shelf(garden.key)
    meal, blood = shelf.garden().bags
    assert (meal.name, meal.label, meal.price, meal.offered) == (
        "Meal",
        "4-4-4",
        Fraction("11.99"),
        3,
    )
    assert meal.typed["scoop_weighs"] == "12 oz"
    assert blood.straight_ok
    (bed,) = shelf.garden().beds
    assert bed.needs[0].nutrient == "K2O"
    assert bed.soil_test.figures[0].value == 48
    assert shelf.garden().preferences.mixes is None
    (mix,) = shelf.mixes.all()
    assert mix.value.scoops == {"Meal": 3, "Blood": 1}
    (season,) = shelf.seasons.all()
    assert season.value.plan.missed == Fraction(1, 3)
    assert season.value.garden.bags[0].name == "Meal"
    bought, made, _, harvested = (kept.value for kept in shelf.diary.all())
    assert (bought.paid, made.mass_kg) == (Fraction("11.99"), Fraction(5, 2))
    assert harvested == Harvested(
        on=date(2027, 7, 1), bed="North", crop="tomato", mass_kg=Fraction(3, 2)
    )
    assert store.drafts.get("bag/new") == {"name": "Half a na"}


def test_there_is_an_old_store_of_every_form():
    stems = [path.stem for path in sorted(FORMS.glob("*.sql"))]
    assert stems == [f"form-{form}" for form in range(1, newest_version() + 1)]


def test_the_rows_are_what_the_last_step_made_of_them(store):
    told = StringIO()
    call_command("makemigrations", "storage", check=True, dry_run=True, stdout=told)
    assert "No changes detected" in told.getvalue()
