"""A mix before the gate: what of its stuff no ground gets of which nothing is known."""

from collections.abc import Iterator

from halfpail.application.pass_gate import breach_notice, mix_dose, year_breaches
from halfpail.domain.mix import Mix
from halfpail.domain.safe_gate import BedFacts, Dose, Given
from halfpail.findings import Notice, Severity
from halfpail.quantities.showing import show_rate
from halfpail.quantities.units import System
from halfpail.reference.defaults import default

# What depends on how much is spread is held to the gate where it is spread.
_FOOD = (Given.QUICK_N, Given.LABEL_N, Given.P2O5_TOTAL)


def mix_stops(mix: Mix, system: System) -> Iterator[Notice]:
    """A stop for lime, ash, sulfur, boron or magnesium salts beyond a limit at the usual rate.

    The ground is taken as planted and never tested, as long as nobody says more.
    """
    rate = default("pail_mix_rate").value
    dose = mix_dose(mix, rate)
    stuff = Dose(amounts={of: one for of, one in dose.amounts.items() if of not in _FOOD})
    for breach in year_breaches(BedFacts(), stuff):
        said = breach_notice(breach, system)
        sentence = f"Spread at {show_rate(rate, system)} this mix brings too much: {said.sentence}"
        yield Notice(severity=Severity.STOP, sentence=sentence, citation=said.citation)
