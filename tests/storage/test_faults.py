"""Whatever is done to the store, what was acknowledged is there and nothing is half there."""

import json
import shutil
import signal
import sqlite3
import subprocess
import sys
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest
from django.db import connections

from halfpail.application.store_trouble import (
    AlreadyRunning,
    Damaged,
    NotAStore,
    ReadOnly,
    StoreBusy,
    StoreTrouble,
    TooNew,
)
from halfpail.domain.diary import Bought
from halfpail.storage.backup import back_up, backups, restore
from halfpail.storage.folder import RUNNING_FILE, SECRET_FILE, Running, secret_of
from halfpail.storage.models import DiaryLine, StockMove
from halfpail.storage.store_file import FILE_NAME, look_at, made_at
from halfpail.wiring import services
from tests.storage import children
from tests.storage.conftest import opened

ROOT = Path(__file__).parents[2]
BAGS = len(services().read_sample_garden().bags)


def child(
    task: str, folder: Path, *more: str, under: tuple[str, ...] = ()
) -> subprocess.Popen[str]:
    command = [*under, sys.executable, "-m", children.__name__, task, str(folder), *more]
    return subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True)


def answers(task: str, folder: Path, *more: str, under: tuple[str, ...] = ()) -> list[str]:
    """What a child says that ends by itself."""
    process = child(task, folder, *more, under=under)
    told, _ = process.communicate()
    assert process.returncode == 0
    return told.split()


def close() -> None:
    connections.close_all()


# ---------------------------------------------------------------- killed while writing


@pytest.mark.slow
def test_killed_ten_times_while_writing(folder, file, shelf):
    """Each batch is a line, two moves and two bags: together or not at all."""
    for bag in shelf.bags.all()[:2]:
        shelf.diary.record(bought(bag.value.name))
    before = [Fraction(bag.value.shed_kg) for bag in shelf.bags.all()[:2]]
    acknowledged = set()
    for lines in range(1, 11):
        process = child("write", folder)
        assert process.stdout is not None
        acknowledged |= {int(process.stdout.readline()) for _ in range(lines)}
        process.kill()
        acknowledged |= {int(line) for line in process.stdout.read().split()}
        assert process.wait() == -signal.SIGKILL
        process.stdout.close()
    assert look_at(file).version
    batches = DiaryLine.objects.filter(kind="made")
    assert acknowledged <= {line.pk for line in batches} and len(acknowledged) >= 55
    assert len(batches) <= len(acknowledged) + 10
    assert StockMove.objects.filter(line__kind="made").count() == 2 * len(batches)
    after = [Fraction(bag.value.shed_kg) for bag in shelf.bags.all()[:2]]
    assert [one - other for one, other in zip(before, after, strict=True)] == [
        len(batches) * children.SCOOP_KG
    ] * 2


def bought(name: str) -> Bought:
    return Bought(on=children.DAY, bag=name, bags=4, bag_kg=Fraction(500), paid=Fraction(40))


# ---------------------------------------------------------------- the disk is full


def may_mount() -> bool:
    """Whether we may mount where nobody else sees it: not without root, nor inside a chroot."""
    probe = ("unshare", "-m", "mount", "-t", "tmpfs", "none", "/mnt")
    return (
        bool(shutil.which("unshare")) and not subprocess.run(probe, capture_output=True).returncode
    )


mounting = pytest.mark.skipif(not may_mount(), reason="this machine lets nobody mount")


@pytest.mark.slow
def test_a_file_that_may_not_grow(folder, shelf):
    close()
    trouble, kept, there, bags, _ = answers("fill_a_short_file", folder)
    assert trouble == "DiskFull"
    assert 0 < int(kept) == int(there)
    assert int(bags) == BAGS


@pytest.mark.slow
@mounting
def test_a_full_disk(folder, shelf, tmp_path):
    close()
    small = tmp_path / "small"
    small.mkdir()
    script = 'mount -t tmpfs -o size=1m none "$1" && cp "$2"/* "$1" && shift 2 && exec "$@"'
    under = ("unshare", "-m", "sh", "-c", script, "sh", str(small), str(folder))
    process = child("fill_up", small, under=under)
    told, _ = process.communicate()
    trouble, kept, there, bags, backup = told.split()
    assert (trouble, backup) == ("DiskFull", "DiskFull")
    assert 0 < int(kept) == int(there)
    assert int(bags) == BAGS


# ---------------------------------------------------------------- locked


def test_a_locked_store_says_so_and_can_be_read(file, store, shelf):
    other = sqlite3.connect(file, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreBusy):
        store.put_away("dust")
    assert len(shelf.bags.all()) == BAGS
    other.execute("ROLLBACK")
    other.close()
    store.put_away("dust")
    assert store.seen() == {"dust"}


