"""The words of a derived-from list as the materials they mean.

A name is matched whole. Slips of spelling are mended word by word, only towards a single word of
the table, never away from a word that is right in itself ("leather" is not "feather"), and the
reader is told. What stays unknown is said, not guessed.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from halfpail.domain.label_lines import shown
from halfpail.domain.label_sources import source_phrases
from halfpail.domain.material import Material
from halfpail.findings import Notice, Severity

# Words one or two letters from a word of the trade, which mean something else.
_WORDS_OF_THEIR_OWN = frozenset(
    {
        *("arsenate", "blend", "bloom", "carbide", "chlorate", "chlorite", "chromate", "collected"),
        *("corn", "cupric", "cuprous", "dust", "ferric", "ferrous", "flood", "help", "home"),
        *("horn", "iodate", "iodide", "leather", "meat", "nitride", "nitrite", "oleate"),
        *("oxalate", "phosphide", "phosphite", "phosphonate", "plume", "silicate", "stone"),
        *("stannate", "sulfide", "sulfite", "tartrate", "titanate", "weather", "wheat", "wool"),
    }
)
# Words that say how a material was handled, not what it is; left out only where that helps.
_HANDLING = frozenset(
    {
        *("and", "agricultural", "certified", "dehydrated", "dried", "fine", "fertilizer", "from"),
        *("grade", "granular", "granulated", "granules", "greenhouse", "hydrolyzed", "hydrolysed"),
        *("natural", "naturally", "organic", "organically", "pelleted", "pelletized", "pellets"),
        *(
            "pasteurized",
            "processed",
            "screened",
            "sterilized",
            "powder",
            "powdered",
            "prilled",
            "prills",
            "pure",
            "soluble",
            "technical",
            "the",
            "usa",
        ),
    }
)
_SPELLINGS = (("sulph", "sulf"), ("aluminium", "aluminum"), ("fertiliser", "fertilizer"))
_JOINT = re.compile(r"\s+(?:and|&)\s+(?![^(]*\))", re.IGNORECASE)
_SHORT, _LONG, _LONGEST = 5, 8, 24
_MOST_WORDS, _MOST_JOINED, _MOST_SOURCES = 6, 3, 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Recognition:
    """The materials in the order of the list, the phrases not known, and what the reader is told.

    `all_known` says whether every phrase of a list that is not empty was recognised.
    """

    materials: tuple[Material, ...]
    unknown: tuple[str, ...] = ()
    notices: tuple[Notice, ...] = ()

    @property
    def all_known(self) -> bool:
        """Whether there is a list and nothing of it is unknown."""
        return bool(self.materials) and not self.unknown


def recognise(words: str | Sequence[str], materials: Sequence[Material]) -> Recognition:
    """The materials that a derived-from list names, in its order, each once.

    Args:
        words: the list as printed, or its phrases.
        materials: the rows that names and synonyms are looked for in.

    >>> from fractions import Fraction
    >>> from halfpail.sources import Citation, Mark
    >>> def row(key, *names):
    ...     return Material(key=key, name=names[0], synonyms=names[1:], contents={},
    ...                     citation=Citation(mark=Mark.PROPOSAL))
    >>> rows = [row("feather", "Feather meal"), row("sop", "Sulfate of potash")]
    >>> found = recognise("fether meal, sulphate of potash and leather meal", rows)
    >>> [material.key for material in found.materials], found.unknown
    (['feather', 'sop'], ('leather meal',))
    """
    phrases = source_phrases(words) if isinstance(words, str) else tuple(words)
    names = _names_of(tuple(materials))
    parts = [part for phrase in phrases for part in _parts(phrase, names)]
    parts, left_over = parts[:_MOST_SOURCES], parts[_MOST_SOURCES:]
    found: dict[str, Material] = {}
    unknown: list[str] = []
    notices: list[Notice] = []
    for part in parts:
        material, mended = names.find(part)
        if material is None:
            unknown.append(part)
        else:
            found.setdefault(material.key, material)
        notices += _told(part, material, mended)
    if left_over:
        notices.append(_too_many(len(left_over)))
    return Recognition(
        materials=tuple(found.values()),
        unknown=(*unknown, *left_over),
        notices=tuple(notices),
    )


@lru_cache(maxsize=4)
def _names_of(materials: tuple[Material, ...]) -> "_Names":
    """A table is made ready once, since a page of bags asks it again and again."""
    return _Names(materials)


class _Names:
    """The names and synonyms of the materials, ready to be looked up."""

    def __init__(self, materials: Sequence[Material]) -> None:
        self._by_name: dict[str, Material] = {}
        for material in materials:
            for name in (material.name, material.key.replace("_", " "), *material.synonyms):
                self._by_name.setdefault(_closed_up(_words(name)), material)
                self._by_name.setdefault(_closed_up(_words(_outside(name))), material)
        self._vocabulary = frozenset(
            word
            for material in materials
            for name in (material.name, *material.synonyms)
            for word in _words(name)
        )

    def find(self, phrase: str) -> tuple[Material | None, bool]:
        """The material of one phrase, and whether its spelling was mended to find it."""
        for mend in (False, True):
            known = self._named(phrase, mend)
            if known:
                return (known[0] if len(known) == 1 else None), mend
        return None, False

    def is_name(self, phrase: str) -> bool:
        """Whether a phrase is a name as it stands."""
        return len(self._named(phrase, mend=False)) == 1

    def _named(self, phrase: str, mend: bool) -> list[Material]:
        """The materials a phrase names; more than one where a bracket contradicts it."""
        whole, *apart = _readings(phrase)
        as_it_stands = self._look_up(whole, mend)
        if as_it_stands:
            return [as_it_stands]
        found = (self._look_up(text, mend) for text in apart)
        return list({material.key: material for material in found if material}.values())

    def _look_up(self, text: str, mend: bool) -> Material | None:
        words = _words(text)
        plain = [word for word in words if word not in _HANDLING]
        for attempt in (words, plain):
            found = self._exact(attempt) if not mend else self._mended(attempt)
            if found:
                return found
        return None

    def _exact(self, words: Sequence[str]) -> Material | None:
        return self._by_name.get(_closed_up(words)) if words else None

    def _mended(self, words: Sequence[str]) -> Material | None:
        """The material of a phrase with slips: only where all ways of mending it agree."""
        if len(words) > _MOST_WORDS:
            return None
        choices = [self._choices(word) for word in words]
        if not all(choices):
            return None
        found = {
            material.key: material
            for attempt in product(*choices)
            if (material := self._exact(attempt))
        }
        return next(iter(found.values())) if len(found) == 1 else None

    def _choices(self, word: str) -> tuple[str, ...]:
        if word in self._vocabulary:
            return (word,)
        if word in _WORDS_OF_THEIR_OWN or not _SHORT <= len(word) <= _LONGEST:
            return ()
        most = 2 if len(word) >= _LONG else 1
        near = [
            (slips(word, known), known)
            for known in self._vocabulary
            if len(known) >= _SHORT and abs(len(known) - len(word)) <= most
        ]
        least = min((count for count, _ in near), default=most + 1)
        return tuple(known for count, known in sorted(near) if count == least <= most)


def slips(typed: str, meant: str) -> int:
    """Letters left out, put in, changed, or swapped with their neighbour.

    >>> slips("fether", "feather"), slips("langbienite", "langbeinite")
    (1, 1)
    """
    rows = [list(range(len(meant) + 1))]
    for i, letter in enumerate(typed, 1):
        row = [i]
        for j, wanted in enumerate(meant, 1):
            cost = min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == meant[j - 2] and typed[i - 2] == wanted:
                cost = min(cost, rows[-2][j - 2] + 1)
            row.append(cost)
        rows.append(row)
    return rows[-1][-1]


def _parts(phrase: str, names: _Names) -> Iterator[str]:
    """A phrase, or what "and" joins in it, where that is not one name ("hoof and horn meal")."""
    pieces = _JOINT.split(phrase)
    while pieces:
        ends = range(min(len(pieces), _MOST_JOINED), 1, -1)
        end = next((end for end in ends if names.is_name(" and ".join(pieces[:end]))), 1)
        yield " and ".join(pieces[:end])
        pieces = pieces[end:]


def _readings(phrase: str) -> tuple[str, ...]:
    """The whole phrase, then what stands outside its brackets, then what stands inside."""
    inside = re.findall(r"\(([^)]*)\)", phrase)
    return (phrase, _outside(phrase), *inside) if inside else (phrase,)


def _outside(phrase: str) -> str:
    return re.sub(r"\([^)]*\)", " ", phrase)


def _words(name: str) -> tuple[str, ...]:
    text = name.lower()
    for other, ours in _SPELLINGS:
        text = text.replace(other, ours)
    text = re.sub(r"[0-9.]+ ?%", " ", text.replace("'", ""))
    return tuple(re.findall(r"[a-z0-9]+", text))


def _closed_up(words: Sequence[str]) -> str:
    return "".join(words)


def _too_many(left_over: int) -> Notice:
    return Notice(
        severity=Severity.CAUTION,
        sentence=f"Only the first {_MOST_SOURCES} sources were looked up; {left_over} were not.",
    )


def _told(phrase: str, material: Material | None, mended: bool) -> Iterator[Notice]:
    if material is None:
        yield Notice(
            severity=Severity.CAUTION,
            sentence=f"'{shown(phrase)}' is not among the materials known here.",
        )
    elif mended:
        yield Notice(
            severity=Severity.NOTE,
            sentence=f"'{shown(phrase)}' was read as {material.name.lower()}.",
        )
