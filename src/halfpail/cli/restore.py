"""The command that puts a backup in the place of the store."""

from pathlib import Path

import click

from halfpail.application.kept import StoreFile
from halfpail.application.shelf_ports import Backups
from halfpail.cli import as_json
from halfpail.cli.backup import folder_option, told
from halfpail.wiring import data_folder, services

NOT_RESTORED = 1


@click.command(short_help="Go back to a backup; what is there now is kept.")
@click.argument("backup", required=False, type=click.Path(path_type=Path))
@folder_option
@click.option("--yes", is_flag=True, help="Do not ask.")
@click.option("--json", "as_data", is_flag=True, help="Answer in JSON; needs --yes.")
def command(backup: Path | None, folder: Path | None, yes: bool, as_data: bool) -> None:
    """Put a BACKUP in the place of the store; without one, the newest that is good.

    What is in the backup is shown first. What is in the store now is backed up before, or set aside
    where it is damaged. Stop Halfpail first if it is running.
    """
    if as_data and not yes:
        raise click.UsageError("--json asks nothing, so it needs --yes.")
    place = folder or data_folder()
    backups = services().backups(place)
    held = services().hold(place, "")
    try:
        found = backups.look_at(backup) if backup else _newest(backups)
        if not as_data:
            click.echo(told(found))
        if not yes and not click.confirm("Restore it?"):
            click.get_current_context().exit(NOT_RESTORED)
        kept = backups.restore(found.path)
        services().open_store(place)
    finally:
        held.let_go()
    if as_data:
        click.echo(as_json.dump({"restored": found, "kept": kept}))
        return
    click.echo("It is restored.")
    if kept:
        click.echo(f"What was there before is kept: {kept}")


def _newest(backups: Backups) -> StoreFile:
    found = backups.all()
    if not found:
        raise click.UsageError("There is no good backup in this folder; name a file.")
    return found[0]
