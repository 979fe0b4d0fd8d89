"""The sockets that the pages listen on: this machine's own, and where asked the home network's."""

import socket
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from ipaddress import IPv4Address

import click

LOOPBACK = "127.0.0.1"
PORTS_TRIED = 20
# An address kept for private networks: asking the way to it sends nothing.
SOMEWHERE_AT_HOME = ("10.255.255.255", 9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ears:
    """Sockets on one port, already listening."""

    loopback: socket.socket
    home: socket.socket | None = None

    @property
    def address(self) -> str:
        """Where this machine finds the pages."""
        return f"http://{LOOPBACK}:{self.loopback.getsockname()[1]}/"

    @property
    def home_host(self) -> str:
        """The address others find this machine at; empty where it does not listen there."""
        return str(self.home.getsockname()[0]) if self.home else ""

    @property
    def home_url(self) -> str:
        """Where another device finds the pages."""
        return f"http://{self.home_host}:{self.loopback.getsockname()[1]}/"


@contextmanager
def open_ears(port: int, home: str | None = None) -> Iterator[Ears]:
    """Ears on this port or the next one that is free; closed with the block."""
    with ExitStack() as opened:
        hosts = (LOOPBACK, home) if home else (LOOPBACK,)
        found = [opened.enter_context(ear) for ear in _bound(hosts, port)]
        yield Ears(loopback=found[0], home=found[1] if home else None)


def home_address() -> str:
    """The address of this machine in the network it is in."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way:
        try:
            way.connect(SOMEWHERE_AT_HOME)
            found = str(way.getsockname()[0])
        except OSError:
            found = LOOPBACK
    if found.startswith(("127.", "0.")):
        raise click.ClickException(
            "This machine seems to be in no network. Name its address if it is: --lan ADDRESS"
        )
    return found


def named_address(text: str) -> str:
    """An address as typed: one of version 4 that others can reach this machine by."""
    try:
        told = IPv4Address(text.strip())
    except ValueError as error:
        raise click.BadParameter("Type four numbers with dots: 192.168.1.20.") from error
    if told.is_unspecified or told.is_multicast or str(told) in (LOOPBACK, "255.255.255.255"):
        raise click.BadParameter("Name the address this machine has in your home network.")
    return str(told)


def _bound(hosts: tuple[str, ...], port: int) -> list[socket.socket]:
    """A socket for each host, all on one port: this one or the next that is free for all."""
    for number in (*range(port, min(port + PORTS_TRIED, 65_536)), 0):
        ears: list[socket.socket] = []
        try:
            for host in hosts:
                taken = ears[0].getsockname()[1] if ears else number
                ears.append(_ear(host, taken))
        except OSError:
            for ear in ears:
                ear.close()
            continue
        return ears
    raise click.ClickException(f"There is no free port at {' and '.join(hosts)} on this machine.")


def _ear(host: str, port: int) -> socket.socket:
    ear = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if sys.platform != "win32":
        ear.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        ear.bind((host, port))
        ear.listen()
    except OSError:
        ear.close()
        raise
    return ear
