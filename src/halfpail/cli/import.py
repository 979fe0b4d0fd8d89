"""`halfpail import`: rows of a spreadsheet, or a whole file, brought into a garden."""

import secrets
from dataclasses import replace
from pathlib import Path

import click

from halfpail.application.brought_in import Brought
from halfpail.application.fit_shared import fit_plan
from halfpail.application.found_rows import GardenNow, plain_name
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import Kept
from halfpail.application.look_at_spreadsheet import (
    Choice,
    FoundSpreadsheet,
    look_at_spreadsheet,
)
from halfpail.application.match_columns import match_columns
from halfpail.application.open_garden import open_garden
from halfpail.application.shared_pieces import SharedMix
from halfpail.application.spreadsheet import Spreadsheet
from halfpail.application.store_trouble import NoStore
from halfpail.application.whole_garden import Piece, WholeGarden, without_text
from halfpail.cli.backup import folder_option
from halfpail.cli.import_report import faulty, found_text
from halfpail.cli.paper_options import moment_of, write_file
from halfpail.findings import Fault, Refusal
from halfpail.web.held_import import garden_now
from halfpail.web.home import Home, find_home
from halfpail.web.pages.garden_file import fitted, read_piece
from halfpail.wiring import data_folder, services

MOST_BYTES = 12_000_000
SOME_LEFT_OUT = 1
NO_GARDEN = "Start halfpail serve and keep a garden, or name a garden file with --garden."
NO_LINES = "A garden file holds no diary; its lines are left out."


