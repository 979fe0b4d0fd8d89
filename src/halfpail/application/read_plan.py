"""An old plan from what `halfpail season --json` wrote: only its mixes and feedings count."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.findings import Fault, Refusal

MOST = 100_000


def read_plan(written: object) -> SeasonPlan:
    """The plan of a season's JSON; what it cost then is not read, since it may cost else today.

    Raises:
        Refusal: something in it is no plan, with its place.

    >>> plan = read_plan({"season": {"plan": {"stirs": [{"scoops": {"meal": 2}, "rounds": 1}],
    ...     "feedings": [{"plot": "east", "of": 0, "measures": 3}]}}})
    >>> plan.feedings
    (Feeding(plot='east', of=0, measures=3),)
    """
    plan = _table(_table(_table(written, "").get("season"), "season").get("plan"), "season.plan")
    stirs = _lines(plan.get("stirs"), "season.plan.stirs")
    feedings = _lines(plan.get("feedings"), "season.plan.feedings")
    return SeasonPlan(
        stirs=tuple(_stir(one, f"season.plan.stirs[{at}]") for at, one in enumerate(stirs)),
        feedings=tuple(
            _feeding(one, f"season.plan.feedings[{at}]") for at, one in enumerate(feedings)
        ),
        purchases={},
        money=Fraction(0),
        missed=Fraction(0),
        bound=Fraction(0),
        proven_by="nothing yet",
    )


def _stir(written: object, place: str) -> Stir:
    table = _table(written, place)
    scoops = _table(table.get("scoops"), f"{place}.scoops")
    return Stir(
        scoops={str(key): _count(count, f"{place}.scoops.{key}") for key, count in scoops.items()},
        rounds=_count(table.get("rounds"), f"{place}.rounds"),
    )


def _feeding(written: object, place: str) -> Feeding:
    table = _table(written, place)
    plot, of = table.get("plot"), table.get("of")
    if not isinstance(plot, str):
        raise _refused(f"{place}.plot", plot, "The name of a bed is wanted.")
    if isinstance(of, bool) or not isinstance(of, (int, str)):
        raise _refused(f"{place}.of", of, "A mix by its number or a bag by its name is wanted.")
    return Feeding(plot=plot, of=of, measures=_count(table.get("measures"), f"{place}.measures"))


def _table(written: object, place: str) -> Mapping[str, Any]:
    if not isinstance(written, Mapping):
        raise _refused(place or "the file", written, "This is no answer of halfpail season --json.")
    return written


def _lines(written: object, place: str) -> list[object]:
    if not isinstance(written, list):
        raise _refused(place, written, "A list is wanted.")
    return written


def _count(written: object, place: str) -> int:
    if isinstance(written, bool) or not isinstance(written, int) or not 1 <= written <= MOST:
        raise _refused(place, written, f"A whole number from 1 to {MOST} is wanted.")
    return written


def _refused(place: str, read: object, sentence: str) -> Refusal:
    shown = "" if read is None else repr(read)[:60]
    return Refusal(
        Fault(
            place=place,
            read=shown,
            sentence=sentence,
            remedy="Write the plan again with halfpail season GARDEN --json > plan.json.",
        )
    )
