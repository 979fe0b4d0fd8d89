"""The manual page of the command line, made from the commands: python -m tests.rules.commands_page.

It writes docs/commands.md; a test holds the page to what the commands say of themselves.
"""

import click

from halfpail.cli.main import COMMANDS, main
from tests.rules.tree import ROOT

PAGE = ROOT / "docs" / "commands.md"
WIDTH = 96
OPENING = """\
# Commands

What each command says of itself with `--help`. The page is made from the commands; after a change
type `.venv/bin/python -m tests.rules.commands_page`.
"""


def page() -> str:
    """The whole page."""
    context = click.Context(main, info_name="halfpail", terminal_width=WIDTH)
    sections = [_section("halfpail", main.get_help(context))]
    for name in COMMANDS:
        command = main.get_command(context, name)
        if command is not None:
            own = click.Context(command, info_name=name, parent=context, terminal_width=WIDTH)
            sections.append(_section(f"halfpail {name}", command.get_help(own)))
    return "\n".join([OPENING, *sections])


def _section(name: str, text: str) -> str:
    return f"## `{name}`\n\n```text\n{text.rstrip()}\n```\n"


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
