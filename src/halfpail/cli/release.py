"""`halfpail release`: how the nitrogen of a material or a bag comes through the season."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction

import click

from halfpail.application.show_release import ReleaseAnswer, ReleaseQuestion, show_release
from halfpail.application.warm_soil import WarmthQuestion, celsius_of
from halfpail.cli import as_json, printing
from halfpail.cli.frost_options import read_frost
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Notice, Severity
from halfpail.quantities.dates import day_words, read_date
from halfpail.quantities.reading import read_length_m, read_number
from halfpail.quantities.showing import show_percent
from halfpail.quantities.temperature import read_temperature_c, show_temperature, temperatures_of
from halfpail.quantities.units import System
from halfpail.reference.defaults import default


@click.command(
    "release",
    short_help="How the nitrogen of a material comes through the season.",
    epilog="Example: halfpail release 'feather meal' --last-frost 2027-05-10 "
    "--first-frost 2027-10-01",
)
@click.argument("material")
@click.option("--last-frost", metavar="DATE", help="Average last frost of spring, with its year.")
@click.option("--first-frost", metavar="DATE", help="Average first frost of the autumn after it.")
@click.option("--months", metavar="MEANS", help="Twelve mean air temperatures: 24, 27, ... 28 F.")
@click.option("--soil", metavar="TEMPERATURE", help="One soil temperature throughout: 68 F.")
@click.option("--depth", metavar="LENGTH", help="How deep it lies, such as 4 in.")
@click.option("--spread", metavar="DATE", help="When it is spread; the last frost if not said.")
@click.option("--until", metavar="DATE", help="When to stop; the first frost if not said.")
@click.option("--ph", help="Soil pH, for the phosphorus of bone and rock.")
@click.option(
    "--units",
    type=click.Choice(["US", "metric"], case_sensitive=False),
    default="US",
    show_default=True,
    help="Units of the answer.",
)
@click.option("--working", "show_working", is_flag=True, help="Show how each number is reached.")
@click.option("--json", "json_wanted", is_flag=True, help="Answer as JSON.")
def command(
    material: str, units: str, show_working: bool, json_wanted: bool, **typed: str | None
) -> None:
    """How much of the nitrogen has come, week by week.

    MATERIAL is a name such as feather meal, or a label such as 4-4-4. The warmth of the soil
    follows from the frost dates, from twelve monthly means of the air, or is one temperature.
    Where a date is missing, usual frost dates stand in, and the answer says so.
    """
    frost = read_frost(typed["last_frost"], typed["first_frost"])
    guessed = _guess(typed) if frost is None else None
    answer = show_release(_question(material, typed, frost or guessed))
    if guessed:
        answer = replace(answer, notices=(_of_guess(guessed), *answer.notices))
    click.echo(as_json.dump(answer) if json_wanted else _page(answer, System(units), show_working))


def _guess(typed: dict[str, str | None]) -> FrostDates | None:
    """Usual frost dates of this year, where something hangs on them."""
    warmth_told = typed["soil"] is not None or typed["months"] is not None
    if warmth_told and typed["spread"] is not None and typed["until"] is not None:
        return None
    told = typed["spread"] or typed["until"]
    year = read_date(told, "--spread").year if told else datetime.now(UTC).year
    last, first = (
        date(year, 1, 1) + timedelta(days=int(default(key).value))
        for key in ("usual_last_frost", "usual_first_frost")
    )
    return FrostDates(last=last, first=first)


def _of_guess(frost: FrostDates) -> Notice:
    last, first = day_words(frost.last), day_words(frost.first)
    return Notice(
        severity=Severity.CAUTION,
        sentence=f"Nobody told the frost dates of your place, so {last} and {first} stand in. "
        "Write your own: --last-frost 2027-05-10 --first-frost 2027-10-01.",
        citation=default("usual_last_frost").citation,
    )


def _question(
    material: str, typed: dict[str, str | None], frost: FrostDates | None
) -> ReleaseQuestion:
    ph = typed["ph"]
    return ReleaseQuestion(
        words=material,
        warmth=_warmth(typed, frost),
        spread=_date(typed["spread"], "--spread", frost.last if frost else None),
        until=_date(typed["until"], "--until", frost.first if frost else None),
        soil_ph=None if ph is None else read_number(ph, "--ph"),
    )


def _warmth(typed: dict[str, str | None], frost: FrostDates | None) -> WarmthQuestion:
    soil, months, depth = typed["soil"], typed["months"], typed["depth"]
    return WarmthQuestion(
        steady_c=None if soil is None else float(read_temperature_c(soil, "--soil")),
        months_c=None if months is None else _months(months),
        frost=frost,
        depth_m=None if depth is None else float(read_length_m(depth, "--depth")),
    )


def _date(typed: str | None, place: str, usual: date | None) -> date:
    if typed is not None:
        return read_date(typed, place)
    assert usual, "where a date is missing frost dates stand in"
    return usual


def _months(typed: str) -> tuple[float, ...]:
    """Twelve temperatures on one line; a unit at the end holds for all."""
    return tuple(float(read_temperature_c(words, "--months")) for words in temperatures_of(typed))


def _page(answer: ReleaseAnswer, system: System, show_working: bool) -> str:
    parts = [printing.heading(f"Nitrogen of {answer.name}"), _table(answer, system)]
    parts += [printing.paragraph(line) for line in _lines(answer)]
    if answer.notices:
        parts.append(printing.notices(answer.notices))
    if show_working:
        parts.append(f"{printing.heading('Working')}\n{printing.working(answer.working)}")
    return "\n\n".join(parts)


def _table(answer: ReleaseAnswer, system: System) -> str:
    rows = [
        (
            week.on.isoformat(),
            show_temperature(celsius_of(week.soil_c), system),
            _percent(week.came_share),
        )
        for week in answer.weeks
    ]
    return printing.table(("date", "soil", "has come"), rows)


def _lines(answer: ReleaseAnswer) -> list[str]:
    last = answer.weeks[-1]
    half = "not by then" if answer.half_on is None else f"on {answer.half_on.isoformat()}"
    lines = [
        f"By {last.on.isoformat()} {_percent(last.came_share)} of all its nitrogen has come; "
        f"half of it {half}."
    ]
    if answer.later is not None:
        years = ", ".join(show_percent(100 * share) for share in answer.later.years)
        cited = printing.cited(answer.later.citation)
        lines.append(f"Its organic nitrogen, year by year, by a published series: {years}{cited}.")
    if answer.phosphorus is not None and answer.usable_p2o5_share is not None:
        usable = show_percent(100 * answer.usable_p2o5_share, 0)
        cited = printing.cited(answer.phosphorus.citation)
        lines.append(
            f"In the first year a crop gets about {usable} of {answer.phosphorus.of_what} at "
            f"this pH{cited}."
        )
    return lines


def _percent(share: float) -> str:
    return show_percent(Fraction(round(share * 1000), 10), 0)