# ---------------------------------------------------------------- damaged


def overwrite_head(file: Path) -> None:
    with file.open("r+b") as bytes_of:
        bytes_of.write(b"\0" * 64)


def overwrite_middle(file: Path) -> None:
    with file.open("r+b") as bytes_of:
        for page in range(2, file.stat().st_size // 4096 - 1):
            bytes_of.seek(page * 4096)
            bytes_of.write(b"\xa5" * 512)


def cut_in_half(file: Path) -> None:
    with file.open("r+b") as bytes_of:
        bytes_of.truncate(file.stat().st_size // 2)


@pytest.mark.parametrize("damage", [overwrite_head, overwrite_middle, cut_in_half])
def test_a_damaged_store_is_kept_and_the_newest_good_backup_named(folder, file, shelf, damage):
    """The newest backup is damaged too, so the one before it is the one to take."""
    good, bad = back_up(file).path, back_up(file).path
    close()
    damage(file)
    damage(bad)
    found = file.read_bytes()
    with pytest.raises(Damaged) as told:
        opened(folder)
    assert good.name in told.value.faults[0].remedy
    assert file.read_bytes() == found
    kept = restore(good, file)
    assert kept is not None and kept.read_bytes() == found
    store = opened(folder)
    assert len(store.shelf(store.gardens.all()[0].key).garden().bags) == BAGS


def test_damage_without_a_backup_says_so(folder, file):
    overwrite_head(file)
    with pytest.raises(Damaged, match="damaged") as told:
        opened(folder)
    assert "no good backup" in told.value.faults[0].remedy


def test_damage_met_later_is_told_as_such(file, shelf):
    close()
    overwrite_middle(file)
    with pytest.raises(Damaged):
        shelf.bags.all()


# ---------------------------------------------------------------- read-only, strange, newer


def test_a_read_only_store_can_be_looked_at(folder, shelf, monkeypatch):
    close()
    monkeypatch.setattr("halfpail.storage.open_store.os.access", lambda path, how: False)
    store = opened(folder)
    assert store.read_only
    assert len(store.shelf(shelf.key).garden().bags) == BAGS
    with pytest.raises(ReadOnly):
        store.put_away("dust")
    monkeypatch.undo()
    assert not opened(folder).read_only


@pytest.mark.slow
@mounting
def test_a_store_on_a_read_only_disk(folder, shelf):
    close()
    script = 'mount --bind "$1" "$1" && mount -o remount,ro,bind "$1" && shift && exec "$@"'
    process = child("look", folder, under=("unshare", "-m", "sh", "-c", script, "sh", str(folder)))
    told, _ = process.communicate()
    assert told.split() == ["True", str(BAGS), "ReadOnly"]


def test_a_folder_that_is_none_is_told(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreTrouble):
        opened(tmp_path / "file")


def test_a_file_of_another_program_is_left_alone(folder, file):
    file.unlink()
    with sqlite3.connect(file) as other:
        other.execute("CREATE TABLE theirs (x)")
    other.close()
    found = file.read_bytes()
    with pytest.raises(NotAStore):
        opened(folder)
    assert file.read_bytes() == found


def test_a_newer_store_is_refused_kindly(folder, file, shelf):
    close()
    with sqlite3.connect(file) as newer:
        newer.execute("PRAGMA user_version = 99")
    newer.close()
    found = file.read_bytes()
    with pytest.raises(TooNew) as told:
        opened(folder)
    assert "99" in told.value.faults[0].read
    assert file.read_bytes() == found
    with pytest.raises(TooNew):
        restore(file, folder / "elsewhere.sqlite3")
    assert not (folder / "elsewhere.sqlite3").exists()


# ---------------------------------------------------------------- a new form


@pytest.mark.slow
@pytest.mark.parametrize("statement", [1, 3, 6, 9, 12])
def test_killed_while_the_form_changes(folder, file, shelf, statement):
    """Old form or new form, never between; and the backup that was made before is whole."""
    close()
    process = child("step_up", folder, str(statement))
    process.communicate()
    assert process.returncode == -signal.SIGKILL
    assert look_at(file).version == 1
    assert dict(look_at(file).counts)["bags"] == BAGS
    with sqlite3.connect(file) as rows:
        columns = {name for _, name, *_ in rows.execute("PRAGMA table_info(storage_bag)")}
    rows.close()
    assert "shop" not in columns
    assert [dict(look_at(one).counts)["bags"] for one in backups(folder)] == [BAGS]
    store = opened(folder)
    assert len(store.shelf(shelf.key).garden().bags) == BAGS


@pytest.mark.slow
def test_a_new_form_comes_after_a_backup(folder, file, shelf):
    close()
    assert int(answers("step_up", folder, "1000")[0]) < 1000 - 12
    assert look_at(file).version == 2
    with sqlite3.connect(file) as rows:
        shops = [shop for (shop,) in rows.execute("SELECT shop FROM storage_bag")]
    rows.close()
    assert len(shops) == BAGS and all(shop.startswith("shop of ") for shop in shops)
    (kept,) = backups(folder)
    assert look_at(kept).version == 1
    with pytest.raises(TooNew):
        opened(folder)
    restore(kept, file)
    assert len(opened(folder).shelf(shelf.key).garden().bags) == BAGS


def test_a_store_that_was_never_finished_begins_anew(tmp_path):
    (tmp_path / FILE_NAME).touch()
    assert opened(tmp_path).gardens.all() == ()
    opened(tmp_path / "new")
    assert (tmp_path / "new" / FILE_NAME).stat().st_mode & 0o777 == 0o600
    other = tmp_path / "other"
    other.mkdir()
    with sqlite3.connect(other / FILE_NAME) as begun:
        begun.execute("PRAGMA journal_mode=WAL")
    begun.close()
    assert opened(other).gardens.all() == ()


# ---------------------------------------------------------------- two servers, and the secret


@pytest.mark.slow
def test_a_second_server_finds_the_first(folder):
    process = child("serve", folder)
    assert process.stdout is not None
    pid = int(process.stdout.readline())
    with pytest.raises(AlreadyRunning) as told:
        Running(folder, "http://127.0.0.1:8766/")
    assert (told.value.pid, told.value.address) == (pid, "http://127.0.0.1:8765/")
    process.kill()
    process.communicate()
    running = Running(folder, "http://127.0.0.1:8766/")
    running.tell("http://127.0.0.1:8767/")
    assert json.loads((folder / RUNNING_FILE).read_text())["address"].endswith("8767/")
    with pytest.raises(AlreadyRunning):
        Running(folder, "")
    running.let_go()
    Running(folder, "").let_go()


def test_the_secret_is_long_and_private_and_stays(tmp_path):
    secret = secret_of(tmp_path / "new")
    assert len(secret) >= 50
    assert (tmp_path / "new" / SECRET_FILE).stat().st_mode & 0o777 == 0o600
    assert secret_of(tmp_path / "new") == secret
    assert secret_of(tmp_path / "other") != secret


# ---------------------------------------------------------------- copies


def test_a_plain_copy_is_told_from_a_backup(folder, file, store, shelf, tmp_path):
    """The rows of an open store stand in its log, and a copy of the file alone has none of them."""
    assert not look_at(file).loose
    copy = tmp_path / "copy.sqlite3"
    shutil.copy(file, copy)
    assert look_at(copy).loose
    assert dict(look_at(copy).counts)["bags"] == 0
    whole = back_up(file)
    assert not look_at(whole.path).loose
    assert dict(whole.counts)["bags"] == BAGS


def test_a_copy_without_any_rows_is_no_backup(file, shelf, tmp_path):
    begun = sqlite3.connect(tmp_path / "begun.sqlite3")
    begun.execute("PRAGMA journal_mode=WAL")
    begun.execute("CREATE TABLE storage_garden (x)")
    bare = tmp_path / "bare.sqlite3"
    shutil.copy(tmp_path / "begun.sqlite3", bare)
    begun.close()
    with pytest.raises(NotAStore):
        restore(bare, file)
    assert len(shelf.bags.all()) == BAGS


def test_a_backup_is_restored_into_an_open_store(folder, file, store, shelf):
    kept = back_up(file)
    bag = shelf.bags.all()[0]
    shelf.bags.remove(bag.key, bag.version)
    before = restore(kept.path, file)
    assert len(shelf.bags.all()) == BAGS
    assert before is not None and dict(look_at(before).counts)["bags"] == BAGS - 1
    restore(before, file)
    assert len(shelf.bags.all()) == BAGS - 1
    assert store.put_away("dust") is None and not look_at(file).loose


def test_the_last_ten_backups_stay(folder, file, shelf):
    made = [back_up(file).path for _ in range(12)]
    assert backups(folder) == made[:1:-1]
    assert all(one.stat().st_mode & 0o777 == 0o600 for one in backups(folder))
    elsewhere = back_up(file, into=folder / "mine.sqlite3")
    assert elsewhere.path.exists() and len(backups(folder)) == 10
    assert (datetime.now(UTC) - made_at(made[-1])).total_seconds() >= 0
