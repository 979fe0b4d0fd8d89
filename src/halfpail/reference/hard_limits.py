"""The hard limits that no default may exceed, from the shipped table."""

from fractions import Fraction
from functools import cache

from halfpail.domain.safe_gate import Case, Given, HardLimit, Per
from halfpail.reference.defaults import default
from halfpail.reference.tables import Row, rows


@cache
def hard_limits() -> tuple[HardLimit, ...]:
    """All hard limits in the order of the table.

    >>> {limit.of for limit in hard_limits()} == set(Given)
    True
    """
    return tuple(_limit(row) for row in rows("hard_limits"))


@cache
def hard_limit(key: str) -> HardLimit:
    """One hard limit.

    Raises:
        KeyError: there is no such limit.

    >>> hard_limit("lime_no_buffer_ph").from_ph
    Fraction(63, 10)
    """
    return {limit.key: limit for limit in hard_limits()}[key]


def _limit(row: Row) -> HardLimit:
    value, of_aim = _value(row)
    return HardLimit(
        key=row.text("key"),
        of=Given(row.text("of")),
        per=Per(row.text("per")),
        value=value,
        when=tuple(Case(word) for word in row.words("when")),
        sentence=row.text("sentence"),
        citation=row.citation(),
        of_aim=of_aim,
        from_ph=row.amount("from_ph"),
    )


def _value(row: Row) -> tuple[Fraction, bool]:
    """The most, and whether it is a multiple of the usable nitrogen aim."""
    if row.text("default"):
        assumed = default(row.text("default"))
        return assumed.value, assumed.unit == "times"
    return row.in_own_unit("value") or Fraction(0), False
