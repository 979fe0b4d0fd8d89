"""Notices in the order a page says them."""

from collections.abc import Iterable

from halfpail.findings import Notice, Severity


def loudest_first(found: Iterable[Notice]) -> tuple[Notice, ...]:
    """Each notice once, the loudest first; what is said of everything is not said of some beds too.

    >>> mask = "Wear a dust mask."
    >>> said = (mask, f"Sweet corn, Onions: {mask}")
    >>> told = [Notice(severity=Severity.CAUTION, sentence=words) for words in said]
    >>> [notice.sentence for notice in loudest_first(told)]
    ['Wear a dust mask.']
    """
    order, each = list(Severity), dict.fromkeys(found)
    of_everything = {notice.sentence for notice in each}
    kept = (one for one in each if one.sentence.partition(": ")[2] not in of_everything)
    return tuple(sorted(kept, key=lambda notice: order.index(notice.severity)))
