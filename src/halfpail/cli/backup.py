"""The command that makes a backup of the store, or lists those there are."""

from pathlib import Path

import click

from halfpail.application.kept import StoreFile
from halfpail.cli import as_json
from halfpail.wiring import services

folder_option = click.option(
    "--folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where the garden is kept, if not in your data folder.",
)


@click.command(short_help="Copy everything you keep into one file.")
@click.option(
    "--into",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A file of its own; else beside the store, where the last ten backups stay.",
)
@click.option("--list", "only_list", is_flag=True, help="List the backups there are instead.")
@folder_option
@click.option("--json", "as_data", is_flag=True, help="Answer in JSON.")
def command(into: Path | None, only_list: bool, folder: Path | None, as_data: bool) -> None:
    """Copy the store into one file, also while Halfpail is running.

    Do not copy the store's own file instead: while it is open its last rows stand in another.
    """
    backups = services().backups(folder)
    found = backups.all() if only_list else (backups.make(into),)
    if as_data:
        click.echo(as_json.dump(found))
        return
    if not found:
        click.echo("There is no backup yet.")
    for one in found:
        click.echo(told(one))


def told(one: StoreFile) -> str:
    """A backup in three lines: its file, when it was made, what is in it."""
    lines = [
        str(one.path),
        f"  made {one.made_at.astimezone():%Y-%m-%d %H:%M:%S}, form {one.version} of the store",
        "  " + ", ".join(f"{count} {what}" for what, count in one.counts),
    ]
    if one.loose:
        lines.append(
            "  This is a plain copy. If Halfpail was running then, its last rows are not in it."
        )
    return "\n".join(lines)
