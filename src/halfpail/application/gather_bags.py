"""Several bag lines together: which bags are stirred, which stay out, every fault at once."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from halfpail.application.fill_bag import fill_bag
from halfpail.application.read_bag_line import EXAMPLE, BagLine, read_bag_line
from halfpail.domain.mix import Part
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Notice, Refusal

NO_SHELF: Mapping[str, Bag] = MappingProxyType({})
_GRADE = re.compile(r"\d\s*[-\N{EN DASH}]\s*\d")
_TAKES = re.compile(r"(.+?)\s*[=:,]\s*(\d{1,3})(?: ?(?:level )?scoops?)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Filled:
    scoops: int | None
    bag: Bag
    notices: tuple[Notice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GatheredBags:
    """The parts to stir, the bags that stay out of the mix, and how they were filled in."""

    parts: tuple[Part, ...]
    others: tuple[Bag, ...]
    notices: tuple[Notice, ...]


def gather_bags(
    lines: Sequence[str],
    scoop_l: Fraction,
    currency: str | None = None,
    shelf: Mapping[str, Bag] = NO_SHELF,
) -> GatheredBags:
    """The bags of these lines. Where none has scoops, each gets one.

    A bag without scoops beside others that have some stays out of the mix.

    Args:
        lines: one for each bag, such as `3-4-4, 25 lb, $12, 2 scoops`.
        scoop_l: what a level scoop holds [L].
        currency: the only currency that prices may be in; any where it is None.
        shelf: bags by name; a line such as `Blood meal, 2 scoops` takes one of them, and those
            not taken stay out of the mix.

    Raises:
        Refusal: with every fault of every line, and where no line has a scoop left.
    """
    faults: list[Fault] = []
    filled: list[_Filled] = []
    names: dict[str, int] = {}
    for number, line in enumerate(lines, start=1):
        if taken := _taken(line, shelf):
            filled.append(taken)
            continue
        if shelf and not _GRADE.search(line):
            faults.append(_not_there(line, f"bag {number}", shelf))
            continue
        try:
            read = _named_apart(read_bag_line(line, f"bag {number}", currency), names)
            filled.append(_Filled(read.scoops, *fill_bag(read.entry, scoop_l)))
        except Refusal as refusal:
            faults.extend(refusal.faults)
    if not lines:
        faults.append(Fault(place="bags", read="", sentence="No bag is given.", remedy=EXAMPLE))
    if faults:
        raise Refusal(*faults)
    return _parted(filled, shelf)


def gather_told(told: Sequence[BagLine], scoop_l: Fraction) -> GatheredBags:
    """The same of bags that were typed field by field.

    Raises:
        Refusal: with every fault of every label, and where no bag has a scoop left.
    """
    faults: list[Fault] = []
    filled: list[_Filled] = []
    names: dict[str, int] = {}
    for line in told:
        try:
            read = _named_apart(line, names)
            filled.append(_Filled(read.scoops, *fill_bag(read.entry, scoop_l)))
        except Refusal as refusal:
            faults.extend(refusal.faults)
    if faults:
        raise Refusal(*faults)
    return _parted(filled, NO_SHELF)


def _named_apart(line: BagLine, names: dict[str, int]) -> BagLine:
    """The line under a name that no earlier bag has."""
    name = line.entry.name
    names[name] = names.get(name, 0) + 1
    if names[name] == 1:
        return line
    return replace(line, entry=replace(line.entry, name=f"{name} ({names[name]})"))


def _taken(line: str, shelf: Mapping[str, Bag]) -> _Filled | None:
    """The bag of the shelf that a line names, with its scoops; None where it names none."""
    match = _TAKES.fullmatch(line.strip())
    name = match[1] if match else line.strip()
    found = next((bag for key, bag in shelf.items() if key.casefold() == name.casefold()), None)
    return None if found is None else _Filled(int(match[2]) if match else None, found, ())


def _not_there(line: str, place: str, shelf: Mapping[str, Bag]) -> Fault:
    return Fault(
        place=place,
        read=line,
        sentence="The garden has no bag of that name.",
        remedy=f"Write NAME = 2, of these: {', '.join(shelf)}.",
    )


def _parted(filled: Sequence[_Filled], shelf: Mapping[str, Bag]) -> GatheredBags:
    nobody = all(one.scoops is None for one in filled)
    scoops = [1 if nobody else one.scoops or 0 for one in filled]
    parts = tuple(
        Part(bag=one.bag, scoops=count) for one, count in zip(filled, scoops, strict=True) if count
    )
    if not parts:
        sentence = "No bag has a scoop in the mix."
        remedy = "Give at least one bag a scoop: 2 scoops."
        raise Refusal(Fault(place="bags", read="0 scoops", sentence=sentence, remedy=remedy))
    inside = {part.bag.key for part in parts}
    beside = {bag.key: bag for bag in (*(one.bag for one in filled), *shelf.values())}
    return GatheredBags(
        parts=parts,
        others=tuple(bag for key, bag in beside.items() if key not in inside),
        notices=tuple(notice for one in filled for notice in one.notices),
    )
