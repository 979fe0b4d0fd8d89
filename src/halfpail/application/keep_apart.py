"""Which bags may not share a pail, which only for a day, and the cautions of what is in them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.reference.cautions import caution
from halfpail.reference.compatibility import Pair, Verdict, pair
from halfpail.reference.materials import material

_SAYS = {
    Verdict.APART: (Severity.STOP, "must not share a pail"),
    Verdict.SAME_DAY: (Severity.CAUTION, "may share a pail only if it is spread the same day"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Two bags that do not get on, and the strictest that the table says of what is in them."""

    one: Bag
    other: Bag
    pair: Pair


def clashes(bags: Sequence[Bag]) -> tuple[Clash, ...]:
    """Every two bags that must stay apart or must be spread the same day."""
    found = ((one, other, _strictest(one, other)) for one, other in combinations(bags, 2))
    return tuple(
        Clash(one=one, other=other, pair=worst)
        for one, other, worst in found
        if worst is not None and worst.verdict is not Verdict.MIX
    )


def bags_apart(bags: Sequence[Bag]) -> frozenset[frozenset[str]]:
    """Pairs of bag keys that must not share a mix."""
    return frozenset(
        frozenset((clash.one.key, clash.other.key))
        for clash in clashes(bags)
        if clash.pair.verdict is Verdict.APART
    )


def clash_notices(bags: Sequence[Bag]) -> tuple[Notice, ...]:
    """What to say of bags that share a pail."""
    return tuple(_notice(clash) for clash in clashes(bags))


def cautions_of(bags: Iterable[Bag], *also: str) -> tuple[Notice, ...]:
    """The cautions of everything in these bags, and others by key, each once."""
    inside = (key for bag in bags for name in bag.materials for key in material(name).cautions)
    return tuple(caution(key) for key in dict.fromkeys((*also, *inside)))


def _strictest(one: Bag, other: Bag) -> Pair | None:
    order = (Verdict.APART, Verdict.SAME_DAY, Verdict.MIX)
    pairs = (
        pair(material(first).family, material(second).family)
        for first, second in product(one.materials, other.materials)
    )
    known = [one_pair for one_pair in pairs if one_pair is not None]
    return min(known, key=lambda one_pair: order.index(one_pair.verdict), default=None)


def _notice(clash: Clash) -> Notice:
    severity, says = _SAYS[clash.pair.verdict]
    return Notice(
        severity=severity,
        sentence=f"{clash.one.name} and {clash.other.name} {says}: {clash.pair.reason}.",
        citation=clash.pair.citation,
    )
