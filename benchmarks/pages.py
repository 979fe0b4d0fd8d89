"""How fast the pages are, by the real server over the loopback, beside a bare Django page.

    python -m benchmarks.pages [REQUESTS [PAGE]]

A garden of 60 bags, 100 beds and three years of diary is put into a new store. Every page is asked
for REQUESTS (40) times after a first round; pages of one bag or bed are of another one each time.
Told are the 95th of 100 times (bar: 150 ms) and the processor's share of the server. Then 100 taps
on the scoops of a mix (bar: 95 under 100 ms), recipes from all bags (the page is bound by the bar,
what it finds comes later), the second start by `make serve` to the first page (bar: 2 s), and the
weight of a first load (bar: 150 kB). PAGE measures only pages of such a name.
"""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from math import ceil
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, sleep
from urllib.parse import urlencode, urlsplit

from benchmarks.large_garden import BAGS, BEDS, large_garden
from halfpail.application.kept import JobState
from halfpail.application.plan_season import GOOD_ENOUGH
from halfpail.web.clock import today
from halfpail.web.start import start_pages
from halfpail.wiring import services

REQUESTS, TAPS, WARM = 40, 100, 3
WISHES, ASK_AGAIN_S = 20, 0.25
PAGE_MS, TAP_MS, START_S, WEIGHT_KB = 150, 100, 2.0, 150
SHARE = 0.95
TYPED = {
    **{"1-grade": "3-4-4", "1-weight": "25", "1-price": "12", "1-scoops": "2", "ground": "400"},
    **{"2-name": "blood meal", "2-grade": "12-0-0", "2-weight": "5", "2-price": "9"},
}
LINKED = re.compile(r'(?:href|src)="(/static/[^"]+)"')
Address = Callable[[int], str]


def main(requests: int = REQUESTS, only: str = "") -> int:
    """Print every table; how many bars were missed."""
    with TemporaryDirectory() as place:
        data = Path(place) / "halfpail"
        bags = fill(data)
        with served(bare_command()) as bare:
            told = [measure(bare, "a bare Django page", lambda number: "/", requests)]
        with served(pages_command(data)) as server:
            named = pages(bags)
            told += [
                measure(server, name, address, requests)
                for name, address in named.items()
                if only in name
            ]
            print_pages(told)
            missed = sum(one.high_ms >= PAGE_MS for one in told[1:])
            if only:
                return missed
            missed += print_taps(server, bags)
            missed += print_recipes(server)
            missed += print_weight(server)
        with served(pages_command(Path(place) / "none")) as sample:
            print("a recipe from the 14 bags of the sample garden:")
            print_pages([measure(sample, "recipe, found", recipe_address, requests)])
        return missed + print_start(Path(place))


