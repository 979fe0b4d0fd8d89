"""What is typed for a label: directions, and for a gift all that the laws ask for."""

from collections.abc import Mapping

from halfpail.application.print_pail_label import Gift
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import read_mass_kg

MOST_LETTERS = 100
_ASKED = {
    "maker": ("who made it", "Write the name that answers for the analysis."),
    "address": ("the maker's address", "Write street and town."),
    "net_weight": ("the net weight", "Write what is in it, such as 10 lb."),
}


def read_gift(maker: str, address: str, net_weight: str, places: Mapping[str, str]) -> Gift | None:
    """The maker, address and net weight of a gift; None where nothing of it is typed.

    A mix that leaves the household is labelled with net weight, guaranteed analysis, and name and
    address of whoever mixed it (rules of New Hampshire, Alabama and Rhode Island). `places` names
    where each of "maker", "address" and "net_weight" was typed.

    Raises:
        Refusal: one of the three is missing, too long, or no weight.

    >>> read_gift("", " ", "", {}) is None
    True
    >>> gift = read_gift("Hill Road Garden Club", "1 Hill Road", "10 lb", {})
    >>> float(gift.net_kg)
    4.5359237
    """
    typed = {"maker": maker, "address": address, "net_weight": net_weight}
    told = {name: " ".join(text.split()) for name, text in typed.items()}
    if not any(told.values()):
        return None
    faults = [_missing(name, places) for name, text in told.items() if not text]
    faults += [_too_long(name, told, places) for name in told if len(told[name]) > MOST_LETTERS]
    if faults:
        raise Refusal(*faults)
    net_kg = read_mass_kg(told["net_weight"], places.get("net_weight", ""))
    return Gift(maker=told["maker"], address=told["address"], net_kg=net_kg)


def read_directions(text: str, place: str) -> str:
    """How much to give, on one line.

    Raises:
        Refusal: it is too long for a label.

    >>> read_directions(" 1 cup per 10 sq ft,  before planting", "")
    '1 cup per 10 sq ft, before planting'
    """
    told = " ".join(text.split())
    if len(told) > MOST_LETTERS:
        raise Refusal(_too_long("directions", {"directions": told}, {"directions": place}))
    return told


def _missing(name: str, places: Mapping[str, str]) -> Fault:
    what, remedy = _ASKED[name]
    sentence = f"A label for a gift also tells {what}."
    return Fault(place=places.get(name, name), read="", sentence=sentence, remedy=remedy)


def _too_long(name: str, told: Mapping[str, str], places: Mapping[str, str]) -> Fault:
    remedy = f"Shorten it to {MOST_LETTERS} letters."
    sentence = "This is too long for a label."
    place = places.get(name, name)
    return Fault(place=place, read=told[name], sentence=sentence, remedy=remedy)
