"""What the page of all bags shows: prices by weight and by what they supply, in any order."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from halfpail.application.garden_entry import BagEntry
from halfpail.application.group_same_stuff import SameStuff, group_same_stuff
from halfpail.application.kept import Kept
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

Price = Callable[[PriceView], Fraction | None]
ORDERS: dict[str, tuple[str, Price]] = {
    "price": ("its weight", lambda view: view.per_kg),
    "n": ("its N", lambda view: view.per_kg_of.get(Nutrient.N)),
    "p2o5": ("its P2O5", lambda view: view.per_kg_of.get(Nutrient.P2O5)),
    "k2o": ("its K2O", lambda view: view.per_kg_of.get(Nutrient.K2O)),
    "usable": ("its usable N", lambda view: view.per_kg_usable_n),
}


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


def bags_page(home: Home, look: Look, by: str) -> BagsPage:
    """The bags of a garden, the cheapest first by one of `ORDERS`, else as they were added."""
    rows = [_row(kept, home, look) for kept in home.shelf.bags.all()]
    if by in ORDERS:
        price = ORDERS[by][1]
        rows.sort(key=lambda row: _last_if_none(price(row.view) if row.view else None))
    unit = _unit(look)
    return BagsPage(
        by=by if by in ORDERS else "",
        orders=(("", "as added"), *((key, words) for key, (words, _) in ORDERS.items())),
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


def _row(kept: Kept[BagEntry], home: Home, look: Look) -> BagRow:
    filled = filled_bag(kept.value, home.about)
    bag = filled.bag if filled else None
    view = price_view(bag) if bag else None
    return BagRow(kept=kept, bag=bag, view=view, cells=tuple(_cells(kept.value, bag, view, look)))


def _cells(entry: BagEntry, bag: Bag | None, view: PriceView | None, look: Look) -> Iterator[str]:
    yield grade_text(bag.label.analysis.grade) if bag else "label not read"
    yield show_mass(entry.bag_kg, look.system) if entry.bag_kg else ""
    yield "" if entry.price is None else show_money(entry.price, look.currency)
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
