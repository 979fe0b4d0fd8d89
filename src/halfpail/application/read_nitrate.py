"""What an in-season nitrate test says of the feedings still to come: skip or feed."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.domain.nitrate_test import NitrateLine, SideDress, read_nitrate_test, within
from halfpail.findings import Notice, Severity
from halfpail.quantities.rounding import shortest
from halfpail.reference.defaults import default


def nitrate_line() -> NitrateLine:
    """The published line, with its two ends [mg NO3-N per kg].

    >>> nitrate_line().high_mg_per_kg
    Fraction(25, 1)
    """
    line = default("nitrate_line")
    return NitrateLine(low_mg_per_kg=line.value, high_mg_per_kg=line.high or line.value)


def skips(nitrate_n_mg_per_kg: Fraction) -> bool:
    """Whether the test says to feed nothing beside the rows [mg NO3-N per kg].

    >>> skips(Fraction(26)), skips(Fraction(12))
    (True, False)
    """
    return read_nitrate_test(nitrate_n_mg_per_kg, nitrate_line()) is SideDress.SKIP


def nitrate_notices(bed: str, nitrate_n_mg_per_kg: Fraction) -> Iterator[Notice]:
    """What the test says, in a sentence, and where sources differ."""
    line, cited = nitrate_line(), default("nitrate_line").citation
    figure = shortest(nitrate_n_mg_per_kg, 1)
    limits = f"{shortest(line.low_mg_per_kg, 0)} to {shortest(line.high_mg_per_kg, 0)}"
    if not skips(nitrate_n_mg_per_kg):
        said = f"{bed}: {figure} mg/kg nitrate nitrogen is below {limits}: feed as planned."
        yield Notice(severity=Severity.NOTE, sentence=said, citation=cited)
        return
    said = f"{bed}: {figure} mg/kg nitrate nitrogen is enough: skip what goes beside the rows."
    yield Notice(severity=Severity.CAUTION, sentence=said, citation=cited)
    if within(nitrate_n_mg_per_kg, line):
        said = f"{bed}: the published line lies between {limits}; test again in two weeks."
        yield Notice(severity=Severity.NOTE, sentence=said, citation=cited)
