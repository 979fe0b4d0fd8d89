"""Work on the rows: only looking, or all of it or nothing."""

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar

from django.db import connection, transaction

from halfpail.application.store_trouble import StoreBusy
from halfpail.storage.trouble import told_kindly

P = ParamSpec("P")
T = TypeVar("T")


def reading(work: Callable[P, T]) -> Callable[P, T]:
    """Work that only looks."""

    @wraps(work)
    def run(*args: P.args, **kwargs: P.kwargs) -> T:
        with told_kindly():
            return work(*args, **kwargs)

    return run


def writing(work: Callable[P, T]) -> Callable[P, T]:
    """Work that is done whole or not at all; tried once more where another writer was in the way.

    Inside other such work it is a part of that.
    """

    @wraps(work)
    def run(*args: P.args, **kwargs: P.kwargs) -> T:
        if connection.in_atomic_block:
            return work(*args, **kwargs)
        try:
            return at_once(*args, **kwargs)
        except StoreBusy:
            return at_once(*args, **kwargs)

    def at_once(*args: P.args, **kwargs: P.kwargs) -> T:
        with told_kindly(), transaction.atomic():
            return work(*args, **kwargs)

    return run
