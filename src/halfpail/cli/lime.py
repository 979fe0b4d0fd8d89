"""`halfpail lime`: what a bed gets for its pH, calcium and magnesium, and what it must not get."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from halfpail.application.advise_beds import GardenLime, advise_beds, lime_question_called
from halfpail.application.advise_lime import advise_lime
from halfpail.application.explain_lime import lime_working
from halfpail.application.lime_notices import lime_notices
from halfpail.application.lime_question import BedUse, LimeQuestion
from halfpail.application.open_garden import open_garden
from halfpail.cli import printing
from halfpail.cli.as_json import dump
from halfpail.cli.ground_report import lime_text
from halfpail.cli.lime_options import (
    read_buffer,
    read_earlier,
    read_found,
    read_pail_mix,
    read_product,
    read_word,
)
from halfpail.cli.lime_report import lime_document, lime_report
from halfpail.domain.lime_method import Texture
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import read_area_m2, read_length_m, read_number
from halfpail.quantities.units import System
from halfpail.wiring import services

_USES = {
    "most": BedUse.ORDINARY,
    "potatoes": BedUse.POTATOES,
    "acid": BedUse.ACID,
    "container": BedUse.CONTAINER,
}
_TEXTURES = {str(texture): texture for texture in Texture}


@click.command(
    "lime",
    short_help="Lime, ash, sulfur, gypsum for one bed, from its soil test.",
    epilog="Examples: halfpail lime --ph 5.6 --ground '4 x 8 ft' --texture loam; "
    "halfpail lime --ph 5.4 --ground '100 sq ft' --buffer 6.2 --buffer-kind sikora; "
    "halfpail lime garden.toml 'North bed'.",
)
@click.argument("garden", type=click.Path(path_type=Path), required=False)
@click.argument("bed", required=False)
@click.option("--ph", metavar="PH", help="Soil pH in water, from the report.")
@click.option("--ground", metavar="AREA", help="The bed, such as 4 x 8 ft.")
@click.option("--buffer", metavar="NUMBER", help="Buffer pH of the report, or its acidity.")
@click.option(
    "--buffer-kind",
    metavar="KIND",
    help="Which figure that is: mehlich, acidity, adams-evans, smp or sikora.",
)
@click.option("--method", metavar="KEY", help="Another way to read the same buffer test.")
@click.option(
    "--texture", metavar="WORDS", help="sand, sandy loam, loam, clay loam, clay, organic."
)
@click.option("--cec", metavar="NUMBER", help="Cation exchange capacity, meq per 100 g.")
@click.option(
    "--use",
    default="most",
    show_default=True,
    metavar="WORD",
    help="most crops, potatoes in rotation, acid-loving crops only, or container: "
    "most, potatoes, acid, container.",
)
@click.option("--target", metavar="PH", help="Another target pH than the use of the bed asks for.")
@click.option("--depth", metavar="LENGTH", help="How deep it is dug in, such as 6 in.")
@click.option("--lime-given", metavar="RATE", help="Lime given earlier: 5 lb per 100 sq ft.")
@click.option("--months-ago", metavar="NUMBER", help="How long ago that was.")
@click.option("--material", metavar="KEY", help="What is spread: calcitic_lime, wood_ash, ...")
@click.option("--cce", metavar="PERCENT", help="Calcium carbonate equivalent on its bag.")
@click.option("--effective", metavar="PERCENT", help="Effective value on its bag: ENV, ECCE, RNV.")
@click.option("--passing", metavar="LIST", help="Percent through each mesh: 20:98, 60:75, 100:60.")
@click.option(
    "--sieve-rule",
    default="new-york",
    show_default=True,
    metavar="WORD",
    help="Who counts the fineness: new-york, cornell or mississippi.",
)
@click.option("--calcium", metavar="WORD", help="What the soil test says of it: low or enough.")
@click.option(
    "--magnesium",
    metavar="WORD",
    help="low or enough, or the Mehlich-3 figure such as 70 lb per acre.",
)
@click.option("--free-lime", is_flag=True, help="The soil fizzes with vinegar.")
@click.option("--bare", is_flag=True, help="Nothing grows in the bed while it is spread.")
@click.option("--mix", metavar="GRADE", help="A mix with lime in its pail: 4-4-4.")
@click.option("--lime-in-pail", metavar="PERCENT", help="Lime by weight in that mix; else 5.")
@click.option("--mix-rate", metavar="RATE", help="How much of the mix is spread; else 10 lb.")
@click.option(
    "--units",
    type=click.Choice(["US", "metric"], case_sensitive=False),
    default="US",
    show_default=True,
    help="Units of the answer.",
)
@click.option("--working", is_flag=True, help="Show how each number is reached.")
@click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")
def command(
    garden: Path | None, bed: str | None, *, working: bool, as_json: bool, **typed: Any
) -> None:
    """Lime or sulfur to the bed's one target pH; calcium and magnesium where a test asks.

    The beds of a GARDEN file are answered by their soil tests, all or one BED; else the soil test
    is told on the line. With a buffer test of the laboratory the method is named; without one the
    answer is a careful rate by texture, and a new test next year. Wood ash, splits and limits are
    told.
    """
    system = System(typed["units"])
    if garden is None:
        question = _question(typed)
    else:
        opened = open_garden(services().read_garden(garden))
        if bed is None:
            _show_all(advise_beds(opened, system), as_json)
            return
        found = lime_question_called(opened, bed)
        question = replace(found, system=system, planted=not typed["bare"])
    answer = advise_lime(question)
    if as_json:
        click.echo(dump(lime_document(answer, question)))
        return
    click.echo(lime_report(answer, question))
    notices = printing.notices(lime_notices(answer, question))
    click.echo(f"\n{printing.heading('Mind')}\n{notices}")
    if working:
        steps = printing.working(lime_working(answer, question))
        click.echo(f"\n{printing.heading('Working')}\n{steps}")


def _show_all(lime: GardenLime, as_json: bool) -> None:
    click.echo(dump(lime) if as_json else lime_text(lime))


def _question(typed: dict[str, Any]) -> LimeQuestion:
    missing = [f"--{name}" for name in ("ph", "ground") if typed[name] is None]
    if missing:
        raise Refusal(
            *(
                Fault(
                    place=name,
                    read="",
                    sentence="This is needed where no garden file is given.",
                    remedy="Write --ph 5.6 --ground '4 x 8 ft', or a garden file.",
                )
                for name in missing
            )
        )
    return LimeQuestion(
        soil_ph=read_number(typed["ph"], "--ph"),
        area_m2=read_area_m2(typed["ground"], "--ground", "sq ft"),
        use=read_word(typed["use"], "--use", _USES),
        target_ph=_number(typed["target"], "--target"),
        buffer=read_buffer(typed["buffer"], typed["buffer_kind"]),
        method=typed["method"] or "",
        texture=read_word(typed["texture"], "--texture", _TEXTURES) if typed["texture"] else None,
        cec_meq_per_100_g=_number(typed["cec"], "--cec"),
        depth_m=read_length_m(typed["depth"], "--depth", "in") if typed["depth"] else None,
        earlier=read_earlier(typed["lime_given"], typed["months_ago"]),
        product=read_product(typed),
        calcium=read_found(typed["calcium"], "--calcium"),
        magnesium=read_found(typed["magnesium"], "--magnesium", "magnesium_low"),
        free_lime=typed["free_lime"],
        planted=not typed["bare"],
        pail=read_pail_mix(typed["mix"], typed["lime_in_pail"], typed["mix_rate"]),
        system=System(typed["units"]),
    )


def _number(text: str | None, place: str) -> Fraction | None:
    return None if text is None else read_number(text, place)
