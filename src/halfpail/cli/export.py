"""`halfpail export`: a garden, or one mix or plan to hand on, as a file."""

from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import TypeVar

import click

from halfpail.application.export_garden import ExportKind, export_garden
from halfpail.application.gather_garden import gather_kept
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.open_garden import open_garden
from halfpail.application.shared_pieces import SharedMix, SharedPlan, share_mix, share_plan
from halfpail.application.store_trouble import NoStore
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.cli.backup import folder_option
from halfpail.cli.mixes_to_print import plan_or_exit
from halfpail.cli.paper_options import moment_of, write_file
from halfpail.findings import Fault, Refusal
from halfpail.wiring import data_folder, services

Named = TypeVar("Named", MixEntry, SeasonEntry)


@click.command(
    "export",
    short_help="Write a garden, or one mix or plan to hand on, into a file.",
    epilog="Example: halfpail export garden.toml --to garden.xlsx",
)
@click.argument("garden", required=False, type=click.Path(path_type=Path))
@click.option(
    "--to",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The file to write; its ending tells the kind: .xlsx, .zip (CSV), .json or .toml.",
)
@click.option(
    "--as",
    "kind",
    type=click.Choice(["xlsx", "csv", "json", "toml"], case_sensitive=False),
    help="The kind of file, where the ending does not tell.",
)
@click.option("--mix", metavar="NAME", help="Only this kept mix, as a file to hand on.")
@click.option("--plan", metavar="NAME", help="Only this kept plan, as a file to hand on.")
@folder_option
@click.option("--dated", metavar="DATE", help="The day in a spreadsheet; today if not said.")
def command(
    garden: Path | None,
    to: Path | None,
    kind: str | None,
    mix: str | None,
    plan: str | None,
    folder: Path | None,
    dated: str | None,
) -> None:
    """Write a GARDEN file, or without one the garden you keep, into a file of another kind.

    JSON holds everything and can be read again to the last digit; xlsx and CSV are for spreadsheet
    programs; toml is the garden file, without mixes, diary and plans. A mix or a plan to hand on is
    JSON, and does not tell who made it. Of a GARDEN file the plan is worked out, and bears the
    name you give.
    """
    if mix and plan:
        raise click.UsageError("--mix and --plan are two files; ask for one at a time.")
    on = moment_of(dated).date()
    whole = _whole(garden, folder)
    if mix is None and plan is None:
        target, wanted = _target(to, kind, "garden")
        if garden and target.resolve() == garden.resolve():
            raise _refused(str(target), "This is the garden file itself.", "Say another --to.")
        write_file(target, export_garden(services(), whole, wanted, on))
        return
    target, wanted = _target(to, kind, _file_name(mix or plan or ""))
    if wanted is not ExportKind.JSON:
        raise _refused(str(target), "A mix or a plan is handed on as JSON.", "Write --as json.")
    shared: SharedMix | SharedPlan
    if mix is not None:
        shared = share_mix(_named("mix", mix, whole.mixes), whole.garden)
    elif garden is None:
        shared = share_plan(_named("plan", plan or "", whole.seasons))
    else:
        shared = _worked_out(whole, plan or "", on)
    write_file(target, services().json_files.write(shared))


def _whole(garden: Path | None, folder: Path | None) -> WholeGarden:
    if garden:
        entry = services().read_garden(garden)
        open_garden(entry)
        return WholeGarden(garden=without_text(entry))
    place = folder or data_folder()
    if not place.is_dir():
        raise NoStore(place=str(place), remedy="Name a garden file, or check the folder.")
    return gather_kept(services().open_store(place))


def _target(to: Path | None, kind: str | None, name: str) -> tuple[Path, ExportKind]:
    """The file and its kind, each told by the other where it is not said."""
    if kind:
        wanted = ExportKind.CSV if kind == "csv" else ExportKind(kind)
        return to or Path(f"{name}.{wanted.value}"), wanted
    ending = to.suffix.lstrip(".").lower() if to else ExportKind.JSON.value
    if ending not in tuple(ExportKind):
        remedy = "End its name in .xlsx, .zip, .json or .toml, or say --as."
        raise _refused(str(to), "The ending does not tell what kind of file is wanted.", remedy)
    return to or Path(f"{name}.{ending}"), ExportKind(ending)


def _named(kind: str, name: str, kept: tuple[Named, ...]) -> Named:
    found = next((one for one in kept if one.name == name), None)
    if found is None:
        names = [one.name for one in kept]
        near = get_close_matches(name, names, n=1)
        remedy = f"Did you mean {near[0]}?" if near else f"Kept: {', '.join(names) or 'none'}."
        sentence = f"No kept {kind} has this name."
        raise Refusal(Fault(place=f"--{kind}", read=name, sentence=sentence, remedy=remedy))
    return found


def _worked_out(whole: WholeGarden, name: str, on: date) -> SharedPlan:
    """The plan of a garden file under a name."""
    answer = plan_or_exit(open_garden(whole.garden).garden)
    return share_plan(SeasonEntry(name=name, made_on=on, plan=answer.plan, garden=whole.garden))


def _file_name(name: str) -> str:
    """A name as the name of a file: letters, digits and hyphens.

    >>> _file_name("../Leafy greens, 2027!")
    'leafy-greens-2027'
    """
    plain = "".join(letter if letter.isalnum() else " " for letter in name)
    return "-".join(plain.split())[:60].lower() or "shared"


def _refused(read: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place="--to", read=read, sentence=sentence, remedy=remedy))
