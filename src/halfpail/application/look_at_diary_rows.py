"""Rows of a diary read into events: what was done on which day, with the figures of the bags."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from halfpail.application.fill_bag import fill_bag
from halfpail.application.found_rows import FoundRow, GardenNow, Standing, plain_name
from halfpail.application.garden_entry import BagEntry
from halfpail.application.row_cells import RowCells, refused
from halfpail.application.row_words import RowWords
from halfpail.application.sheet_asked import SheetAsked
from halfpail.application.write_diary import BatchDone, FeedingDone, batch_made, bed_fed
from halfpail.domain.bed import Bed
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made, Noted
from halfpail.domain.garden import Garden
from halfpail.domain.stock import Bag
from halfpail.findings import Refusal
from halfpail.quantities.dates import read_date
from halfpail.quantities.reading import read_mass_kg, read_money, read_scoops, read_whole

FIRST_YEAR = 1900
MOST_BAGS = MOST_ROUNDS = 999
MOST_SCOOPS = 2000
MOST_NOTE = 400
BOUGHT, MADE, FED, HARVESTED, NOTED = "bought", "made", "fed", "harvested", "noted"
_DONE: Mapping[str, str] = {
    word: kind
    for kind, words in {
        BOUGHT: "bought, buy, purchase, purchased",
        MADE: "made, made a batch, mixed, batch, stirred",
        FED: "fed, fed a bed, feeding, feed, spread, applied, given, side-dressed",
        HARVESTED: "harvested, harvest, picked",
        NOTED: "noted, note, remark",
    }.items()
    for word in words.split(", ")
}


def look_at_diary(asked: SheetAsked) -> tuple[FoundRow[Event], ...]:
    """The lines of a sheet; one that the diary has already is not told twice."""
    there = Counter(map(_sameness, asked.now.diary))
    book = _Book(now=asked.now, garden=garden_of(asked.now))
    return tuple(_found(asked, row, book, there) for row in asked.rows())


def garden_of(now: GardenNow) -> Garden:
    """The garden as the diary needs it; a bag whose label cannot be read is left out."""
    return Garden(
        name=now.about.name,
        bags=tuple(bag for one in now.bags for bag in _filled(one.value, now)),
        beds=tuple(
            Bed(
                key=one.value.name,
                name=one.value.name,
                area_m2=one.value.area_m2,
                crop=one.value.crop,
                needs=(),
            )
            for one in now.beds
        ),
        tools=now.about.tools,
        preferences=now.about.preferences,
    )


def _filled(entry: BagEntry, now: GardenNow) -> Iterator[Bag]:
    try:
        yield fill_bag(entry, now.about.tools.scoop_l, now.about.elemental_labels)[0]
    except Refusal:
        return


def _found(
    asked: SheetAsked, row: RowWords, book: "_Book", there: Counter[tuple[object, ...]]
) -> FoundRow[Event]:
    faults = list(row.faults)
    value: Event | None = None
    if not faults:
        try:
            value = book.event_of(row)
        except Refusal as refusal:
            faults = [replace(one, place=f"{row.place}.{one.place}") for one in refusal.faults]
    standing = Standing.FAULTY if value is None else Standing.NEW
    if value is not None and there[_sameness(value)]:
        there[_sameness(value)] -= 1
        standing = Standing.SAME
    name = " ".join(str(row.filled.get(key, "")) for key in ("on", "what", "bed")).strip()
    return FoundRow(
        number=row.number,
        name=name,
        standing=standing,
        value=value,
        faults=tuple(map(asked.at_head, faults)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Book:
    """What the lines of a diary may name."""

    now: GardenNow
    garden: Garden

    def event_of(self, row: RowWords) -> Event:
        """The event of a row.

        Raises:
            Refusal: it cannot be so; places are keys of the row.
        """
        cells = RowCells(row.filled)
        what = cells.due("what", "fed")
        kind = _DONE.get(what.casefold())
        if kind is None:
            remedy = "Write bought, made, fed, harvested or noted."
            raise refused("what", what, "This is not one of the things a diary tells.", remedy)
        makers: Mapping[str, Callable[[RowCells, date], Event]] = {
            BOUGHT: self._bought,
            MADE: self._made,
            FED: self._fed,
            HARVESTED: self._harvested,
            NOTED: self._noted,
        }
        event = makers[kind](cells, self._day(cells))
        return replace(event, note=_note(cells))

    def _day(self, cells: RowCells) -> date:
        text = cells.due("on", "2027-05-12")
        on = read_date(text, "on")
        if on > self.now.today:
            raise refused("on", text, "This day is still to come.", "Write the day it was done.")
        if on.year < FIRST_YEAR:
            raise refused("on", text, "This day is too long ago.", "Write the year in full.")
        return on

    def _bought(self, cells: RowCells, on: date) -> Event:
        name = cells.named("bag", "bag", self._bags)
        bag = next(one for one in self.garden.bags if one.name == name)
        bags = read_whole(cells.due("bags", "2"), "bags", 1, MOST_BAGS)
        weight, paid = cells.text("weight"), cells.text("paid")
        bag_kg = read_mass_kg(weight, "weight") if weight else bag.bag_kg
        if bag_kg is None:
            raise refused("weight", "", "The weight of this bag is not known.", "Write it here.")
        cost = self._money(paid, "paid") if paid else bag.price and bags * bag.price
        if cost is None:
            sentence = "The price of this bag is not known."
            raise refused("paid", "", sentence, "Write what was paid for all of them.")
        listed = cells.text("list_price")
        list_price = self._money(listed, "list_price") if listed else bag.list_price
        return Bought(on=on, bag=name, bags=bags, bag_kg=bag_kg, paid=cost, list_price=list_price)

    def _made(self, cells: RowCells, on: date) -> Event:
        mix = cells.named("mix", "mix", self._mixes)
        rounds = read_whole(cells.due("rounds", "1"), "rounds", 1, MOST_ROUNDS)
        done = BatchDone(on=on, mix=mix, scoops=self.now.recipes[mix], rounds=rounds)
        return _in_column("mix", lambda: batch_made(self.garden, done))

    def _fed(self, cells: RowCells, on: date) -> Event:
        bed = cells.named("bed", "bed", self._beds)
        key = "mix" if cells.text("mix") else "bag"
        known = self._mixes if key == "mix" else self._bags
        of = cells.named(key, key, known)
        recipe = self.now.recipes[of] if key == "mix" else None
        one = FeedingDone(on=on, bed=bed, of=of, scoops=Fraction(1), recipe=recipe)
        fed = _in_column(key, lambda: bed_fed(self.garden, one))
        assert isinstance(fed, Fed)
        scoops = self._scoops(cells, fed.mass_kg)
        given = _in_column(key, lambda: bed_fed(self.garden, replace(one, scoops=scoops)))
        return _weighed(given, cells)

    def _scoops(self, cells: RowCells, scoop_kg: Fraction) -> Fraction:
        """How much was given, by scoops or by weight."""
        text, weight = cells.text("scoops"), cells.text("weight")
        if not text and weight:
            return read_mass_kg(weight, "weight") / scoop_kg
        scoops = read_scoops(cells.due("scoops", "2.5"), "scoops")
        if not 0 < scoops <= MOST_SCOOPS:
            sentence = f"Scoops are more than none and at most {MOST_SCOOPS}."
            raise refused("scoops", text, sentence, "Write what was given.")
        return scoops

    def _harvested(self, cells: RowCells, on: date) -> Event:
        bed = cells.named("bed", "bed", self._beds)
        crop = cells.text("crop") or next(one.crop for one in self.garden.beds if one.name == bed)
        if not crop:
            raise refused("crop", "", "Nothing is known to grow there.", "Write the crop.")
        mass_kg = read_mass_kg(cells.due("weight", "12 lb"), "weight")
        return Harvested(on=on, bed=bed, crop=crop, mass_kg=mass_kg)

    def _noted(self, cells: RowCells, on: date) -> Event:
        bed = cells.named("bed", "bed", self._beds) if cells.text("bed") else ""
        return Noted(on=on, note=cells.due("note", "a few words"), bed=bed)

    def _money(self, text: str, place: str) -> Fraction:
        return read_money(text, place, self.now.about.preferences.currency)

    @property
    def _bags(self) -> Mapping[str, str]:
        return {plain_name(one.name): one.name for one in self.garden.bags}

    @property
    def _beds(self) -> Mapping[str, str]:
        return {plain_name(one.name): one.name for one in self.garden.beds}

    @property
    def _mixes(self) -> Mapping[str, str]:
        return {plain_name(name): name for name in self.now.recipes}


def _in_column(key: str, work: Callable[[], Event]) -> Event:
    """The event; what is wrong with it is told of one column."""
    try:
        return work()
    except Refusal as refusal:
        raise Refusal(*(replace(one, place=key) for one in refusal.faults)) from None


def _weighed(event: Event, cells: RowCells) -> Event:
    """A feeding with the weight that was told, where one was; its cost goes with it."""
    weight = cells.text("weight")
    if not weight or not isinstance(event, Fed):
        return event
    mass_kg = read_mass_kg(weight, "weight")
    times = mass_kg / event.mass_kg
    return replace(
        event,
        mass_kg=mass_kg,
        cost=None if event.cost is None else event.cost * times,
        list_cost=None if event.list_cost is None else event.list_cost * times,
    )


def _note(cells: RowCells) -> str:
    note = " ".join(cells.text("note").split())
    if len(note) > MOST_NOTE:
        remedy = "Shorten it, or take two rows for it."
        raise refused("note", note[:40], f"This is longer than {MOST_NOTE} letters.", remedy)
    if not note.isprintable():
        sentence = "There is a letter that cannot be seen."
        raise refused("note", "", sentence, "Delete the note and type it again.")
    return note


def _sameness(event: Event) -> tuple[object, ...]:
    """What two lines share that tell of the same thing; figures of a label may have changed."""
    if isinstance(event, Bought):
        told: tuple[object, ...] = (event.bag, event.bags, event.paid)
    elif isinstance(event, Made):
        told = (event.mix, event.rounds)
    elif isinstance(event, Fed):
        told = (event.bed, event.of, event.scoops)
    elif isinstance(event, Harvested):
        told = (event.bed, event.crop, event.mass_kg)
    else:
        told = (event.bed, event.note)
    return (type(event), event.on, *told)
