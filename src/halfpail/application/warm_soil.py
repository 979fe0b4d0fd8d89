"""How warm the soil of a bed is through the year, from what a gardener knows of the place."""

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.soil_temperature import (
    YearWave,
    damping_depth_m,
    day_of_year,
    soil_temperature_c,
    warmer,
    wave_of_frost_dates,
    wave_of_months,
)
from halfpail.findings import Fault, Notice, Refusal, Severity
from halfpail.reference.defaults import Default, default
from halfpail.reference.soil_heat import usual_soil
from halfpail.working import Step, Working


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmthQuestion:
    """What is known: the first of these that is given is used.

    `steady_c` is one temperature of the soil [°C]; `months_c` twelve means of the air [°C];
    `wave` that of the air; `frost` the frost dates. `depth_m` and the soil's
    `diffusivity_m2_per_s` take their usual values where they are None [m, m²/s].
    """

    steady_c: float | None = None
    months_c: tuple[float, ...] | None = None
    wave: YearWave | None = None
    frost: FrostDates | None = None
    depth_m: float | None = None
    diffusivity_m2_per_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilWarmth:
    """The wave at the surface of the soil, the depth looked at, and how it was reached [m]."""

    wave: YearWave
    depth_m: float
    damping_m: float
    notices: tuple[Notice, ...]
    working: Working

    def on(self, day: date) -> float:
        """Mean temperature of a day at the depth [°C]."""
        return soil_temperature_c(self.wave, day_of_year(day), self.depth_m, self.damping_m)

    def days_c(self, start: date, days: int) -> tuple[float, ...]:
        """Means of so many days from a start on [°C]."""
        return tuple(self.on(start + timedelta(days=day)) for day in range(days))


def warm_soil(question: WarmthQuestion) -> SoilWarmth:
    """The warmth of the soil through the year.

    Raises:
        Refusal: nothing is known of the place, or the depth or the soil cannot be.

    >>> steady = warm_soil(WarmthQuestion(steady_c=20.0))
    >>> steady.on(date(2027, 1, 1)) == steady.on(date(2027, 7, 1)) == 20
    True
    """
    depth = question.depth_m
    if depth is None:
        depth = float(default("feeding_depth").value)
    soil = usual_soil()
    diffusivity = question.diffusivity_m2_per_s or soil.diffusivity_m2_per_s
    if depth <= 0:
        raise _refused("depth", str(depth), "The depth must be more than nought.", "Write 4 in.")
    damping = damping_depth_m(diffusivity)
    wave, steps = _wave(question)
    damping_step = Step(
        reason="Depth at which the wave of the year has shrunk to 37 %: root of D x 365 d / pi.",
        sum=f"D = {diffusivity * 1e6:.2f} mm2/s: {damping:.2f} m",
        citation=None if question.diffusivity_m2_per_s else soil.citation,
    )
    return SoilWarmth(
        wave=wave,
        depth_m=depth,
        damping_m=damping,
        notices=_notices(question),
        working=(*steps, damping_step),
    )


def _wave(question: WarmthQuestion) -> tuple[YearWave, list[Step]]:
    """The wave at the surface of the soil, and how it was reached."""
    if question.steady_c is not None:
        steady = YearWave(mean_c=question.steady_c, amplitude_c=0.0, coldest_day=0.0)
        return steady, [Step(reason=f"The soil is taken at {question.steady_c:.1f} °C throughout.")]
    air, step = _air(question)
    warmth = default("air_to_soil")
    soil = warmer(air, float(warmth.value))
    soil_step = Step(
        reason="The soil is a little warmer than the air over the year.",
        sum=f"{air.mean_c:.1f} + {float(warmth.value):.0f} = {soil.mean_c:.1f} °C",
        citation=warmth.citation,
    )
    return soil, [step, soil_step]


def _air(question: WarmthQuestion) -> tuple[YearWave, Step]:
    """The wave of the air, and where it comes from."""
    if question.months_c is not None:
        if len(question.months_c) != 12:
            said = f"{len(question.months_c)} means are given, a year has twelve."
            raise _refused(
                "months", str(len(question.months_c)), said, "Write January to December."
            )
        return _told(wave_of_months(question.months_c), "the twelve monthly means")
    if question.wave is not None:
        return _told(question.wave, "what was typed")
    if question.frost is None:
        said = "Nothing is known of how warm this place is."
        raise _refused(
            "climate", "", said, "Give the frost dates, twelve means, or one temperature."
        )
    frost_day, amplitude = default("frost_day_mean"), default("year_amplitude")
    wave = wave_of_frost_dates(
        question.frost.last,
        question.frost.first,
        float(frost_day.value),
        float(amplitude.value),
    )
    return wave, _frost_step(wave, question.frost, frost_day)


def _told(wave: YearWave, origin: str) -> tuple[YearWave, Step]:
    return wave, Step(reason=f"Warmth of the air through the year, from {origin}.", sum=_said(wave))


def _frost_step(wave: YearWave, frost: FrostDates, frost_day: Default) -> Step:
    return Step(
        reason="Warmth of the air through the year, from the frost dates alone: the middle of the "
        f"{frost.free_days} days without frost is the warmest, and the days of the last and the "
        f"first frost have a mean of {float(frost_day.value):.0f} °C.",
        sum=_said(wave),
        citation=frost_day.citation,
    )


def _said(wave: YearWave) -> str:
    return (
        f"mean {wave.mean_c:.1f} °C, {wave.amplitude_c:.1f} °C to either side, "
        f"coldest on day {wave.coldest_day:.0f} of the year"
    )


def _notices(question: WarmthQuestion) -> tuple[Notice, ...]:
    known = (question.steady_c, question.months_c, question.wave)
    if any(one is not None for one in known):
        return ()
    guess = default("frost_day_mean")
    return (
        Notice(
            severity=Severity.NOTE,
            sentence="The warmth of the soil is guessed from the frost dates; twelve monthly means "
            "of the air would make it better.",
            citation=guess.citation,
        ),
    )


def _refused(place: str, read: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place=place, read=read, sentence=sentence, remedy=remedy))


def celsius_of(temperature_c: float) -> Fraction:
    """A worked temperature as an exact number to a tenth, for showing [°C].

    >>> celsius_of(19.96)
    Fraction(20, 1)
    """
    return Fraction(round(temperature_c * 10), 10)