@dataclass(frozen=True)
class Server:
    """A server of our own: its address, and the process that answers."""

    host: str
    pid: int

    def cpu_s(self) -> float:
        """The processor's time it has taken so far [s]."""
        told = Path(f"/proc/{self.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(told[11]) + int(told[12])) / os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True)
class Timed:
    """The times of one page: middle, 95th of 100, longest, and of the processor [ms]; its bytes."""

    name: str
    middle_ms: float
    high_ms: float
    longest_ms: float
    cpu_ms: float
    size: int


def fill(data: Path) -> tuple[str, ...]:
    """Put the garden into a new store in a folder, its plan dated; the names of its bags."""
    start_pages(data)
    store = services().store
    assert store
    store.put_in_whole(large_garden(today().year))
    from halfpail.web import season_job
    from halfpail.web import season_text as text

    garden = store.gardens.all()[-1].key
    shelf = store.shelf(garden)
    dated = ""
    for kept in shelf.seasons.all():
        asked = text.DatesAsked(entry=kept.value.garden, plan=kept.value.plan)
        token = f"dates of season {kept.key}"
        job = store.jobs.add(text.DATES, services().to_text(asked), token)
        store.jobs.begin(job.key, os.getpid())
        dated = dated or season_job.date_plan(job.question, GOOD_ENOUGH)
        store.jobs.end(job.key, os.getpid(), JobState.DONE, dated)
    last = shelf.seasons.all()[-1].value
    wish = text.SeasonAsked(garden=garden, entry=last.garden)
    found = text.SeasonFound(plan=last.plan, dates=text.read_text(text.DatesFound, dated))
    job = store.jobs.add(text.SEASON, services().to_text(wish), "measured")
    store.jobs.begin(job.key, os.getpid())
    store.jobs.end(job.key, os.getpid(), JobState.DONE, services().to_text(found))
    return tuple(kept.value.name for kept in shelf.bags.all())


def pages(bags: tuple[str, ...]) -> dict[str, Address]:
    """Every page that can be asked for, by its name; `number` counts the times it was."""
    steady = {
        "first, blank": "/",
        "first, answered": f"/?{urlencode(TYPED)}",
        "next": "/next",
        "bags": "/bags",
        "bags by usable N": "/bags?by=usable",
        "bag, new": "/bags/new",
        "beds": "/beds",
        "bed, new": "/beds/new",
        "mixes, blank": "/mixes",
        "recipe, blank": "/mixes/recipe",
        "season": "/season",
        "season, kept": "/season/2",
        "season, why": "/season/2?why=1",
        "two plans": "/season/compare?one=1&other=2",
        "diary": "/diary",
        "diary, whole year": "/diary?whole=1",
        **{f"diary, {kind}": f"/diary/write/{kind}" for kind in ("batch", "feeding", "harvest")},
        "settings": "/settings",
        "files": "/files",
        "spreadsheet": "/spreadsheet",
        "bring in a file": "/garden/import",
        "sources": "/sources",
    }
    counted: dict[str, Address] = {
        "bag": lambda number: f"/bags/{number % BAGS + 1}",
        "bed": lambda number: f"/beds/{number % BEDS + 1}",
        "mixes, summed": lambda number: mix_address(bags, number),
        "diary, one bed": lambda number: "/diary?" + urlencode({"bed": f"{number}"}),
    }
    return {**{name: _always(address) for name, address in steady.items()}, **counted}


def _always(address: str) -> Address:
    return lambda number: address


def mix_address(bags: tuple[str, ...], number: int) -> str:
    """A mix of four bags, and one scoop more of one of them."""
    chosen = bags[:4]
    scoops = {f"scoops of {bag}": (number + place) % 7 + 1 for place, bag in enumerate(chosen)}
    return "/mixes?" + urlencode({**scoops, "more": chosen[number % 4]})


def recipe_address(number: int) -> str:
    """A wish for a recipe, another one each time."""
    return f"/mixes/recipe?grade=4.{number}-3-3"


def bare_command() -> list[str]:
    """What serves the bare page."""
    return [sys.executable, "-c", "from benchmarks.bare_page import serve; serve()"]


def pages_command(data: Path) -> list[str]:
    """What serves the pages, as anybody would."""
    return [sys.executable, "-m", "halfpail", "serve", "--no-browser", "--folder", str(data)]


@contextmanager
def served(command: list[str], **surroundings: str) -> Iterator[Server]:
    """A server that has said its address; it ends with the block."""
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL if command[0] == "make" else None,  # it tells that it was ended
        text=True,
        env={**os.environ, **surroundings},
        start_new_session=True,
    ) as process:
        assert process.stdout
        words = process.stdout.readline().split()
        address = next(word for word in words if word.startswith("http://"))
        try:
            yield Server(host=urlsplit(address).netloc, pid=process.pid)
        finally:
            os.killpg(process.pid, signal.SIGTERM)
            process.stdout.close()


