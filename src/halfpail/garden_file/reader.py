"""A garden file read into an entry: every fault with its place, none of them the end of it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from fractions import Fraction
from pathlib import Path
from typing import Any

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.findings import Fault, Refusal
from halfpail.garden_file import keys, soil_keys, time_keys
from halfpail.garden_file.key import Key
from halfpail.garden_file.lines import lines_of
from halfpail.garden_file.sense import Typed, sensible, sensible_bag, sensible_bed
from halfpail.garden_file.soil_values import oxide_refusal
from halfpail.garden_file.toml_text import tables_of, text_of
from halfpail.garden_file.typed_words import with_words, words_of
from halfpail.garden_file.values import shown

MOST_OF_A_KIND = 200

_TABLES = ("tools", "preferences", "climate", "bags", "beds")
_BELOW = {
    "crops": soil_keys.CROP,
    "manure": soil_keys.MANURE,
    "years": soil_keys.YEAR,
    "given": time_keys.GIVEN,
}


def read_file(path: Path) -> GardenEntry:
    """Read a garden file; faults that leave the rest readable travel in the entry.

    Raises:
        Refusal: it cannot be opened, is no text, is too long or is no TOML at all.
    """
    return read_text(text_of(path))


def read_text(text: str) -> GardenEntry:
    """Read the text of a garden file; faults that leave the rest readable travel in the entry.

    Raises:
        Refusal: it is no TOML at all.

    >>> [fault.place for fault in read_text("nmae = 'ours'").faults]
    ['nmae', 'tools.scoop', 'tools.pail', 'bags', 'beds']
    """
    tables = tables_of(text)
    reader = _Reader(tables)
    typed = Typed(
        top=reader.fields(tables, keys.TOP, "", beside=_TABLES),
        tools=reader.fields(reader.table(tables, "tools", ""), keys.TOOLS, "tools"),
        preferences=reader.fields(
            reader.table(tables, "preferences", ""), keys.PREFERENCES, "preferences"
        ),
        climate=reader.fields(reader.table(tables, "climate", ""), time_keys.CLIMATE, "climate"),
        bags={
            place: reader.fields(bag, keys.BAG, place) for place, bag in reader.each(tables, "bags")
        },
        beds={place: reader.bed(bed, place) for place, bed in reader.each(tables, "beds")},
    )
    return with_words(sensible(typed, reader.faults, lines_of(text)), tables)


def read_bed(bed: Mapping[str, Any], place: str) -> BedEntry:
    """Read one bed told by the keys of a garden file, without a garden around it.

    Raises:
        Refusal: with every fault found.

    >>> read_bed({"name": "North", "crop": "pea", "size": "50 sq ft"}, "bed").crop
    'pea'
    """
    reader = _Reader({})
    fields = reader.bed(bed, place)
    return sensible_bed(place, fields, reader.faults)


def read_bag(bag: Mapping[str, Any], place: str, currency: str, scoop_l: Fraction) -> BagEntry:
    """Read one bag told by the keys of a garden file, without a garden around it.

    Raises:
        Refusal: with every fault found.

    >>> told = {"name": "Meal", "label": "4-4-4", "weight": "25 lb"}
    >>> read_bag(told, "bag", "USD", Fraction(1)).typed
    {'weight': '25 lb'}
    """
    reader = _Reader({"preferences": {"currency": currency}})
    fields = reader.fields(bag, keys.BAG, place)
    entry = sensible_bag(place, fields, reader.faults, scoop_l)
    return replace(entry, typed=words_of(bag))


class _Reader:
    """Reads table by table, and remembers every fault on the way."""

    def __init__(self, tables: Mapping[str, Any]) -> None:
        self.faults: list[Fault] = []
        liked = tables.get("preferences")
        currency = liked.get("currency", "USD") if isinstance(liked, dict) else "USD"
        self.currency = currency if isinstance(currency, str) and len(currency) == 3 else None

    def fault(self, place: str, read: object, sentence: str, remedy: str) -> None:
        """Remember one fault."""
        self.faults.append(Fault(place=place, read=shown(read), sentence=sentence, remedy=remedy))

    def fields(
        self, table: Mapping[str, Any], known: Sequence[Key], place: str, beside: Sequence[str] = ()
    ) -> dict[str, Any]:
        """What a table says under its known keys; keys in `beside` are read elsewhere."""
        self._unknown(table, [key.name for key in known] + list(beside), place)
        fields: dict[str, Any] = {}
        for key in known:
            at = _under(place, key.name)
            if key.name not in table:
                if key.required:
                    sentence = f"{key.name} is missing."
                    self.fault(at, "", sentence, f"Write {key.name} = {key.example}.")
                continue
            told = {"currency": self.currency} if key.money else {}
            try:
                fields[key.into] = key.read(table[key.name], at, **told)
            except Refusal as refusal:
                self.faults.extend(refusal.faults)
        return fields

    def bed(self, bed: Mapping[str, Any], place: str) -> dict[str, Any]:
        """One bed, with the tables below it: ranges, crops, soil test, manure, earlier years."""
        known = keys.BED_OF_MANY if "crops" in bed else keys.BED
        fields = self.fields(bed, known, place, beside=("need", *_BELOW, "soil_test"))
        needs = self.table(bed, "need", place)
        self._unknown(needs, keys.NUTRIENTS, _under(place, "need"))
        fields["needs"] = {
            nutrient: self.fields(
                self.table(needs, nutrient, _under(place, "need")),
                keys.NEED,
                f"{place}.need.{nutrient}",
            )
            for nutrient in keys.NUTRIENTS
            if nutrient in needs
        }
        for name, inside in _BELOW.items():
            if name in bed:
                fields[name] = {
                    at: self.fields(one, inside, at) for at, one in self.each(bed, name, place)
                }
        if "soil_test" in bed:
            fields["soil_test"] = self.soil_test(self.table(bed, "soil_test", place), place)
        return fields

    def soil_test(self, table: Mapping[str, Any], place: str) -> dict[str, Any]:
        """A soil report; an oxide in it is told with what to ask the laboratory for."""
        at = _under(place, "soil_test")
        for oxide in ("P2O5", "K2O"):
            if oxide in table:
                refusal = oxide_refusal(_under(at, oxide), table[oxide], oxide)
                self.faults.extend(refusal.faults)
        return self.fields(table, soil_keys.SOIL_TEST, at, beside=("P2O5", "K2O"))

    def table(self, tables: Mapping[str, Any], name: str, place: str) -> Mapping[str, Any]:
        """One table by name; nothing where it is not there."""
        table = tables.get(name, {})
        if isinstance(table, dict):
            return table
        at = _under(place, name)
        self.fault(at, table, f"{name} is a table of keys.", f"Write [{name}] and its keys below.")
        return {}

    def each(
        self, tables: Mapping[str, Any], name: str, place: str = ""
    ) -> Iterator[tuple[str, Mapping[str, Any]]]:
        """Each of the tables of one name with its place."""
        listed, at = tables.get(name, []), _under(place, name)
        if not isinstance(listed, list) or not all(isinstance(one, dict) for one in listed):
            remedy = f"Write [[{name}]], with two brackets, before each of them."
            self.fault(at, listed, f"{name} is a list of tables.", remedy)
            return
        if not listed:
            self.fault(at, "", f"There are no {name}.", f"Write [[{name}]] and its keys below.")
        if len(listed) > MOST_OF_A_KIND:
            sentence = f"There are more than {MOST_OF_A_KIND} {name}."
            self.fault(at, len(listed), sentence, "Split the garden into several files.")
        for number, one in enumerate(listed[:MOST_OF_A_KIND], start=1):
            yield f"{at}[{number}]", one

    def _unknown(self, table: Mapping[str, Any], known: Sequence[str], place: str) -> None:
        by_case = {name.casefold(): name for name in known}
        for name in table:
            if name in known:
                continue
            near = get_close_matches(name.casefold(), list(by_case), n=1)
            remedy = f"Did you mean {by_case[near[0]]}?" if near else f"Known: {', '.join(known)}."
            self.fault(_under(place, name), name, "This key is not known here.", remedy)


def _under(place: str, name: str) -> str:
    return f"{place}.{name}" if place else name
