"""The bags and tools that the mix pages work on; whoever knows a garden passes its own `Bench`."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse

from halfpail.domain.garden import Preferences, Tools
from halfpail.domain.mix import Part
from halfpail.domain.stock import Bag
from halfpail.findings import Notice
from halfpail.quantities.units import size_of

USUAL_TOOLS = Tools(scoop_l=size_of("cup"), pail_l=5 * size_of("gal"))
USUAL_PREFERENCES = Preferences()
SCOOPS_OF = "scoops of "


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """Bags to mix from, those that have scoops from the start, and what they are mixed with.

    `carried` are the parts of the address that bring these bags along from page to page; `kept`
    says that they lie in a garden of one's own.
    """

    bags: tuple[Bag, ...]
    parts: tuple[Part, ...] = ()
    tools: Tools = USUAL_TOOLS
    preferences: Preferences = USUAL_PREFERENCES
    notices: tuple[Notice, ...] = ()
    carried: tuple[tuple[str, str], ...] = ()
    invented: bool = False
    kept: bool = False

    def notices_of(self, parts: Sequence[Part]) -> tuple[Notice, ...]:
        """What should be known of the bags of a mix; such a notice begins with the bag's name."""
        openings = tuple(f"{part.bag.name}: " for part in parts)
        return tuple(one for one in self.notices if one.sentence.startswith(openings))

    @property
    def carried_query(self) -> str:
        """The bags as the end of an address."""
        return urlencode(self.carried)

    def mix_address(self, parts: Sequence[Part], wish: str = "") -> str:
        """The address of the chalked sum of these parts, with a wished grade beside it."""
        scoops = [(SCOOPS_OF + part.bag.key, str(part.scoops)) for part in parts]
        asked = [*self.carried, *scoops, *([("wish", wish)] if wish else [])]
        return f"{reverse('mixes')}?{urlencode(asked)}"
