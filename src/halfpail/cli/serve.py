"""`halfpail serve`: the pages, on this machine only."""

import socket
import sys
import webbrowser
from contextlib import closing
from pathlib import Path

import click

from halfpail.wiring import data_folder

LOOPBACK = "127.0.0.1"
PORT = 8765
PORTS_TRIED = 20

# A garden's requests are small; what is larger or slower than this is none of them.
LIMITS = {
    "threads": 4,
    "connection_limit": 50,
    "channel_timeout": 60,
    "cleanup_interval": 15,
    "max_request_header_size": 32_768,
    "max_request_body_size": 13_000_000,
}


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
    "--folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where the garden is kept, if not in your data folder.",
)
def command(port: int, no_browser: bool, folder: Path | None) -> None:
    """Serve the pages to this machine and open them; Ctrl-C ends it.

    If the port is taken the next free one is used.
    """
    from waitress.server import create_server

    from halfpail.web.start import start_pages

    with closing(bound(port)) as ear:
        address = f"http://{LOOPBACK}:{ear.getsockname()[1]}/"
        application = start_pages(folder or data_folder())
        server = create_server(application, sockets=[ear], ident=None, **LIMITS)
        click.echo(f"Halfpail is at {address} (Ctrl-C ends it)")
        sys.stdout.flush()
        if not no_browser:
            webbrowser.open(address)
        server.run()


def bound(port: int) -> socket.socket:
    """A socket of this machine only, on this port or the next one that is free."""
    for number in (*range(port, min(port + PORTS_TRIED, 65_536)), 0):
        ear = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if sys.platform != "win32":
            ear.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            ear.bind((LOOPBACK, number))
            ear.listen()
        except OSError:
            ear.close()
            continue
        return ear
    raise click.ClickException("There is no free port on this machine.")
