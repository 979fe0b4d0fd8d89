"""What the page of all bags shows: prices by weight and by what they supply, in any order."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from halfpail.application.garden_entry import BagEntry
from halfpail.application.group_same_stuff import SameStuff, group_same_stuff
from halfpail.application.kept import Kept
from halfpail.application.weigh_worth import BagWorth
from halfpail.application.word_mix import grade_text
from halfpail.domain.matter import Nutrient
from halfpail.domain.price import PriceView, price_view
from halfpail.domain.stock import Bag
from halfpail.quantities.showing import show_mass, show_money, show_price_per_mass
from halfpail.quantities.units import System, size_of
from halfpail.web.at_hand import filled_bag
from halfpail.web.home import Home
from halfpail.web.look import Look
from halfpail.web.pages.bag import p2o5_of_bag
from halfpail.web.pages.bags_worth import HEADINGS, WeighingSheet, worth_cells
from halfpail.web.weigh_bags import LastWorth

Price = Callable[[PriceView], Fraction | None]
ORDERS: dict[str, tuple[str, Price]] = {
    "price": ("weight", lambda view: view.per_kg),
    "n": ("N", lambda view: view.per_kg_of.get(Nutrient.N)),
    "p2o5": ("P2O5", lambda view: view.per_kg_of.get(Nutrient.P2O5)),
    "k2o": ("K2O", lambda view: view.per_kg_of.get(Nutrient.K2O)),
    "usable": ("usable N", lambda view: view.per_kg_usable_n),
}


WORTH = "worth"


@dataclass(frozen=True, slots=True, kw_only=True)
class BagRow:
    """A bag in cells; without a bag where its label cannot be read."""

    kept: Kept[BagEntry]
    bag: Bag | None
    view: PriceView | None
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BagsPage:
    """Every bag, the groups of the same stuff, and the bin."""

    by: str
    orders: tuple[tuple[str, str], ...]
    headings: tuple[str, ...]
    rows: tuple[BagRow, ...]
    same: tuple[str, ...]
    bin: tuple[Kept[BagEntry], ...]
    weighing: WeighingSheet | None = None


def bags_page(home: Home, look: Look, by: str) -> BagsPage:
    """The bags of a garden, the cheapest first by one of `ORDERS`, else as they were added."""
    rows = [_row(kept, home, look) for kept in home.shelf.bags.all()]
    if by in ORDERS:
        price = ORDERS[by][1]
        rows.sort(key=lambda row: _last_if_none(price(row.view) if row.view else None))
    unit = _unit(look)
    return BagsPage(
        by=by if by in ORDERS else "",
        orders=_orders(),
        headings=(
            *("bag", "grade", "weight", "price", "in the shed"),
            *(f"a {unit}", f"a {unit} N", f"a {unit} P2O5", f"a {unit} K2O"),
            f"a {unit} usable N",
            "P2O5 with 0.1 usable N",
        ),
        rows=tuple(rows),
        same=tuple(_same_words(group, look) for group in _groups(rows)),
        bin=home.shelf.bags.bin(),
    )


def worth_page(home: Home, look: Look, last: LastWorth | None, sheet: WeighingSheet) -> BagsPage:
    """The bags by what they were found to be worth, the most first; those not weighed last."""
    answer = last.found.worth if last else None
    worths = {worth.bag: worth for worth in answer.bags} if answer else {}
    rows: list[tuple[BagWorth | None, BagRow]] = []
    for kept in home.shelf.bags.all():
        filled = filled_bag(kept.value, home.about)
        bag = filled.bag if filled else None
        worth = worths.get(bag.key) if bag else None
        cells = tuple(_first_cells(kept.value, bag, look))
        if answer:
            cells += worth_cells(worth, answer, look) if worth else ("not weighed", "", "", "")
        rows.append((worth, BagRow(kept=kept, bag=bag, view=None, cells=cells)))
    rows.sort(key=lambda pair: -pair[0].worth_per_kg if pair[0] else Fraction(1))
    return BagsPage(
        by=WORTH,
        orders=_orders(),
        headings=("bag", "grade", "weight", "price", *(HEADINGS if answer else ())),
        rows=tuple(row for _, row in rows),
        same=(),
        bin=home.shelf.bags.bin(),
        weighing=sheet,
    )


def _orders() -> tuple[tuple[str, str], ...]:
    cheapest = ((key, f"cheapest by {words}") for key, (words, _) in ORDERS.items())
    return (("", "as added"), *cheapest, (WORTH, "most worth here"))


def _row(kept: Kept[BagEntry], home: Home, look: Look) -> BagRow:
    filled = filled_bag(kept.value, home.about)
    bag = filled.bag if filled else None
    view = price_view(bag) if bag else None
    return BagRow(kept=kept, bag=bag, view=view, cells=tuple(_cells(kept.value, bag, view, look)))


def _first_cells(entry: BagEntry, bag: Bag | None, look: Look) -> Iterator[str]:
    yield grade_text(bag.label.analysis.grade) if bag else "label not read"
    yield show_mass(entry.bag_kg, look.system) if entry.bag_kg else ""
    yield "" if entry.price is None else show_money(entry.price, look.currency)


def _cells(entry: BagEntry, bag: Bag | None, view: PriceView | None, look: Look) -> Iterator[str]:
    yield from _first_cells(entry, bag, look)
    yield show_mass(entry.shed_kg, look.system) if entry.shed_kg else ""
    for _, price in ORDERS.values():
        found = price(view) if view else None
        yield "" if found is None else show_money(found * size_of(_unit(look)), look.currency)
    yield p2o5_of_bag(bag) if bag else ""


def _unit(look: Look) -> str:
    return "lb" if look.system is System.US else "kg"


def _last_if_none(price: Fraction | None) -> tuple[bool, Fraction]:
    return price is None, price or Fraction(0)


def _groups(rows: Sequence[BagRow]) -> tuple[SameStuff, ...]:
    in_order = sorted((row for row in rows if row.bag), key=lambda row: row.kept.key)
    return _same_stuff(tuple(row.bag for row in in_order if row.bag))


@lru_cache(maxsize=8)
def _same_stuff(bags: tuple[Bag, ...]) -> tuple[SameStuff, ...]:
    """Every bag is held against every other, so it is done once for a list."""
    return group_same_stuff(bags)


def _same_words(group: SameStuff, look: Look) -> str:
    words = f"{', '.join(group.bags)}: {group.same_in}"
    spread, of = (group.by_usable_n, " of usable N") if group.by_usable_n else (group.by_weight, "")
    if spread is None:
        return f"{words}."
    low, high = (
        show_price_per_mass(price, look.currency, look.system)
        for price in (spread.lowest_price_per_kg, spread.highest_price_per_kg)
    )
    return f"{words}; {low} to {high}{of}, the cheapest is {group.cheapest}."
