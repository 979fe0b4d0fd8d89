"""The way in: finds the command by name, and turns what goes wrong into plain lines."""

import sys
import traceback
from importlib import import_module
from typing import Any

import click

from halfpail import __version__
from halfpail.cli import printing
from halfpail.findings import Refusal

COMMANDS = (
    "quick",
    "label",
    "mix",
    "recipe",
    "season",
    "need",
    "worth",
    "lime",
    "release",
    "card",
    "label-sheet",
    "handout",
    "calendar",
    "export",
    "import",
    "paper",
    "serve",
    "backup",
    "restore",
    "demo",
)
REFUSED = 2
BROKEN = 70


class Commands(click.Group):
    """A group whose commands live in modules of their own name and load when called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names of the commands, in the order a newcomer meets them."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, or None; only its own module is loaded."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"halfpail.cli.{cmd_name.replace('-', '_')}").command
        return command

    def main(self, *args: Any, **options: Any) -> Any:
        """Run the command; a refusal or a bug ends in plain lines, never in a trace."""
        try:
            return super().main(*args, **options)
        except Refusal as refusal:
            click.echo(printing.refusal(refusal), err=True)
            sys.exit(REFUSED)
        except Exception as error:
            if "--debug" in (options.get("args") or sys.argv):
                traceback.print_exc(file=sys.stderr)
            click.echo(printing.bug(error), err=True)
            sys.exit(BROKEN)


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="halfpail")
@click.option("--debug", is_flag=True, help="After a bug, show the trace for a report.")
def main(debug: bool) -> None:
    """Fertilizer by the scoop, worked out: which bags, which mixes, how much for each bed.

    Start with `halfpail demo` to see a whole garden planned, or with `halfpail quick` and the
    bags you have.
    """