def measure(server: Server, name: str, address: Address, requests: int) -> Timed:
    """The times of a page that is asked for again and again."""
    line = HTTPConnection(server.host, timeout=60)
    for number in range(WARM):
        ask(line, address(number))
    before, seconds, size = server.cpu_s(), [], 0
    for number in range(WARM, WARM + requests):
        began = perf_counter()
        size = max(size, len(ask(line, address(number))))
        seconds.append(perf_counter() - began)
    cpu_ms = (server.cpu_s() - before) / requests * 1000
    line.close()
    in_order = sorted(1000 * one for one in seconds)
    return Timed(
        name=name,
        middle_ms=in_order[len(in_order) // 2],
        high_ms=in_order[ceil(SHARE * len(in_order)) - 1],
        longest_ms=in_order[-1],
        cpu_ms=cpu_ms,
        size=size,
    )


def ask(line: HTTPConnection, address: str, **headers: str) -> bytes:
    """What is answered to an address, which must be well."""
    line.request("GET", address, headers=headers)
    response = line.getresponse()
    answer = response.read()
    if response.status != 200:
        raise RuntimeError(f"{address} answers {response.status}")
    return answer


def print_pages(told: list[Timed]) -> None:
    """The table of all pages."""
    load = ", ".join(f"{one:.1f}" for one in os.getloadavg())
    print(f"{os.cpu_count()} cores, load {load}; bar: the 95th of 100 under {PAGE_MS} ms")
    print(f"{'page':24}{'middle':>8}{'95th':>8}{'worst':>8}{'cpu':>8} ms{'kB':>7}")
    for one in told:
        late = "  MISSED" if one.high_ms >= PAGE_MS else ""
        times = (one.middle_ms, one.high_ms, one.longest_ms, one.cpu_ms)
        figures = "".join(f"{time:8.1f}" for time in times)
        print(f"{one.name:24}{figures}   {one.size / 1000:7.1f}{late}")


def print_taps(server: Server, bags: tuple[str, ...]) -> int:
    """How many taps on the scoops of a mix are answered in time; 1 where they are too few."""
    line = HTTPConnection(server.host, timeout=60)
    asked = {"HX-Request": "true", "HX-Target": "sum-head"}
    ask(line, mix_address(bags, 0), **asked)
    before, in_time, seconds = server.cpu_s(), 0, []
    for number in range(1, TAPS + 1):
        began = perf_counter()
        ask(line, mix_address(bags, number), **asked)
        seconds.append(perf_counter() - began)
        in_time += seconds[-1] * 1000 < TAP_MS
    line.close()
    middle, cpu = sorted(seconds)[TAPS // 2] * 1000, (server.cpu_s() - before) / TAPS * 1000
    print(f"taps: {in_time} of {TAPS} under {TAP_MS} ms (middle {middle:.1f}, cpu {cpu:.1f} ms)")
    return int(in_time < SHARE * TAPS)


def print_recipes(server: Server) -> int:
    """Recipes from all bags: when the page is there, and when what is found; 1 where it is late."""
    line = HTTPConnection(server.host, timeout=60)
    first, found = [], []
    for number in range(WISHES):
        began = perf_counter()
        page = ask(line, recipe_address(number))
        first.append(perf_counter() - began)
        while b"Proven:" not in page:
            sleep(ASK_AGAIN_S)
            page = ask(line, recipe_address(number))
        found.append(perf_counter() - began)
    line.close()
    late = sorted(first)[ceil(SHARE * WISHES) - 1] * 1000
    print(
        f"a recipe from {BAGS} bags, {WISHES} wishes: the page after {late:.0f} ms (95th), what is "
        f"found after {median(found):.1f} s, at worst {max(found):.1f} s"
    )
    return int(late >= PAGE_MS)


def print_weight(server: Server) -> int:
    """What a first load brings, with all that the page links to; 1 where it is too much."""
    line = HTTPConnection(server.host, timeout=60)
    page = ask(line, f"/?{urlencode(TYPED)}")
    linked = sorted(set(LINKED.findall(page.decode())))
    parts = {address: len(ask(line, address, **{"Accept-Encoding": "gzip"})) for address in linked}
    line.close()
    weight = (len(page) + sum(parts.values())) / 1000
    each = ", ".join(
        f"{address.rpartition('/')[2]} {size / 1000:.1f}" for address, size in parts.items()
    )
    print(f"first load: {weight:.1f} kB (page {len(page) / 1000:.1f}, {each}); no font is loaded")
    return int(weight >= WEIGHT_KB)


def print_start(place: Path) -> int:
    """From the command to the first page, the second time; 1 where it takes too long."""
    around = {"XDG_DATA_HOME": str(place), "BROWSER": "true"}
    seconds = []
    for _ in range(4):
        began = perf_counter()
        with served(["make", "--silent", "serve"], **around) as server:
            ask(HTTPConnection(server.host, timeout=60), "/")
            seconds.append(perf_counter() - began)
    later = ", ".join(f"{one:.2f}" for one in seconds[1:])
    print(f"make serve to the first page: {seconds[0]:.2f} s at first, then {later} s")
    return int(min(seconds[1:]) >= START_S)


if __name__ == "__main__":
    arguments = sys.argv[1:]
    sys.exit(main(int(arguments[0]) if arguments else REQUESTS, *arguments[1:2]) > 0)
