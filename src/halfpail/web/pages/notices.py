"""Notices in the order a page says them."""

from collections.abc import Iterable

from halfpail.findings import Notice, Severity


def loudest_first(found: Iterable[Notice]) -> tuple[Notice, ...]:
    """Each notice once, the loudest first."""
    order = list(Severity)
    return tuple(sorted(dict.fromkeys(found), key=lambda notice: order.index(notice.severity)))
