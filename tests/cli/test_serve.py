"""`halfpail serve` as it is started: on this machine, on a free port, one for each folder."""

import re
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, OpenerDirector, build_opener, urlopen

import pytest
from click.testing import CliRunner

from halfpail.cli.ears import open_ears
from halfpail.cli.main import main

OTHER_MACHINE = "127.0.0.2"


def command(folder: Path, *more: str) -> list[str]:
    words = ["serve", "--no-browser", "--folder", str(folder), *more]
    return [sys.executable, "-m", "halfpail", *words]


@contextmanager
def started(folder: Path, *more: str) -> Iterator[subprocess.Popen[str]]:
    with subprocess.Popen(command(folder, *more), stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout
        try:
            yield server
        finally:
            server.terminate()
            server.stdout.close()


def read_until(server: subprocess.Popen[str], pattern: str) -> re.Match[str]:
    assert server.stdout
    for line in server.stdout:
        found = re.search(pattern, line)
        if found:
            return found
    raise AssertionError(f"{pattern} was never said")


def test_it_listens_to_this_machine_only():
    with open_ears(0) as ears:
        assert ears.loopback.getsockname()[0] == "127.0.0.1"
        assert ears.home is None


def test_a_port_that_is_taken_is_passed_over():
    with open_ears(0) as first:
        taken = first.loopback.getsockname()[1]
        with open_ears(taken) as second:
            assert second.loopback.getsockname()[1] != taken


def test_a_port_that_is_taken_at_one_address_is_passed_over_at_both():
    with open_ears(0) as first:
        taken = first.loopback.getsockname()[1]
        with open_ears(taken, OTHER_MACHINE) as second:
            ports = {ear.getsockname()[1] for ear in (second.loopback, second.home)}
            assert len(ports) == 1 and taken not in ports


def test_another_address_of_this_machine_is_not_answered():
    with open_ears(0) as ears, pytest.raises(ConnectionRefusedError):
        socket.create_connection((OTHER_MACHINE, ears.loopback.getsockname()[1]), timeout=5)


@pytest.mark.parametrize("typed", ["0.0.0.0", "127.0.0.1", "example.org", "::1", "224.0.0.1"])
def test_only_an_address_others_can_reach_is_taken_for_the_home_network(typed, tmp_path):
    asked = ["serve", "--no-browser", "--folder", str(tmp_path), "--lan", typed]
    assert CliRunner().invoke(main, asked).exit_code == 2
    assert not list(tmp_path.iterdir())


@pytest.mark.slow
def test_it_says_where_it_is_answers_and_ends(tmp_path):
    with started(tmp_path / "Gärten und mehr") as server:
        address = read_until(server, r"http://127\.0\.0\.1:\d+/")
        with urlopen(address[0], timeout=30) as page:
            assert page.status == 200
            assert "First answer" in page.read().decode()
        with urlopen(f"{address[0]}static/halfpail/halfpail.css", timeout=30) as sheet:
            assert sheet.headers["Content-Type"].startswith("text/css")
            assert "Access-Control-Allow-Origin" not in sheet.headers


@pytest.mark.slow
def test_a_second_one_on_the_same_folder_leads_to_the_first(tmp_path):
    with started(tmp_path) as first:
        address = read_until(first, r"http://127\.0\.0\.1:\d+/")[0]
        second = subprocess.run(command(tmp_path), capture_output=True, text=True, timeout=60)
        assert (second.returncode, second.stderr) == (0, "")
        assert second.stdout == f"Halfpail runs on this folder already, at {address}\n"
        restoring = [sys.executable, "-m", "halfpail", "restore", "--yes", "--folder", tmp_path]
        assert subprocess.run(restoring, capture_output=True, timeout=60).returncode == 2
    with started(tmp_path) as third:  # the first has ended: the folder is free again
        assert read_until(third, "Halfpail is at http://127")


@pytest.mark.slow
def test_two_folders_have_a_server_each(tmp_path):
    with started(tmp_path / "one") as first, started(tmp_path / "two") as second:
        ports = {read_until(one, r"127\.0\.0\.1:(\d+)/")[1] for one in (first, second)}
        assert len(ports) == 2


@pytest.mark.slow
def test_the_home_network_is_asked_for_the_code_and_this_machine_is_not(tmp_path):
    with started(tmp_path, "--lan", OTHER_MACHINE) as server:
        here = read_until(server, r"http://127\.0\.0\.1:\d+/")[0]
        there = read_until(server, r"http://127\.0\.0\.2:\d+/")[0]
        code = read_until(server, r"code  (\d{4}) (\d{4})")
        read_until(server, "█▀")
        assert "First answer" in build_opener().open(here, timeout=30).read().decode()
        phone = build_opener(HTTPCookieProcessor(CookieJar()))
        shown = phone.open(f"{there}bags", timeout=30).read().decode()
        assert "Let this device in" in shown and "Bags" not in shown
        assert "not the code" in try_code(phone, there, "00000000")
        assert "First answer" in try_code(phone, there, f"{code[1]} {code[2]}")
        new = read_until(server, r"code  (\d{4}) (\d{4})")
        other = build_opener(HTTPCookieProcessor(CookieJar()))
        assert new[0] != code[0]
        assert "not the code" in try_code(other, there, f"{code[1]}{code[2]}")


def try_code(phone: OpenerDirector, there: str, code: str) -> str:
    page = phone.open(f"{there}pair", timeout=30).read().decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', page)
    assert token
    sent = urlencode({"code": code, "csrfmiddlewaretoken": token[1]}).encode()
    try:
        answer = phone.open(f"{there}pair", sent, timeout=30)
    except HTTPError as refused:
        answer = refused
    with answer:
        return str(answer.read().decode())
