"""What the page for opening a file shows: its faults, or what is in it before it is kept."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from halfpail.application.fit_shared import FittedMix, fit_mix, mix_of
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.open_garden import open_garden
from halfpail.application.open_json import open_json
from halfpail.application.shared_pieces import SharedMix, SharedPlan
from halfpail.application.whole_garden import Piece, WholeGarden
from halfpail.application.word_mix import Table, grade_text
from halfpail.application.word_season import bag_table, feed_table, in_short
from halfpail.findings import Fault, Refusal
from halfpail.quantities.showing import show_mass, show_volume
from halfpail.quantities.units import System
from halfpail.web.forms.garden_file import UploadForm
from halfpail.web.home import GardenRequest, Home
from halfpail.web.told_season import told_season
from halfpail.wiring import Services

NEEDLESS = ("bags", "beds")
MOST_GARDEN_FILE = 200_000
TOO_LONG = Fault(
    place="the file",
    read="",
    sentence="A garden file is at most 200 kB long.",
    remedy="Keep one garden in one file.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPiece:
    """What a file holds in words: a title, lines, tables, and the button that keeps it."""

    title: str
    lines: tuple[str, ...]
    tables: tuple[tuple[str, Table], ...] = ()
    keep: str = ""
    why_not: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilePage:
    """The form, and what was found in the file."""

    form: UploadForm
    token: str = ""
    found: FoundPiece | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def is_sound(self) -> bool:
        """Whether the file could be read."""
        return self.found is not None


def read_piece(services: Services, text: str) -> Piece:
    """What a text holds: a JSON file begins with a brace, and a garden file never does.

    Raises:
        Refusal: with every fault of it.
    """
    if text.lstrip().startswith("{"):
        return open_json(services, text.encode())
    if len(text.encode()) > MOST_GARDEN_FILE:
        raise Refusal(TOO_LONG)
    return WholeGarden(garden=sound_garden(services, text))


def sound_garden(services: Services, text: str) -> GardenEntry:
    """The garden of a text; one without bags or beds will do, since they can be added here.

    Raises:
        Refusal: with every fault of it.
    """
    entry = services.read_garden_text(text)
    faults = tuple(fault for fault in entry.faults if fault.place not in NEEDLESS)
    if faults:
        raise Refusal(*entry.in_order(faults))
    open_garden(replace(entry, faults=()))
    return replace(entry, faults=())


def found_piece(request: GardenRequest, piece: Piece) -> FoundPiece:
    """What a file holds, in words.

    Raises:
        NoLonger: the plan in it breaks a limit of today.
    """
    if isinstance(piece, WholeGarden):
        return _garden(piece, request.home)
    if isinstance(piece, SharedMix):
        return _mix(piece, request)
    return _plan(piece, request)


def fitted(home: Home, shared: SharedMix) -> FittedMix:
    """A mix as it would be kept in a garden."""
    taken = [kept.value.name for kept in home.shelf.mixes.all()]
    return fit_mix(shared, home.shelf.garden(), taken)


def _garden(whole: WholeGarden, home: Home | None) -> FoundPiece:
    garden = whole.garden
    counts = (
        (len(garden.bags), "bag", "bags"),
        (len(garden.beds), "bed", "beds"),
        (len(whole.mixes), "mix", "mixes"),
        (len(whole.diary), "line of the diary", "lines of the diary"),
        (len(whole.seasons), "plan", "plans"),
    )
    told = [f"{count} {one if count == 1 else many}" for count, one, many in counts[:2]]
    told += [f"{count} {one if count == 1 else many}" for count, one, many in counts[2:] if count]
    lines = [f"{', '.join(told[:-1])} and {told[-1]}"]
    if home:
        lines.append("The present garden goes to the bin; Settings puts it back.")
    names = Table(headings=("bag",), rows=tuple((bag.name,) for bag in garden.bags))
    beds = Table(headings=("bed",), rows=tuple((bed.name,) for bed in garden.beds))
    tables = tuple((name, one) for name, one in (("Bags", names), ("Beds", beds)) if one.rows)
    return FoundPiece(title=garden.name, lines=tuple(lines), tables=tables, keep="Keep this garden")


def _mix(shared: SharedMix, request: GardenRequest) -> FoundPiece:
    made, system = mix_of(shared), request.look.system
    lines = (
        f"Its grade is {grade_text(made.analysis.grade)}.",
        f"One round weighs {show_mass(made.mass_kg, system)}, with a scoop of "
        f"{show_volume(shared.scoop_l, system)}. A level scoop of another size makes the same mix.",
    )
    if request.home is None:
        plain = tuple((name, str(count)) for name, count in shared.mix.scoops.items())
        table = Table(headings=("bag", "scoops"), rows=plain)
        why_not = "Start a garden first, then open this file again."
        return FoundPiece(
            title=shared.mix.name, lines=lines, tables=(("Its bags", table),), why_not=why_not
        )
    fit = fitted(request.home, shared)
    rows = tuple((one.name, str(one.scoops), _how(one.name, one.here, one.how)) for one in fit.bags)
    table = Table(headings=("bag", "scoops", "here"), rows=rows)
    return FoundPiece(
        title=shared.mix.name,
        lines=(*lines, *_named(shared.mix.name, fit.mix.name)),
        tables=(("Its bags", table),),
        keep="" if fit.why_not else "Keep this mix",
        why_not=fit.why_not,
    )


def _how(name: str, here: str, how: str) -> str:
    return how if here == name else f"{how}, so it is called {here}"


def _named(name: str, here: str) -> Iterator[str]:
    if here != name:
        yield f"You have a {name} already, so this one is called {here}."


def _plan(shared: SharedPlan, request: GardenRequest) -> FoundPiece:
    liked = shared.garden.preferences
    system: System = request.look.system
    told = told_season(shared.garden, shared.plan, system)
    lines = (
        f"Made on {shared.made_on.isoformat()}, in {liked.currency}.",
        in_short(told.answer, system),
        "It comes with the beds and bags it was made for; yours stay as they are.",
    )
    return FoundPiece(
        title=shared.name,
        lines=lines,
        tables=(
            ("What each bed gets", feed_table(told.answer, system)),
            ("Its bags", bag_table(told.answer, system)),
        ),
        keep="Keep this plan" if request.home else "",
        why_not="" if request.home else "Start a garden first, then open this file again.",
    )
