"""Whatever is changed in a JSON file, it is opened or refused, and nothing else happens."""

import json
from contextlib import suppress
from datetime import date
from fractions import Fraction
from functools import cache

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as draw

from halfpail.application.fit_shared import fit_mix, mix_of
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.gather_garden import gather_garden
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.open_json import open_json
from halfpail.application.shared_pieces import SharedMix, share_mix, share_plan
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.domain.bed import Content
from halfpail.domain.diary import Bought, Fed, Harvested, Made, Noted, Taken
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.findings import Refusal
from halfpail.quantities.units import System
from halfpail.web.told_season import told_season
from halfpail.wiring import services

GARDEN = without_text(services().read_sample_garden())
ONE = Fraction(1)
DAY = date(2027, 5, 1)
NUMBERS = (0, -1, 10**30, 1.5, -1e300, "-1/3", "0", "1/0", "9999999999/1", "1e5")
WORDS = ("", "x", "\x00", "a\nb", "2027-05-01", "9999-12-31", "fed", "=1", "N" * 5000)
ODD = draw.sampled_from([None, True, *NUMBERS, *WORDS, [], {}, [None], {"x": 1}])


def plan_of(garden: GardenEntry) -> SeasonPlan:
    """A small plan by hand that holds: one mix, and a little of one bag alone."""
    bag = next(one.name for one in garden.bags if one.straight_ok)
    bed = next(one.name for one in garden.beds if one.straight_ok)
    return SeasonPlan(
        stirs=(Stir(scoops={bag: 2}, rounds=3),),
        feedings=(Feeding(plot=bed, of=0, measures=4), Feeding(plot=bed, of=bag, measures=1)),
        purchases={bag: 1},
        money=ONE,
        missed=ONE,
        bound=ONE,
        proven_by="hand",
    )


@cache
def files() -> tuple[bytes, ...]:
    garden = without_text(services().read_sample_garden())
    bag, bed = garden.bags[0].name, garden.beds[0].name
    mix = MixEntry(name="pail", scoops={bag: 2})
    plan = plan_of(garden)
    season = SeasonEntry(name="2027", made_on=DAY, plan=plan, garden=garden)
    diary = (
        Bought(on=DAY, bag=bag, bags=1, bag_kg=ONE, paid=ONE),
        Made(on=DAY, mix="pail", rounds=1, taken=(Taken(bag=bag, scoops=2, mass_kg=ONE),)),
        Fed(
            on=DAY,
            bed=bed,
            of="pail",
            straight=False,
            scoops=ONE,
            mass_kg=ONE,
            holds={Content.K2O: ONE / 9},
        ),
        Harvested(on=DAY, bed=bed, crop="tomato", mass_kg=ONE),
        Noted(on=DAY, note="rain"),
    )
    whole = WholeGarden(garden=garden, mixes=(mix,), diary=diary, seasons=(season,))
    pieces = (whole, share_mix(mix, garden), share_plan(season))
    return tuple(services().json_files.write(piece) for piece in pieces)


@given(draw.data())
@settings(
    max_examples=300,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
def test_one_thing_put_wrong(tmp_path_factory, data):
    """What is opened all the same can be kept and gathered again, or looked at."""
    store = services().open_store(tmp_path_factory.getbasetemp() / "wrong")
    written = json.loads(data.draw(draw.sampled_from(files())))
    inside, odd = written, data.draw(ODD)
    while True:
        steps = sorted(inside) if isinstance(inside, dict) else range(len(inside))
        step = data.draw(draw.sampled_from(list(steps)))
        if not (isinstance(inside[step], dict | list) and inside[step]) or not data.draw(
            draw.integers(0, 9)
        ):
            break
        inside = inside[step]
    inside[step] = odd
    with suppress(Refusal):
        piece = open_json(services(), json.dumps(written).encode())
        if isinstance(piece, WholeGarden):
            key = store.put_in_whole(piece)
            gather_garden(store.gardens.get(key).value, store.shelf(key))
        elif isinstance(piece, SharedMix):
            fit_mix(piece, GARDEN, ())
            mix_of(piece)
        else:
            told_season(piece.garden, piece.plan, System.US)


@given(draw.binary(max_size=60) | draw.text(max_size=60).map(str.encode))
def test_any_bytes(data):
    with suppress(Refusal):
        open_json(services(), data)


def test_the_files_above_are_sound():
    for data in files():
        open_json(services(), data)
