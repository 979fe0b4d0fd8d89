"""docs/cli.md is what the commands say of themselves."""

from pathlib import Path

import click
import pytest

from halfpail.cli.main import COMMANDS, main
from halfpail.cli.manual import page

WRITES_FILES = {"card", "label-sheet", "handout", "calendar", "export", "paper"}
RECKONS_NOTHING = {"serve", "import", "backup", "restore"}
KEPT = Path(__file__).parents[2] / "docs" / "cli.md"


def test_the_reference_is_made_from_the_commands():
    assert KEPT.read_text("utf-8") == page(), "python -m halfpail.cli.manual > docs/cli.md"


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_and_option_has_help(name):
    command = main.get_command(click.Context(main), name)
    assert command is not None and command.help
    options = [one for one in command.params if isinstance(one, click.Option)]
    assert [one.name for one in options if not one.help] == []
    if name in RECKONS_NOTHING | WRITES_FILES:
        return
    assert {"working", "json"} <= {flag.removeprefix("--") for one in options for flag in one.opts}