@click.command(
    "import",
    short_help="Bring bags, beds, soil tests and diary lines in from a file.",
    epilog="Example: halfpail import bags.xlsx, and once it looks right: "
    "halfpail import bags.xlsx --keep",
)
@click.argument("file", required=False, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--keep", is_flag=True, help="Keep what is told; without it nothing is kept.")
@click.option(
    "--put-over", is_flag=True, help="Where a name is here already, take what the file says."
)
@click.option(
    "--garden",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A garden file to add the rows to, instead of the garden you keep.",
)
@click.option(
    "--to",
    type=click.Path(path_type=Path, dir_okay=False),
    help="With --garden: the new garden file to write.",
)
@click.option("--take-back", metavar="WORD", help="Take an import back, by the word it told.")
@folder_option
def command(
    file: Path | None,
    keep: bool,
    put_over: bool,
    garden: Path | None,
    to: Path | None,
    take_back: str | None,
    folder: Path | None,
) -> None:
    """Tell what a FILE would bring into the garden you keep, and with --keep bring it in.

    An XLSX, ODS or CSV file brings bags, beds, soil tests and diary lines, row by row; heads may
    be your own words. A garden file, or a JSON file that halfpail export wrote, brings a whole
    garden in the place of yours, or a mix or a plan that was handed on. Rows that cannot be used
    are told with row and column and left out; the exit code is then 1.
    """
    if take_back:
        click.echo(_taken_back(_home(folder).shelf.imports.take_back(take_back)))
        return
    if file is None:
        raise click.UsageError("Name the file to bring in.")
    if keep and garden:
        raise click.UsageError("With --garden write --to NEW.toml instead of --keep.")
    raw = _content(file)
    piece = _piece(file, raw)
    if piece is not None:
        _whole(piece, folder, keep=keep)
    elif garden:
        _into_file(_sheets(file, raw), services().read_garden(garden), to, put_over=put_over)
    else:
        _into_store(file, _sheets(file, raw), _home(folder), keep=keep, put_over=put_over)


def _content(file: Path) -> bytes:
    try:
        with file.open("rb") as opened:
            return opened.read(MOST_BYTES)
    except OSError as error:
        sentence = f"The file cannot be opened: {error.strerror}."
        fault = Fault(place=str(file), read="", sentence=sentence, remedy="Check its name.")
        raise Refusal(fault) from None


def _piece(file: Path, raw: bytes) -> Piece | None:
    """The whole garden, mix or plan of a file; None where it is a spreadsheet."""
    is_toml = file.suffix.lower() == ".toml"
    if not is_toml and not raw.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{"):
        return None
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        sentence, remedy = "The file is not text in UTF-8.", "Save it as UTF-8 text."
        fault = Fault(place=str(file), read="", sentence=sentence, remedy=remedy)
        raise Refusal(fault) from None
    return read_piece(services(), text)


def _sheets(file: Path, raw: bytes) -> Spreadsheet:
    return services().sheets.read(raw, file.name)


def _home(folder: Path | None) -> Home:
    """The garden that is kept.

    Raises:
        NoStore: there is none.
    """
    place = folder or data_folder()
    home = find_home(services().open_store(place)) if place.is_dir() else None
    if home is None:
        raise NoStore(place=str(place), remedy=NO_GARDEN)
    return home


def _found(book: Spreadsheet, now: GardenNow, *, put_over: bool) -> FoundSpreadsheet:
    choices = [Choice(matching=match_columns(one), put_over=put_over) for one in book.sheets]
    found = look_at_spreadsheet(book.sheets, choices, now, services())
    click.echo(found_text(found))
    return found


def _into_store(file: Path, book: Spreadsheet, home: Home, *, keep: bool, put_over: bool) -> None:
    found = _found(book, garden_now(home), put_over=put_over)
    if not found.changes.count:
        click.echo("There is nothing to keep.")
    elif not keep:
        click.echo(f"Nothing is kept yet. Say --keep to keep {_count(found.changes.count, 'row')}.")
    else:
        word = secrets.token_urlsafe(9)
        brought = home.shelf.imports.bring(found.changes, word, file.name)
        click.echo(
            f"Kept: {brought.words}.\nTo take all of it back: halfpail import --take-back={word}"
        )
    _leave(found)


def _into_file(book: Spreadsheet, entry: GardenEntry, to: Path | None, *, put_over: bool) -> None:
    """Write a garden file with the rows in it, beside the one it was read from."""
    open_garden(entry)
    now = GardenNow(
        about=replace(without_text(entry), bags=(), beds=()),
        today=moment_of(None).date(),
        bags=tuple(Kept(key=at, version=0, value=one) for at, one in enumerate(entry.bags)),
        beds=tuple(Kept(key=at, version=0, value=one) for at, one in enumerate(entry.beds)),
    )
    found = _found(book, now, put_over=put_over)
    changes = found.changes
    if changes.events:
        click.echo(NO_LINES)
    if to is None:
        click.echo(
            f"Nothing is written yet. Say --to NEW.toml to write {_count(changes.count, 'row')}."
        )
    else:
        bags = {plain_name(one.name): one for one in entry.bags}
        beds = {plain_name(one.name): one for one in entry.beds}
        bags |= {plain_name(one.value.name): one.value for one in changes.bags}
        beds |= {plain_name(one.value.name): one.value for one in changes.beds}
        new = replace(entry, bags=tuple(bags.values()), beds=tuple(beds.values()))
        write_file(to, services().write_garden(new).encode())
    _leave(found)


def _whole(piece: Piece, folder: Path | None, *, keep: bool) -> None:
    """A whole garden in the place of the present one, or a mix or a plan beside one's own."""
    if isinstance(piece, WholeGarden):
        garden = piece.garden
        counts = (
            _count(len(garden.bags), "bag"),
            _count(len(garden.beds), "bed"),
            _count(len(piece.mixes), "mix", "mixes"),
            _count(len(piece.diary), "line of the diary", "lines of the diary"),
            _count(len(piece.seasons), "plan"),
        )
        click.echo(f"{garden.name}: {', '.join(counts)}.")
        click.echo("It takes the place of the garden you keep.")
    else:
        name = piece.mix.name if isinstance(piece, SharedMix) else piece.name
        click.echo(f"{name}: handed on by another gardener. It is kept beside your own.")
    if not keep:
        click.echo("Nothing is kept yet. Say --keep to keep it.")
    elif isinstance(piece, WholeGarden):
        store = services().open_store(folder)
        home = find_home(store)
        store.put_in_whole(replace(piece, garden=without_text(piece.garden)))
        if home:
            home.put_aside()
        click.echo("Kept. The garden that was there is in the bin." if home else "Kept.")
    else:
        click.echo(f"Kept as {_kept_shared(piece, _home(folder))}.")


def _kept_shared(piece: Piece, home: Home) -> str:
    """The name a mix or a plan is kept under.

    Raises:
        Refusal: the mix does not fit the garden.
    """
    token = secrets.token_urlsafe(9)
    if isinstance(piece, SharedMix):
        fit = fitted(home, piece)
        if fit.why_not:
            raise Refusal(Fault(place="the file", read=piece.mix.name, sentence=fit.why_not))
        return home.shelf.keep_mix(fit.mix, fit.new_bags, token).value.name
    assert not isinstance(piece, WholeGarden)
    taken = [kept.value.name for kept in home.shelf.seasons.all()]
    return home.shelf.seasons.add(fit_plan(piece, taken), token).value.name


def _taken_back(brought: Brought) -> str:
    if not brought.left:
        return "It is taken back; the garden is as it was before."
    return f"It is taken back, but for what was changed since: {', '.join(brought.left)}."


def _count(number: int, one: str, many: str = "") -> str:
    """A number with its word.

    >>> _count(1, "row"), _count(2, "mix", "mixes")
    ('1 row', '2 mixes')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def _leave(found: FoundSpreadsheet) -> None:
    if faulty(found):
        click.get_current_context().exit(SOME_LEFT_OUT)
