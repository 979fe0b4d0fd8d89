"""`halfpail need`: what a bed should get in a season, and what it must not get."""

from collections.abc import Iterable
from difflib import get_close_matches
from pathlib import Path

import click

from halfpail.application.garden_entry import BedEntry, GardenEntry
from halfpail.application.need_of_bed import BedNeed, need_of_bed
from halfpail.cli.as_json import dump
from halfpail.cli.need_report import NamedNeed, bed_text, garden_text, need_document
from halfpail.findings import Fault, Refusal
from halfpail.quantities.units import System
from halfpail.wiring import services

_WORDS: dict[str, object] = {"true": True, "false": False}


@click.command(
    "need",
    short_help="What a bed should get: crops, soil test, credits, phosphorus account.",
    epilog="Examples: halfpail need garden.toml 'North bed' --working; "
    "halfpail need --crop tomato --area '4 x 30 ft' --test extractant='Mehlich-3 ICP' "
    "--test P='42 ppm' --test K='120 ppm'.",
)
@click.argument("garden", type=click.Path(path_type=Path), required=False)
@click.argument("bed", required=False)
@click.option("--crop", "crops", multiple=True, help="A crop, or a group; may be given again.")
@click.option("--area", metavar="AREA", help="The bed, such as 4 x 30 ft.")
@click.option("--container", metavar="VOLUME", help="Instead: the volume of mix, such as 15 gal.")
@click.option(
    "--test",
    "tests",
    multiple=True,
    metavar="KEY=VALUE",
    help="A line of the soil report, by the keys of the garden file; may be given again.",
)
@click.option(
    "--also",
    multiple=True,
    metavar="KEY=VALUE",
    help="Any other key a bed has in the garden file; may be given again.",
)
@click.option("--units", type=click.Choice(list(System), case_sensitive=False), help="Units.")
@click.option("--working", is_flag=True, help="Show how each number was reached.")
@click.option("--json", "as_data", is_flag=True, help="Answer as JSON.")
def command(
    garden: Path | None,
    bed: str | None,
    units: System | None,
    working: bool,
    as_data: bool,
    **told: tuple[str, ...] | str | None,
) -> None:
    """What beds should get in a season: of a GARDEN file, one BED of it, or told on the line.

    Ranges of usable N, P2O5 and K2O, and where tested Ca, Mg and B, follow from the crops, the soil
    test under its own extractant, what comes of itself, and the bed's phosphorus account.
    """
    if garden is None:
        entry = services().read_bed(_told_bed(told), "bed")
        system = units or System.US
        needs = [("this bed", need_of_bed(entry, system))]
    else:
        _nothing_told(told)
        opened = services().read_garden(garden)
        system = units or opened.preferences.units
        needs = needs_of(opened, bed, system)
    if as_data:
        click.echo(dump([need_document(name, need) for name, need in needs]))
    elif garden is not None and bed is None and not working:
        click.echo(garden_text(needs, system))
    else:
        click.echo("\n\n".join(bed_text(name, need, system, working) for name, need in needs))


def _told_bed(told: dict[str, tuple[str, ...] | str | None]) -> dict[str, object]:
    """A bed told on the line, by the keys of the garden file."""
    crops = told["crops"] or ()
    bed: dict[str, object] = {"name": "this bed", **_pairs(told["also"], "--also")}
    if len(crops) == 1:
        bed["crop"] = crops[0]
    elif crops:
        bed["crops"] = [{"crop": crop, "share": f"1/{len(crops)}"} for crop in crops]
    for option, key in (("area", "size"), ("container", "container")):
        if told[option] is not None:
            bed[key] = told[option]
    if tests := _pairs(told["tests"], "--test"):
        bed["soil_test"] = tests
    return bed


def _pairs(lines: Iterable[str] | None, option: str) -> dict[str, object]:
    found: dict[str, object] = {}
    for line in lines or ():
        key, sign, value = line.partition("=")
        if not sign:
            raise _refusal(option, line, "There is no = in it.", "Write KEY=VALUE: P='42 ppm'.")
        if key.strip() in found:
            raise _refusal(option, line, "This key is given twice.", "Give it once.")
        found[key.strip()] = _WORDS.get(value.strip().casefold(), value.strip())
    return found


def _nothing_told(told: dict[str, tuple[str, ...] | str | None]) -> None:
    if any(told.values()):
        raise _refusal(
            "the line",
            "",
            "A garden file tells its beds itself.",
            "Leave the file out, or put the crop and the soil test into it.",
        )


def needs_of(entry: GardenEntry, bed: str | None, system: System) -> list[NamedNeed]:
    """The needs of one bed by name, or of all.

    Raises:
        Refusal: no bed has that name, or with every fault of the garden.
    """
    wanted = entry.beds if bed is None else (_bed_called(entry, bed),)
    faults = list(entry.faults)
    found: list[tuple[str, BedNeed]] = []
    for one in wanted:
        if not (one.crop or one.crops):
            continue
        try:
            found.append((one.name, need_of_bed(one, system)))
        except Refusal as refusal:
            faults.extend(refusal.faults)
    if faults:
        raise Refusal(*entry.in_order(tuple(faults)))
    return found


def _bed_called(entry: GardenEntry, words: str) -> BedEntry:
    by_name = {bed.name.casefold(): bed for bed in entry.beds}
    if words.casefold() in by_name:
        return by_name[words.casefold()]
    near = get_close_matches(words.casefold(), list(by_name), n=1)
    remedy = f"Did you mean {by_name[near[0]].name}?" if near else "Write a bed's name."
    raise _refusal("bed", words, "No bed has this name.", remedy)


def _refusal(place: str, read: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place=place, read=read, sentence=sentence, remedy=remedy))
