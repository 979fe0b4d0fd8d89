"""The command reference, made from the help of the commands: `python -m halfpail.cli.manual`."""

import click

from halfpail.cli.main import COMMANDS, main

WIDTH = 96

_TOP = """\
# Commands

Made from the help of the commands by `python -m halfpail.cli.manual > docs/cli.md`; a test holds
the two together. Every command that reckons answers in text, shows its working with `--working` and
answers in JSON with `--json`; what prints paper or a calendar writes files and tells their names.
What cannot be right is refused with its place, what was read and how to mend it, and exit code 2;
exit code 1 means that there is no such plan or recipe; 70 is a bug of ours.
"""


def page() -> str:
    """The whole reference as Markdown."""
    settings = {**main.context_settings, "terminal_width": WIDTH}
    top = click.Context(main, info_name="halfpail", **settings)
    sections = [_section("halfpail", main, top)]
    for name in COMMANDS:
        command = main.get_command(top, name)
        assert command is not None
        context = click.Context(command, info_name=name, parent=top, terminal_width=WIDTH)
        sections.append(_section(f"halfpail {name}", command, context))
    return "\n".join((_TOP, *sections))


def _section(title: str, command: click.Command, context: click.Context) -> str:
    return f"## {title}\n\n```\n{command.get_help(context)}\n```\n"


if __name__ == "__main__":
    click.echo(page(), nl=False)
