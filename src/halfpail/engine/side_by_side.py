"""Work on many things at once, each in a process of its own, answers in the order asked."""

import os
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import current_process, get_context
from typing import TypeVar

T = TypeVar("T")
R = TypeVar("R")


def side_by_side(work: Callable[[T], R], items: Iterable[T]) -> Iterator[R]:
    """The same as `map`, on as many cores as there are.

    `work` and the items must be such that another process can be told of them. One after the
    other where there is a single core, or in a process that may have no children.

    >>> list(side_by_side(abs, [-2]))
    [2]
    """
    things = list(items)
    workers = min(len(things), os.cpu_count() or 1)
    if workers < 2 or current_process().daemon:
        yield from map(work, things)
        return
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        yield from pool.map(work, things)
