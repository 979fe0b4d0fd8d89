"""A server of the pages killed over and over while it saves: what it acknowledged must be there.

    python -m benchmarks.kills [KILLS [SEED]]

A client writes notes and feedings into the diary of the sample garden as a browser does. The server
is killed (signal 9) at a random moment within the first half second of saves, KILLS (50) times,
and started again. After each kill the file must be whole by SQLite's own check. At the end every
acknowledged line must be there, no line may be there that was not sent, and the bag that the
feedings came out of must hold what their lines leave in it, to the last digit.
"""

import os
import re
import signal
import sqlite3
import sys
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field, replace
from fractions import Fraction
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from time import perf_counter, sleep
from urllib.parse import urlencode

from benchmarks.pages import Server, pages_command, served
from halfpail.application.open_garden import open_garden
from halfpail.application.shelf_ports import Shelf
from halfpail.domain.diary import bag_moves_kg
from halfpail.storage.store_file import FILE_NAME
from halfpail.web.clock import today
from halfpail.web.start import start_pages
from halfpail.wiring import services

KILLS, SEED = 50, 1
LONGEST_S = 0.5
FORM = "/diary/write/"
HIDDEN = re.compile(r'name="(csrfmiddlewaretoken|token)" value="([^"]+)"')
PLENTY_KG = Fraction(100_000)


@dataclass
class Tally:
    """What was sent and what was acknowledged, and the faults that were found."""

    sent: set[str] = field(default_factory=set)
    acknowledged: set[str] = field(default_factory=set)
    kills: int = 0
    in_flight: int = 0
    damaged: list[str] = field(default_factory=list)
    lost: set[str] = field(default_factory=set)
    strange: set[str] = field(default_factory=set)
    uneven_kg: Fraction = Fraction(0)

    @property
    def is_sound(self) -> bool:
        """Whether there were saves before every kill, and nothing is lost or half-written."""
        return len(self.acknowledged) >= self.kills and not (
            self.damaged or self.lost or self.strange or self.uneven_kg
        )

    @property
    def words(self) -> str:
        """The tally in a sentence."""
        return (
            f"{self.kills} kills, {self.in_flight} of them with a save in flight: "
            f"{len(self.acknowledged)} saves acknowledged, {len(self.lost)} of them lost; "
            f"{len(self.strange)} lines that nobody sent; {len(self.damaged)} files damaged; "
            f"stock {'uneven' if self.uneven_kg else 'even'}"
        )


def kill_often(folder: Path, kills: int, seed: int) -> Tally:
    """Kill a server on a new store in this folder so often, and look at what it kept."""
    bag, bed = fill(folder)
    tally, chance = Tally(), Random(seed)
    for _ in range(kills):
        with served(pages_command(folder)) as server, saving(server, tally, bag, bed) as begun:
            begun.wait(timeout=30)
            sleep(chance.random() * LONGEST_S)
            os.kill(server.pid, signal.SIGKILL)
        tally.kills += 1
        tally.in_flight = len(tally.sent) - len(tally.acknowledged)
        tally.damaged += damage(folder / FILE_NAME)
    look_at_end(folder, tally, bag)
    return tally


def fill(folder: Path) -> tuple[str, str]:
    """The sample garden in a new store with plenty in one bag; that bag and a bed."""
    shelf = shelf_of(folder, begin=True)
    kept = shelf.bags.all()[0]
    shelf.bags.change(kept.key, kept.version, replace(kept.value, shed_kg=PLENTY_KG, typed={}))
    return kept.value.name, shelf.beds.all()[0].value.name


def shelf_of(folder: Path, *, begin: bool = False) -> Shelf:
    """The shelf of the store in a folder, opened by this process."""
    start_pages(folder)
    store = services().store
    assert store
    if begin:
        store.put_in(services().read_sample_garden(), is_sample=True)
    return store.shelf(store.gardens.all()[-1].key)


@contextmanager
def saving(server: Server, tally: Tally, bag: str, bed: str) -> Iterator[threading.Event]:
    """A client that saves until the server is gone; the event tells of its first save."""
    begun = threading.Event()
    client = threading.Thread(target=save_on, args=(server, tally, bag, bed, begun))
    client.start()
    try:
        yield begun
    finally:
        client.join()


def save_on(server: Server, tally: Tally, bag: str, bed: str, begun: threading.Event) -> None:
    """Write a note, then a feeding, and so on; a save counts once its answer has come."""
    line = HTTPConnection(server.host, timeout=30)
    try:
        while True:
            for kind in ("note", "feeding"):
                words = f"line {len(tally.sent)}"
                told = {"on": today().isoformat(), "note": words, "bed": bed}
                if kind == "feeding":
                    told |= {"of": bag, "scoops": "1/4"}
                save(line, kind, told, tally)
                begun.set()
    except (OSError, HTTPException):
        pass
    finally:
        line.close()


def save(line: HTTPConnection, kind: str, told: dict[str, str], tally: Tally) -> None:
    """Fill in the form of one line and send it, as a browser does."""
    line.request("GET", FORM + kind)
    page = line.getresponse()
    cookie = (page.getheader("Set-Cookie") or "").partition(";")[0]
    hidden = dict(reversed(HIDDEN.findall(page.read().decode())))
    tally.sent.add(told["note"])
    line.request(
        "POST",
        FORM + kind,
        body=urlencode({**told, **hidden}),
        headers={"Content-Type": "application/x-www-form-urlencoded", "Cookie": cookie},
    )
    answer = line.getresponse()
    answer.read()
    if answer.status != 303:
        raise RuntimeError(f"a save was answered with {answer.status}")
    tally.acknowledged.add(told["note"])


def damage(file: Path) -> list[str]:
    """What SQLite finds wrong in a file."""
    with closing(sqlite3.connect(file)) as store:
        told = [str(row[0]) for row in store.execute("PRAGMA integrity_check")]
        loose = store.execute("PRAGMA foreign_key_check").fetchall()
    return [one for one in told if one != "ok"] + [str(row) for row in loose]


def look_at_end(folder: Path, tally: Tally, bag: str) -> None:
    """Compare what the store holds with what was sent and acknowledged."""
    shelf = shelf_of(folder)
    events = [kept.value for kept in shelf.diary.all()]
    there = {event.note for event in events}
    tally.lost, tally.strange = tally.acknowledged - there, there - tally.sent
    moved_kg = sum((bag_moves_kg(event).get(bag, Fraction(0)) for event in events), Fraction(0))
    shed_kg = next(kept.value.shed_kg for kept in shelf.bags.all() if kept.value.name == bag)
    tally.uneven_kg = shed_kg - (PLENTY_KG + moved_kg)
    open_garden(shelf.garden())


def main(kills: int = KILLS, seed: int = SEED) -> int:
    """Print the tally; nought where nothing was lost or half-written."""
    began = perf_counter()
    with TemporaryDirectory() as place:
        tally = kill_often(Path(place), kills, seed)
    print(f"{tally.words}; {perf_counter() - began:.0f} s")
    return int(not tally.is_sound)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
