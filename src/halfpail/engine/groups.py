"""Likely ways to share beds out among a few mixes: beds that wish for the like together."""

from collections.abc import Iterator

import numpy as np

from halfpail.engine.figures import Floats

Groups = tuple[tuple[int, ...], ...]
"""The beds of each group by number; each bed is in one."""

_MANY = 60
"""Ways tried where there are too many to try all."""


def likely_groups(wished: Floats, amount: Floats, count: int) -> Iterator[Groups]:
    """Ways to make at most `count` groups of beds, each way once.

    Beds of like wishes first, then beds in the order of each content and cut where the amounts
    are even, then ways spread evenly over all there are.
    """
    beds = len(wished)
    told = [shared_out(wished, count)] + [_cut(column, amount, count) for column in wished.T]
    every = count**beds
    told += [_spelt(n * every // _MANY, beds, count) for n in range(min(_MANY, every))]
    seen = set()
    for group in told:
        groups = tuple(
            tuple(bed for bed in range(beds) if group[bed] == g) for g in sorted(set(group))
        )
        if frozenset(groups) not in seen:
            seen.add(frozenset(groups))
            yield groups


def shared_out(wishes: Floats, count: int) -> list[int]:
    """Beds in `count` groups of like wishes: far-apart beds first, then the nearest middle."""
    middles = [wishes[int(np.argmax(((wishes - wishes.mean(axis=0)) ** 2).sum(axis=1)))]]
    while len(middles) < count:
        near = np.min([((wishes - middle) ** 2).sum(axis=1) for middle in middles], axis=0)
        middles.append(wishes[int(near.argmax())])
    group = np.zeros(len(wishes), dtype=int)
    for _ in range(10):
        far = np.array([((wishes - middle) ** 2).sum(axis=1) for middle in middles])
        group = far.argmin(axis=0)
        middles = [
            wishes[group == n].mean(axis=0) if (group == n).any() else middles[n]
            for n in range(count)
        ]
    return [int(n) for n in group]


def _cut(wish: Floats, amount: Floats, count: int) -> list[int]:
    """Beds in the order of one wish, cut into groups of about the same amount."""
    order = np.argsort(wish, kind="stable")
    before = np.cumsum(amount[order]) - amount[order] / 2
    group = np.zeros(len(wish), dtype=int)
    group[order] = np.minimum(count - 1, before * count / max(float(amount.sum()), 1e-12))
    return [int(n) for n in group]


def _spelt(number: int, beds: int, count: int) -> list[int]:
    """The figures of a number, a group for each bed."""
    figures = []
    for _ in range(beds):
        number, figure = divmod(number, count)
        figures.append(figure)
    return figures
