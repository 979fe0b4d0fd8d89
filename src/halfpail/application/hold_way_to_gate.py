"""A way to feed unknown ground before the gate: what breaks a limit is cut, and the reason told."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

from halfpail.application.feed_ground import Limits, Portion, Way, way_of
from halfpail.application.pass_gate import (
    breach_notice,
    counted,
    share_let_through,
    together,
    year_breaches,
)
from halfpail.domain.safe_gate import BedFacts, Breach, Dose
from halfpail.findings import Notice, Severity
from halfpail.quantities.units import System

NONE = Fraction(0)

DoseOf = Callable[[Portion], Dose]


def hold_way_to_gate(way: Way, limits: Limits, dose_of: DoseOf) -> tuple[Way, tuple[Breach, ...]]:
    """The way with every portion that breaks a hard limit cut to it, and what was broken.

    Of the ground nothing is known: no pH, no soil test, plants on it; it loses phosphorus as the
    limits say.
    """
    bed = BedFacts(
        usable_n_aim_kg_per_m2=limits.n.aim or limits.n.most,
        p2o5_removed_kg_per_m2=limits.p2o5_loss[1],
    )
    found: list[Breach] = []
    while broken := _broken(way, bed, dose_of):
        found.append(broken[0])
        share = share_let_through(bed, broken[0])
        way = way_of(tuple(_cut(way, broken[0], share, dose_of)), limits)
    return way, tuple(found)


def way_notices(name: str, found: tuple[Breach, ...], system: System) -> Iterator[Notice]:
    """A stop for each limit that a way was cut to."""
    for breach in found:
        said = breach_notice(breach, system)
        sentence = f"{name}: cut to the limit. {said.sentence}"
        yield Notice(severity=Severity.STOP, sentence=sentence, citation=said.citation)


def _broken(way: Way, bed: BedFacts, dose_of: DoseOf) -> tuple[Breach, ...]:
    planned = together(dose_of(portion) for portion in way.portions)
    return year_breaches(bed, planned, doses=way.doses)


def _cut(way: Way, breach: Breach, share: Fraction, dose_of: DoseOf) -> Iterator[Portion]:
    """The portions that bring the limited stuff, cut to a share; of which none is left, none."""
    of = counted(breach.limit.of)
    for portion in way.portions:
        brings = dose_of(portion).amounts.get(of, NONE) > 0
        rate = portion.rate_kg_per_m2 * (share if brings else 1)
        if rate:
            said = f"the hard limit: {breach.limit.sentence}"
            because = said if brings else portion.stopped_by
            yield replace(portion, rate_kg_per_m2=rate, stopped_by=because)
