"""One line for one bag, as a person says it: `3-4-4, 25 lb, $12, 2 scoops`.

The parts stand in any order, parted by commas or semicolons. A part is known by its look: a
grade, a weight, money, a number of scoops; what else there is, is the name.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction

from halfpail.application.garden_entry import BagEntry
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import read_mass_kg, read_money, read_whole

MOST_SCOOPS = 200
MOST_OFFERED = 999

EXAMPLE = (
    "Write it like '3-4-4, 25 lb, $12, 2 scoops', in single quotes so that the shell leaves "
    "the $ alone."
)
# A comma inside a number is a decimal comma; a space, a letter or a sign beside it tells.
_BETWEEN = re.compile(r"[;\n]|,\s+|,(?=[$€£A-Za-z])|(?<=[A-Za-z]),")
_NUMBER = r"\d[\d.]*"
_DASH = r"\s*[-\N{EN DASH}]\s*"
_GRADE = re.compile(rf"(?<![\w.-]){_NUMBER}{_DASH}{_NUMBER}{_DASH}{_NUMBER}(?![\w-])")

Value = Fraction | int | str
Reader = Callable[[str, str, str | None], Value]


@dataclass(frozen=True, slots=True)
class _Look:
    """How one kind of part looks; the first group that matched is what its reader gets."""

    field: str
    word: str
    pattern: re.Pattern[str]
    read: Reader


def _look(field: str, word: str, pattern: str, read: Reader) -> _Look:
    return _Look(field, word, re.compile(pattern, re.IGNORECASE), read)


def _mass(text: str, place: str, currency: str | None) -> Value:
    return read_mass_kg(text, place)


def _money(text: str, place: str, currency: str | None) -> Value:
    return read_money(text, place, currency)


def _up_to(most: int) -> Reader:
    return lambda text, place, currency: read_whole(text, place, 0, most)


_LOOKS = (
    _look("list_price", "list price", r"(?:list(?: price)?|was|instead of) (.+)", _money),
    _look(
        "scoop_weighs_kg",
        "weight of a scoop",
        r"(?:a |one |each )?(?:level )?scoop (?:weighs|is|=) ?(.+)|(.+?) (?:a|per|each) scoop",
        _mass,
    ),
    _look("scoops", "number of scoops", r"(.+?) ?(?:level )?scoops?", _up_to(MOST_SCOOPS)),
    _look(
        "offered", "number on offer", r"(\d+) (?:on offer|offered|bags|left)", _up_to(MOST_OFFERED)
    ),
    _look(
        "bag_kg",
        "weight of the bag",
        r"([\d.,½¼¾/ ]+(?:lbs?|pounds?|oz|ounces?|kgs?|kilos?|g|grams?)\b.*?)(?: bags?)?",
        _mass,
    ),
    _look(
        "price", "price", r"(?:at |for )?([$€£]\s*\S+|[\d.,]+ ?(?:(?-i:[A-Z]{3})|[$€£]))", _money
    ),
    _look("price", "price", r"(?:at |for )?([\d.]+) dollars?", _money),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BagLine:
    """One line understood: the bag as typed and its scoops in a round, None where not said."""

    entry: BagEntry
    scoops: int | None = None


def read_bag_line(line: str, place: str, currency: str | None = None) -> BagLine:
    """The bag and its scoops that one line tells of.

    Raises:
        Refusal: with every part of the line that cannot be used.

    >>> told = read_bag_line("starter 3-4-4, 25 lb, $12, 2 scoops", "bag 1")
    >>> told.entry.name, told.entry.label, told.entry.price, told.scoops
    ('starter', '3-4-4', Fraction(12, 1), 2)
    """
    draft = _Draft(place, currency)
    for words in filter(None, (part.strip() for part in _BETWEEN.split(line))):
        draft.take(words)
    if "label" not in draft.found:
        draft.fault(line, "There is no grade on this line: three numbers such as 3-4-4.")
    if draft.faults:
        raise Refusal(*draft.faults)
    return draft.finished()


@dataclass(slots=True)
class _Draft:
    """What has been understood of a line so far, and what has not."""

    place: str
    currency: str | None
    found: dict[str, Value] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def take(self, words: str) -> None:
        """Understand one part of the line."""
        for look in _LOOKS:
            if match := look.pattern.fullmatch(words):
                told = next(group for group in match.groups() if group)
                self.put(look, words, told)
                return
        if match := _GRADE.search(words):
            self.put(_GRADE_LOOK, words, match[0])
            words = " ".join((words[: match.start()] + words[match.end() :]).split())
        if not words:
            return
        if any(letter.isdigit() for letter in words):
            remedy = f"{EXAMPLE} Leave a space after each comma."
            self.fault(words, "This could be a weight, a price or scoops.", remedy)
        else:
            self.put(_NAME_LOOK, words, words)

    def put(self, look: _Look, words: str, told: str) -> None:
        """Keep what one part tells, unless it has been told before."""
        if look.field in self.found:
            self.fault(words, f"The {look.word} is told twice.", "Leave one of the two out.")
            return
        try:
            self.found[look.field] = look.read(told, self.place, self.currency)
        except Refusal as refusal:
            self.found[look.field] = ""
            self.faults.extend(replace(fault, read=words) for fault in refusal.faults)

    def fault(self, read: str, sentence: str, remedy: str = EXAMPLE) -> None:
        """Note one thing wrong with the line."""
        self.faults.append(Fault(place=self.place, read=read, sentence=sentence, remedy=remedy))

    def finished(self) -> BagLine:
        """The line as a whole, once nothing is wrong with it."""
        found = dict(self.found)
        scoops = found.pop("scoops", None)
        found.setdefault("name", found["label"])
        entry = BagEntry(place=self.place, **found)  # type: ignore[arg-type]  # read by its reader
        return BagLine(entry=entry, scoops=None if scoops is None else int(scoops))


_GRADE_LOOK = _look("label", "grade", "", lambda text, place, currency: re.sub(r"\s", "", text))
_NAME_LOOK = _look("name", "name", "", lambda text, place, currency: text)
