"""`halfpail serve` as it is started: on this machine only, on a port that is free."""

import re
import socket
import subprocess
import sys
from contextlib import closing
from urllib.request import urlopen

import pytest

from halfpail.cli.serve import bound


def test_it_listens_to_this_machine_only():
    with closing(bound(0)) as ear:
        assert ear.getsockname()[0] == "127.0.0.1"


def test_a_port_that_is_taken_is_passed_over():
    with closing(bound(0)) as first:
        taken = first.getsockname()[1]
        with closing(bound(taken)) as second:
            assert second.getsockname()[1] != taken


def test_another_address_of_this_machine_is_not_answered():
    with closing(bound(0)) as ear, pytest.raises(ConnectionRefusedError):
        socket.create_connection(("127.0.0.2", ear.getsockname()[1]), timeout=5)


@pytest.mark.slow
def test_it_says_where_it_is_answers_and_ends(tmp_path):
    folder = tmp_path / "Gärten und mehr"
    command = [sys.executable, "-m", "halfpail", "serve", "--no-browser", "--folder", str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout
        address = re.search(r"http://127\.0\.0\.1:\d+/", server.stdout.readline())
        assert address
        with urlopen(address[0], timeout=30) as page:
            assert page.status == 200
            assert "First answer" in page.read().decode()
        with urlopen(f"{address[0]}static/halfpail/halfpail.css", timeout=30) as sheet:
            assert sheet.headers["Content-Type"].startswith("text/css")
            assert "Access-Control-Allow-Origin" not in sheet.headers
        server.terminate()
        server.stdout.close()
