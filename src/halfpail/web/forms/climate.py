"""When it freezes in a garden, and how warm it is where somebody knows more than that."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import partial

from django import forms

from halfpail.application.read_frost_dates import read_frost_dates
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Fault, Refusal
from halfpail.quantities.dates import read_date
from halfpail.quantities.reading import read_length_m
from halfpail.quantities.temperature import read_temperature_c, temperatures_of
from halfpail.quantities.units import System
from halfpail.web.forms.fields import WORDS, AmountField, ReadField, said

LAST, FIRST = "climate-last_frost", "climate-first_frost"
MONTHS, SOIL, DEPTH = "climate-months", "climate-soil_temperature", "climate-soil_depth"
FROST = (LAST, FIRST)
MORE = (MONTHS, SOIL, DEPTH)
A_YEAR = 12


def climate_fields(system: System) -> dict[str, forms.Field]:
    """The fields: the frost dates, and what may stand in their place."""
    unit = "F" if system is System.US else "C"
    fields: dict[str, forms.Field] = {
        name: ReadField(
            read_date, label=label, keys=WORDS, required=False, help_text="such as 10 May 2027"
        )
        for name, label in (
            (LAST, "Average last frost of spring"),
            (FIRST, "Average first frost of autumn"),
        )
    }
    fields[MONTHS] = ReadField(
        partial(_read_months, unit=unit),
        label="Twelve monthly means of the air, January first",
        unit=f"°{unit}",
        keys=WORDS,
        required=False,
        help_text="such as 24 27 36 47 58 67 71 69 62 51 40 29 F; a better guess of how warm the "
        "soil is than the frost dates alone",
    )
    fields[SOIL] = ReadField(
        partial(read_temperature_c, unit=unit),
        label="Under glass, instead: one temperature of the soil throughout",
        unit=f"°{unit}",
        keys=WORDS,
        required=False,
        help_text="counts before all else; leave it empty outdoors",
    )
    fields[DEPTH] = AmountField(
        read_length_m,
        label="How deep the food lies",
        unit="in" if system is System.US else "cm",
        required=False,
        help_text="4 inches where nothing is said",
    )
    return fields


def frost_dates(form: forms.Form) -> FrostDates | None:
    """Frost dates that make a season; what does not is said beside the field."""
    last, first = form.cleaned_data.get(LAST), form.cleaned_data.get(FIRST)
    if last and first:
        try:
            return read_frost_dates(last.isoformat(), first.isoformat())
        except Refusal as refusal:
            form.add_error(FIRST, said(refusal.faults[0]))
    elif last or first:
        missing = FIRST if last else LAST
        if missing in form.cleaned_data:
            form.add_error(missing, "Fill in both frost dates, or none.")
    return None


def climate_of(
    form: forms.Form, frost: FrostDates | None, before: WarmthQuestion | None
) -> WarmthQuestion | None:
    """How warm the place is; None where nothing, or no more than the depth, is told.

    What `before` knows and no field asks for stays.
    """
    months, steady, depth = (form.cleaned_data[name] for name in MORE)
    found = replace(
        before or WarmthQuestion(),
        frost=frost,
        months_c=months,
        steady_c=None if steady is None else float(steady),
        depth_m=None if depth is None else float(depth),
    )
    return found if _is_known(found) else None


def check_depth(form: forms.Form) -> None:
    """Say beside the depth that it counts for nothing alone."""
    told = form.cleaned_data
    if told.get(DEPTH) and not any(told.get(name) for name in (*FROST, MONTHS, SOIL)):
        form.add_error(DEPTH, "This counts only with frost dates or temperatures: tell those too.")


def _is_known(told: WarmthQuestion) -> bool:
    known = (told.frost, told.months_c, told.steady_c, told.wave)
    return any(one is not None for one in known)


def climate_words(form: forms.Form, system: System) -> Iterator[tuple[str, str]]:
    """What was typed, under the keys of a garden file, each with the unit that was meant."""
    unit = "F" if system is System.US else "C"
    for name in FROST:
        day: date | None = form.cleaned_data[name]
        if day:
            yield name.replace("-", ".", 1), day.isoformat()
    for number, words in enumerate(temperatures_of(_typed(form, MONTHS), unit), start=1):
        yield f"climate.months[{number}]", words
    for words in temperatures_of(_typed(form, SOIL), unit):
        yield "climate.soil_temperature", words


def _typed(form: forms.Form, name: str) -> str:
    return str(form[name].value() or "")


def _read_months(text: str, unit: str) -> tuple[float, ...]:
    """Twelve means [°C].

    Raises:
        Refusal: one is no temperature, or there are not twelve.
    """
    words = temperatures_of(text, unit)
    means: tuple[Fraction, ...] = tuple(read_temperature_c(one) for one in words)
    if len(means) != A_YEAR:
        sentence = f"There are {len(means)} temperatures here, and a year has twelve months."
        remedy = "Write January to December, parted by spaces."
        raise Refusal(Fault(place="", read=text, sentence=sentence, remedy=remedy))
    return tuple(float(mean) for mean in means)
