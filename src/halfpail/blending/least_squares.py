"""Shares of a whole that come nearest to wished sums, in exact arithmetic."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

Vector = tuple[Fraction, ...]
Matrix = tuple[Vector, ...]

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Quadratic:
    """x·curve·x / 2 - pull·x is made least over x >= 0 with weight·x = 1; `curve` is definite."""

    curve: Matrix
    pull: Vector
    weight: Vector

    def least(self) -> Vector:
        """The one best point: free the unknown that gains most, until none would gain.

        A set of unknowns above nought is kept; each step solves for these alone and stops where
        one of them reaches nought. The value falls with every step, so no set comes twice.
        """
        first = min(range(len(self.pull)), key=lambda i: self._alone(i))
        point = [NONE] * len(self.pull)
        point[first] = 1 / self.weight[first]
        held = [first]
        while True:
            point, held, price = self._settle(point, held)
            gains = {
                i: self.pull[i] - _dot(self.curve[i], point) - price * self.weight[i]
                for i in range(len(point))
                if i not in held
            }
            best = max(gains, key=lambda i: gains[i], default=None)
            if best is None or gains[best] <= 0:
                return tuple(point)
            held.append(best)

    def _alone(self, i: int) -> Fraction:
        amount = 1 / self.weight[i]
        return self.curve[i][i] * amount * amount / 2 - self.pull[i] * amount

    def _settle(
        self, point: list[Fraction], held: list[int]
    ) -> tuple[list[Fraction], list[int], Fraction]:
        """The best point over `held` alone, dropping from it what would fall below nought."""
        while True:
            *found, price = self._over(held)
            if min(found) > 0:
                settled = [NONE] * len(point)
                for i, amount in zip(held, found, strict=True):
                    settled[i] = amount
                return settled, held, price
            step = min(
                point[i] / (point[i] - amount)
                for i, amount in zip(held, found, strict=True)
                if amount <= 0
            )
            for i, amount in zip(held, found, strict=True):
                point[i] += step * (amount - point[i])
            held = [i for i in held if point[i] > 0]

    def _over(self, held: list[int]) -> Vector:
        """The amounts of `held` where the slope is the same along all of them, and that slope."""
        rows = [[*(self.curve[i][j] for j in held), self.weight[i], self.pull[i]] for i in held]
        rows.append([*(self.weight[j] for j in held), NONE, Fraction(1)])
        return _solved(rows)


def nearest_shares(
    contents: Sequence[Sequence[Fraction]],
    wanted: Sequence[Fraction],
    *,
    evenness: Fraction,
    falling: bool = False,
) -> Vector:
    """Shares of ingredients whose contents come nearest to what is wanted.

    Shares are at least nought and at most one in all; the rest holds nothing. The sum of squared
    differences is made least. Among shares that do so alike the most even are taken: the squared
    shares and the squared rest count too, times `evenness`, which should be tiny.

    Args:
        contents: what each ingredient holds, in the same order as `wanted`.
        wanted: the sums to come near to.
        evenness: what a squared share counts beside a squared difference; above nought.
        falling: no share may be larger than the one before it.

    >>> tiny = Fraction(1, 10**9)
    >>> [round(float(s), 6) for s in nearest_shares([[1, 0], [0, 2]], [Fraction(1, 2)] * 2,
    ...                                             evenness=tiny)]
    [0.5, 0.25]
    """
    held = [*([Fraction(sum_) for sum_ in row] for row in contents), [NONE] * len(wanted)]
    base = _bases(len(contents), falling)
    given = [
        [_dot(row, [ingredient[j] for ingredient in held]) for j in range(len(wanted))]
        for row in base
    ]
    every = range(len(base))
    best = _Quadratic(
        curve=tuple(
            tuple(_dot(given[a], given[b]) + evenness * _dot(base[a], base[b]) for b in every)
            for a in every
        ),
        pull=tuple(_dot(row, wanted) for row in given),
        weight=tuple(sum(row, NONE) for row in base),
    ).least()
    return tuple(_dot(best, [row[i] for row in base]) for i in range(len(contents)))


def _bases(count: int, falling: bool) -> list[list[Fraction]]:
    """Mixes that all others are made of: each ingredient alone and the rest alone.

    Falling shares are made of the first alone, the first two alike, the first three, ...
    """
    places = range(count + 1)
    return [[Fraction(i == k or (falling and i < k < count)) for i in places] for k in places]


def _dot(left: Sequence[Fraction], right: Sequence[Fraction]) -> Fraction:
    return sum((a * b for a, b in zip(left, right, strict=True)), NONE)


def _solved(rows: list[list[Fraction]]) -> Vector:
    """The unknowns of as many equations; each row ends with its right side."""
    count = len(rows)
    for at in range(count):
        pivot = next(r for r in range(at, count) if rows[r][at])
        rows[at], rows[pivot] = rows[pivot], rows[at]
        rows[at] = [entry / rows[at][at] for entry in rows[at]]
        for r in range(count):
            if r != at and rows[r][at]:
                factor = rows[r][at]
                rows[r] = [e - factor * p for e, p in zip(rows[r], rows[at], strict=True)]
    return tuple(row[-1] for row in rows)
