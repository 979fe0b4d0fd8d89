"""Whether a garden can be planned for as it is."""

from halfpail.application.open_garden import open_garden
from halfpail.findings import Refusal
from halfpail.web.forms.fields import said
from halfpail.web.home import Home


def why_not(home: Home) -> tuple[str, ...]:
    """Why the garden cannot be planned for as it is; nothing where it can."""
    entry = home.shelf.garden()
    if not entry.bags or not any(bed.crop or bed.crops for bed in entry.beds):
        return ("A plan needs at least one bag, and one bed with its crop.",)
    try:
        open_garden(entry)
    except Refusal as refusal:
        return tuple(f"{fault.place}: {said(fault)}" for fault in refusal.faults)
    return ()
