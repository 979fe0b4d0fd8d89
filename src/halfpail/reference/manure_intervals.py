"""Least days from raw manure to harvest, from the shipped table."""

from dataclasses import dataclass
from functools import cache

from halfpail.domain.manure_interval import Contact
from halfpail.reference.tables import rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class ManureWait:
    """The least wait [days] for one place of the food, and who says so."""

    days: int
    citation: Citation


@cache
def manure_wait(contact: Contact) -> ManureWait:
    """How long raw manure must lie before harvest.

    >>> manure_wait(Contact.SOIL).days
    120
    """
    row = next(row for row in rows("manure_intervals") if row.text("contact") == contact)
    return ManureWait(days=int(row.needed("least_days")), citation=row.citation())
