"""Raw manure and harvest: which bags it concerns, and the last date they may be spread."""

from collections.abc import Iterable
from datetime import date

from halfpail.application.place_in_season import Stand
from halfpail.domain.manure_interval import Contact, Treatment, too_soon
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Refusal
from halfpail.reference.manure_intervals import manure_wait
from halfpail.reference.materials import material

_CAUTION = "raw_manure"


def may_be_raw(bags: Iterable[Bag]) -> bool:
    """Whether one of the bags holds what may be raw manure."""
    return any(_CAUTION in material(key).cautions for bag in bags for key in bag.materials)


def last_date_for(
    treatment: Treatment, contact: Contact, stand: Stand, earliest: date, place: str
) -> date | None:
    """The last date to spread what may be raw manure; None where nothing stands against it.

    Raises:
        Refusal: it is not known whether it is raw, or raw manure would come too soon.
    """
    if treatment is Treatment.UNKNOWN:
        raise Refusal(
            Fault(
                place=place,
                read="",
                sentence="This may hold raw manure, and raw manure must wait before harvest.",
                remedy="Say whether it is raw, composted or heat-processed; the bag may tell.",
            )
        )
    wait = manure_wait(contact)
    against = too_soon(treatment, wait.days, earliest, stand.harvest)
    if against is not None:
        raise Refusal(
            Fault(
                place=place,
                read=earliest.isoformat(),
                sentence=f"Raw manure goes in at least {wait.days} days before harvest, which is "
                f"on {stand.harvest.isoformat()}.",
                remedy=f"Spread it by {against.spread_by.isoformat()}, or harvest from "
                f"{against.harvest_from.isoformat()} on.",
            )
        )
    if treatment is not Treatment.RAW:
        return None
    latest = too_soon(treatment, wait.days, stand.harvest, stand.harvest)
    return stand.planted if latest is None else min(stand.planted, latest.spread_by)
