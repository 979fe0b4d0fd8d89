"""The cautions that travel with bags, mixes and plans, from the shipped table."""

from dataclasses import dataclass
from functools import cache

from halfpail.findings import Notice, Severity
from halfpail.reference.tables import rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution: the notice people read, and in words when it applies."""

    key: str
    notice: Notice
    applies: str


@cache
def cautions() -> dict[str, Caution]:
    """All cautions by key."""
    found = (
        Caution(
            key=row.text("key"),
            notice=Notice(
                severity=Severity(row.text("severity")),
                sentence=row.text("sentence"),
                citation=row.citation(),
            ),
            applies=row.text("applies"),
        )
        for row in rows("cautions")
    )
    return {caution.key: caution for caution in found}


def caution(key: str) -> Notice:
    """The notice of one caution.

    Raises:
        KeyError: there is no such caution.

    >>> caution("dust").severity
    <Severity.CAUTION: 'caution'>
    """
    return cautions()[key].notice
