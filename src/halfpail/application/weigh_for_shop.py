"""Everything for the shop: what each bag on offer is worth, and the card that prices any other.

Weighed with one mix: more of them take much longer.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from halfpail.application.make_shop_card import ShopCard, make_shop_card
from halfpail.application.ports import Each, SeasonEngine
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
from halfpail.blending.ports import Solver
from halfpail.domain.garden import Garden
from halfpail.domain.season import Unmet


@dataclass(frozen=True, slots=True, kw_only=True)
class ForTheShop:
    """What was found for the shop; nothing where there is no plan."""

    worth: WorthAnswer | None = None
    card: ShopCard | None = None


NOT_WEIGHED = ForTheShop()


def weigh_for_shop(
    garden: Garden,
    engine: SeasonEngine,
    solver: Solver,
    on_bag: Callable[[str], None] | None = None,
    each: Each = map,
) -> ForTheShop:
    """The worth of every bag and of every per cent; `on_bag` is told each bag weighed."""
    garden = replace(garden, preferences=replace(garden.preferences, mixes=1))
    worth = weigh_worth(garden, engine, on_bag=on_bag, each=each)
    card = make_shop_card(garden, engine, solver, on_bag=on_bag, each=each)
    return ForTheShop(
        worth=None if isinstance(worth, Unmet) else worth,
        card=None if isinstance(card, Unmet) else card,
    )
