"""`halfpail serve`: the pages, on this machine, and where asked to the home network."""

import sys
import threading
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from halfpail.application.store_trouble import AlreadyRunning, DiskFull, ReadOnly
from halfpail.cli.ears import Ears, home_address, named_address, open_ears
from halfpail.wiring import data_folder, services

PORT = 8765

# A garden's requests are small; what is larger or slower than this is none of them.
LIMITS = {
    "threads": 4,
    "connection_limit": 50,
    "channel_timeout": 60,
    "cleanup_interval": 15,
    "max_request_header_size": 32_768,
    "max_request_body_size": 13_000_000,
}
FIND = "find"


@click.command(
    "serve",
    short_help="Open the pages in your browser.",
    epilog="Example: halfpail serve --no-browser",
)
@click.option(
    "--port",
    type=click.IntRange(1, 65_535),
    default=PORT,
    show_default=True,
    help="Where to listen on this machine.",
)
@click.option("--no-browser", is_flag=True, help="Only say the address.")
@click.option(
    "--lan",
    is_flag=False,
    flag_value=FIND,
    metavar="[ADDRESS]",
    help="Also let devices of your home network in, such as your phone; see above.",
)
@click.option(
    "--folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where the garden is kept, if not in your data folder.",
)
def command(port: int, no_browser: bool, lan: str | None, folder: Path | None) -> None:
    """Serve the pages to this machine and open them; Ctrl-C ends it.

    If the port is taken the next free one is used. If Halfpail runs on this folder already, its
    pages are opened instead.

    With --lan it also listens on this machine's address in the home network. Whoever is in that
    network and has the code shown here can then see and change the whole garden, until you end it.
    A code works once; five wrong ones close the door. What is typed on the other device travels as
    plain text (http), so use it only in a network whose people you trust.
    """
    place = folder or data_folder()
    with open_ears(port, _home(lan)) as ears:
        try:
            with _held(place, ears.address):
                _serve(place, ears, no_browser)
        except AlreadyRunning as other:
            if not other.address:
                raise
            click.echo(f"Halfpail runs on this folder already, at {other.address}")
            if lan:
                click.echo("End it there first to let devices of your home network in.")
            _open(other.address, no_browser)


def _home(lan: str | None) -> str | None:
    if lan is None:
        return None
    return home_address() if lan == FIND else named_address(lan)


@contextmanager
def _held(place: Path, address: str) -> Iterator[None]:
    """The folder held for this server; where nothing can be written it can still be looked at."""
    try:
        held = services().hold(place, address)
    except (ReadOnly, DiskFull):
        yield
        return
    try:
        yield
    finally:
        held.let_go()


def _serve(place: Path, ears: Ears, no_browser: bool) -> None:
    from waitress.server import create_server

    from halfpail.web.start import start_pages

    application = start_pages(place, [ears.home_host] if ears.home_host else [])
    server = create_server(application, sockets=[ears.loopback], ident=None, **LIMITS)
    click.echo(f"Halfpail is at {ears.address} (Ctrl-C ends it)")
    if ears.home:
        _let_in(application, ears)
    sys.stdout.flush()
    _open(ears.address, no_browser)
    server.run()


def _let_in(application: Any, ears: Ears) -> None:
    """Answer the home network by a server of its own, which asks for the code."""
    from waitress.server import create_server

    from halfpail.web.pairing import Pairing, through_home_network

    def show(code: str) -> None:
        click.echo(f"\nTo let one device in, open {ears.home_url} there")
        click.echo(f"and type the code  {code[:4]} {code[4:]}  or point its camera here:\n")
        click.echo(services().terminal_code(f"{ears.home_url}pair?code={code}"))
        sys.stdout.flush()

    click.echo(
        "Whoever is in your home network and has a code can see and change the whole garden."
    )
    click.echo("What they type travels as plain text (http).")
    open_to_home = through_home_network(application, Pairing(on_new_code=show))
    server = create_server(open_to_home, sockets=[ears.home], ident=None, **LIMITS)
    threading.Thread(target=server.run, daemon=True).start()


def _open(address: str, no_browser: bool) -> None:
    if not no_browser:
        webbrowser.open(address)
