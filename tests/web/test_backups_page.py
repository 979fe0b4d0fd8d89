"""A backup taken along as a file and brought to another machine; what is no backup is refused."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from halfpail.storage.backup import KEEP, backups
from halfpail.web.forms import backup
from halfpail.wiring import services
from tests.web.asking import Sender
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled


def folder() -> Path:
    found = services().folder
    assert found
    return found


def bring(sender, content: bytes, name: str = "halfpail.sqlite3"):
    return sender.send("/settings/backups/bring", {"backup": SimpleUploadedFile(name, content)})


def taken_along(sender: Sender) -> bytes:
    sender.send("/settings/backup", {})
    (name,) = [one.name for one in backups(folder())][:1]
    response = sender.client.get(f"/settings/backups/{name}")
    assert response.status_code == 200
    assert response["Content-Disposition"] == f'attachment; filename="{name}"'
    return bytes(response.content)


def altered(content: bytes, tmp_path: Path, *commands: str) -> bytes:
    path = tmp_path / "altered.sqlite3"
    path.write_bytes(content)
    with closing(sqlite3.connect(path)) as file:
        for command in commands:
            file.execute(command)
        file.commit()
    return path.read_bytes()


def test_a_backup_goes_to_another_machine_and_comes_back_whole(sample, tmp_path):
    before = sample.shelf.garden()
    content = taken_along(sample)
    elsewhere = services().open_store(tmp_path / "another machine")
    phone = Sender(Client(headers={"host": "127.0.0.1"}), elsewhere)
    response = bring(phone, content)
    assert (response.status_code, response["Location"]) == (303, "/settings#backups")
    store = services().store
    assert store and store.shelf(store.gardens.all()[-1].key).garden() == before


def test_where_there_is_a_garden_a_backup_waits_until_it_is_restored(sample):
    content = taken_along(sample)
    bag = sample.shelf.bags.all()[0]
    sample.shelf.bags.remove(bag.key, bag.version)
    assert bring(sample, content).status_code == 303
    assert len(sample.shelf.bags.all()) == 13  # nothing has changed yet
    name = backups(folder())[0].name
    assert "from-elsewhere" in name and name in sample.page("/settings").html
    sample.send("/settings/restore", {"name": name})
    assert len(sample.shelf.bags.all()) == 14


@pytest.mark.parametrize(
    "content",
    [b"", b"not a store", b"SQLite format 3\x00" + bytes(4096), b"\x89PNG\r\n\x1a\n"],
    ids=["empty", "text", "only a head", "a picture"],
)
def test_what_is_no_backup_is_refused_beside_the_field(sample, content):
    response = bring(sample, content)
    assert response.status_code == 422
    assert read(response).by_id("id_backup_error").text.strip()
    assert not list((folder() / "backups").glob("*"))


def test_a_store_with_commands_in_it_is_refused(sample, tmp_path):
    trigger = "CREATE TRIGGER t AFTER UPDATE ON storage_bag BEGIN DELETE FROM storage_bed; END"
    response = bring(sample, altered(taken_along(sample), tmp_path, trigger))
    assert response.status_code == 422
    assert len(backups(folder())) == 1


def test_a_store_of_a_newer_program_is_refused_kindly(sample, tmp_path):
    newer = altered(taken_along(sample), tmp_path, "PRAGMA user_version = 9999")
    assert "newer" in read(bring(sample, newer)).by_id("id_backup_error").text


def test_too_long_a_file_is_refused(sample, monkeypatch):
    monkeypatch.setattr(backup, "MOST_BYTES", 1000)
    assert "longer than" in read(bring(sample, bytes(1001))).by_id("id_backup_error").text


def test_no_more_backups_stay_than_usual(sample):
    content = taken_along(sample)
    for _ in range(KEEP + 1):
        bring(sample, content)
    assert len(backups(folder())) == KEEP


@pytest.mark.parametrize("name", ["../secret", "secret", "halfpail.sqlite3", "x" * 5000, "%00"])
def test_no_other_file_can_be_taken_along(sample, name):
    taken_along(sample)
    assert sample.client.get(f"/settings/backups/{name}").status_code == 404


def test_a_change_needs_a_token(sample):
    assert sample.client.post("/settings/backups/bring").status_code == 403


def test_the_pages_are_whole(sample):
    taken_along(sample)
    for address in ("/settings", "/settings/backups/bring"):
        page = sample.page(address)
        assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []
