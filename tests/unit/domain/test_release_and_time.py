"""Release, soil warmth, uptake and dates against published figures; each row names its source."""

import csv
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from math import exp
from pathlib import Path

import pytest

from halfpail.domain.cover_crop import plant_available
from halfpail.domain.decay_series import released_this_year
from halfpail.domain.frost_calendar import FrostDates, planting_window
from halfpail.domain.kinetics import (
    activation_energy_kj_per_mol,
    arrhenius_rate,
    half_life,
    pace,
    q10_between,
    released,
)
from halfpail.domain.manure_interval import Contact, Treatment, too_soon
from halfpail.domain.nitrate_test import NitrateLine, SideDress, nitrate_nitrogen, read_nitrate_test
from halfpail.domain.release import ReleaseCurve, released_at
from halfpail.domain.soil_temperature import YearWave, damping_depth_m, soil_temperature_c
from halfpail.domain.uptake import Habit, Stages, half_way_day, taken_up
from halfpail.reference.crop_calendar import maturities, planting_rule
from halfpail.reference.decay_series import cover_crop_line, decay_series
from halfpail.reference.defaults import default
from halfpail.reference.manure_intervals import manure_wait
from halfpail.reference.release import release_kinds, release_of
from halfpail.reference.soil_heat import soils_by_heat
from halfpail.reference.table_units import table_unit

EXAMPLES = Path(__file__).parents[2] / "examples" / "release_and_time.csv"
LB_PER_TON = table_unit("lb_per_ton").size
MEALS = ("feather_meal", "seabird_guano", "fish_meal", "blood_meal")
MEASURED_C = (10, 15, 20, 25)
# Soil whose temperatures were computed, and the spring lettuce of table 11.
GRID = YearWave(mean_c=12, amplitude_c=12, coldest_day=30)
LETTUCE = Stages(initial_days=20, development_days=30, middle_days=15, late_days=10)
APRIL_22 = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))

Inputs = dict[str, str]


def curve_of(material: str) -> ReleaseCurve:
    kind = release_of(material)
    assert kind is not None
    return kind.curve


def came(curve: ReleaseCurve, given: Inputs, at: float | None = None) -> float:
    """Per cent that has come."""
    return 100 * released_at(curve, float(given["days"]), float(given["at"]) if at is None else at)


def mean_over(curve: ReleaseCurve, given: Inputs) -> float:
    return sum(came(curve, given, at) for at in MEASURED_C) / len(MEASURED_C)


def of_organic(given: Inputs) -> float:
    """Per cent of what was not there at once."""
    curve = release_kinds()[given["key"]].curve
    at_once = 100 * curve.at_once_share
    return 100 * (came(curve, given) - at_once) / (100 - at_once)


def plants(given: Inputs) -> Fraction:
    return plant_available(cover_crop_line()[0], Fraction(given["percent"]) / 100)


def plants_share(given: Inputs) -> Fraction:
    return 10_000 * plants(given) / Fraction(given["percent"])


def damping(given: Inputs) -> float:
    (soil,) = (
        one for one in soils_by_heat() if (one.soil, one.state) == (given["soil"], given["state"])
    )
    depth = damping_depth_m(soil.diffusivity_m2_per_s, float(given["period"]))
    return depth * float(given["times"])


def decay(given: Inputs) -> Fraction:
    amounts = [Fraction(one) for one in given["given"].split(",")]
    return released_this_year(decay_series()[given["series"]], amounts)


def allowed(given: Inputs) -> int:
    wait = manure_wait(Contact(given["contact"])).days
    against = too_soon(Treatment.RAW, wait, date(2027, 6, 1), date(2027, 9, 15))
    return int(against is None)


def feeds(given: Inputs) -> int:
    line = default("nitrate_line")
    band = NitrateLine(low_mg_per_kg=line.value, high_mg_per_kg=line.high or line.value)
    return int(read_nitrate_test(Fraction(given["ppm"]), band) is SideDress.FEED)


def window_off(given: Inputs) -> int:
    """Days between our window and the printed one, both ends."""
    rule = planting_rule(given["crop"])
    assert rule is not None
    window = planting_window(rule.offsets, APRIL_22)
    assert window.until is not None
    start, until = date.fromisoformat(given["start"]), date.fromisoformat(given["until"])
    return abs((window.start - start).days) + abs((window.until - until).days)


def maturity_off(given: Inputs) -> int:
    kind = maturities(given["crop"])[0]
    early, late = int(given["early"]), int(given["late"])
    return abs(kind.early_days - early) + abs(kind.late_days - late)


KINDS: dict[str, Callable[[Inputs], Fraction | float]] = {
    "half_life": lambda given: half_life(float(given["rate"])),
    "arrhenius": lambda given: arrhenius_rate(6.14, 2285, float(given["at"])),
    "activation": lambda given: activation_energy_kj_per_mol(float(given["slope"])),
    "q10": lambda given: q10_between(
        *(float(given[key]) for key in ("rate", "at", "other", "other_at"))
    ),
    "released": lambda given: 100 * released(float(given["rate"]), float(given["days"])),
    "paced": lambda given: float(given["rate"]) * pace(float(given["q10"]), float(given["at"]), 25),
    "came": lambda given: came(curve_of(given["material"]), given),
    "mean_over_10_to_25": lambda given: mean_over(curve_of(given["material"]), given),
    "mean_of_meals": lambda given: sum(came(curve_of(one), given) for one in MEALS) / len(MEALS),
    "kind": lambda given: came(release_kinds()[given["key"]].curve, given),
    "organic": of_organic,
    "nitrogen": lambda given: (
        float(given["mass"])
        * (float(given["percent"]) / 100)
        * (mean_over(curve_of(given["material"]), given) / 100)
    ),
    "decay": decay,
    "plants": lambda given: plants(given) / LB_PER_TON,
    "plants_share": plants_share,
    "plants_of": lambda given: plants(given) / LB_PER_TON * Fraction(given["tons"]),
    "soil_temperature": lambda given: soil_temperature_c(
        GRID, float(given["day"]), float(given["depth"]), damping_depth_m(0.5e-6)
    ),
    "damping": damping,
    "amplitude": lambda given: (
        float(given["amplitude"]) * exp(-float(given["depth"]) / damping_depth_m(0.5e-6, 1))
    ),
    "deeper": lambda given: damping_depth_m(0.5e-6) / damping_depth_m(0.5e-6, 1),
    "nitrate_n": lambda given: nitrate_nitrogen(Fraction(given["nitrate"])),
    "nitrate_test": feeds,
    "manure": allowed,
    "uptake_last": lambda given: (
        100 * (1 - taken_up(LETTUCE, Habit.LEAF, LETTUCE.total_days - float(given["days"])))
    ),
    "uptake_half": lambda given: half_way_day(LETTUCE, Habit.LEAF),
    "window": window_off,
    "maturity": maturity_off,
}


def _rows() -> list[dict[str, str]]:
    with EXAMPLES.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _inputs(text: str) -> Inputs:
    return dict(pair.split("=") for pair in text.split(";") if pair)


@pytest.mark.parametrize("row", _rows(), ids=lambda row: row["id"])
def test_published_figure(row: dict[str, str]):
    """The source of each is in its row; printed figures, and what is computed from them."""
    answer = float(KINDS[row["kind"]](_inputs(row["inputs"])))
    assert row["source"] and (row["exact"] or row["printed"])
    if row["exact"]:
        assert abs(answer - float(row["exact"])) <= float(row["tolerance"]) + 1e-9
    if row["printed"]:
        assert abs(answer - float(row["printed"])) <= float(row["printed_tolerance"]) + 1e-9


def test_every_kind_is_used():
    assert {row["kind"] for row in _rows()} == set(KINDS)


def test_no_row_stands_twice():
    names = [row["id"] for row in _rows()]
    assert len(set(names)) == len(names)
