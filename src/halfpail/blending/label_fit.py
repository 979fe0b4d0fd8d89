"""Which shares of its sources a label allows, and which of them are likely."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import inf

from halfpail.blending.least_squares import nearest_shares
from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Programme, Row, Status
from halfpail.domain.label import Analysis
from halfpail.domain.material import Material, Spread
from halfpail.domain.matter import PRIMARY, Nutrient, ceiling
from halfpail.quantities.rounding import to_nearest

COUNTED = (*PRIMARY, Nutrient.CA, Nutrient.MG, Nutrient.S)
POINT = Fraction(1, 100)
NONE = Fraction(0)

_EVENNESS = Fraction(1, 10**9)
_HOLD = 100
_NOTICEABLE = POINT / 100
_STEP = Fraction(1, 10**6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """What a label promises of a nutrient: at least `least`, and less than `most` [kg/kg].

    `known` says whether the sources' contents are known well enough to be held against it.
    """

    nutrient: Nutrient
    least: Fraction
    most: Fraction
    known: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelFit:
    """Shares of the sources [kg/kg] in the order of the label.

    `likely` are the nearest shares; they fall in the order of the label (`in_order`) where that
    fits the numbers as well. `ranges` hold the least and the most share of each source, and of
    the rest that no source fills, over all shares that keep every claim; empty where none do.
    """

    claims: tuple[Claim, ...]
    likely: tuple[Fraction, ...]
    in_order: bool
    gives: Mapping[Nutrient, Fraction] = field(hash=False)
    ranges: tuple[tuple[Fraction, Fraction], ...]

    @property
    def rest(self) -> Fraction:
        """The likely share of what no source fills: moisture, binder, filler [kg/kg]."""
        return 1 - sum(self.likely, NONE)


def fit_label(analysis: Analysis, sources: Sequence[Material], solver: Solver) -> LabelFit:
    """The shares of `sources` that give the numbers of a label."""
    claims = tuple(_claims(analysis, sources))
    likely, in_order = _likely(claims, sources)
    return LabelFit(
        claims=claims,
        likely=likely,
        in_order=in_order,
        gives={c.nutrient: _given(c.nutrient, likely, sources) for c in claims if c.known},
        ranges=_ranges(_programme(claims, sources), solver),
    )


def content(material: Material, nutrient: Nutrient) -> Spread | None:
    """What a material holds of a nutrient [kg/kg], widened to its formula; None if not known.

    N, P2O5 and K2O that the table leaves out, and elements that a formula leaves out, are nought.
    """
    listed = material.contents.get(nutrient)
    pure = ceiling(material.formula).get(nutrient) if material.formula else None
    if listed is None:
        if pure is None and not material.formula and nutrient not in PRIMARY:
            return None
        share = pure or NONE
        return Spread(low=share, typical=share, high=share)
    if pure is None:
        return listed
    return replace(listed, low=min(listed.low, pure), high=max(listed.high, pure))


def _claims(analysis: Analysis, sources: Sequence[Material]) -> list[Claim]:
    """A guarantee is rounded down to whole per cents, below one to tenths; one of nought too."""
    found = []
    for nutrient in COUNTED:
        share = analysis.of(nutrient)
        if share or nutrient in PRIMARY:
            step = POINT if share >= POINT or not share else POINT / 10
            known = all(content(source, nutrient) for source in sources)
            found.append(Claim(nutrient=nutrient, least=share, most=share + step, known=known))
    return found


def _likely(
    claims: Sequence[Claim], sources: Sequence[Material]
) -> tuple[tuple[Fraction, ...], bool]:
    """The nearest shares in falling order, if they keep the claims as well as any others do."""
    ordered, free = (_nearest(claims, sources, falling) for falling in (True, False))
    sides = list(_sides(claims, sources))
    broken_by = [
        sum((side.broken_by(shares) for side in sides), NONE) for shares in (ordered, free)
    ]
    in_order = broken_by[0] <= broken_by[1] + _NOTICEABLE
    return tuple(to_nearest(share, _STEP) for share in (ordered if in_order else free)), in_order


def _nearest(
    claims: Sequence[Claim], sources: Sequence[Material], falling: bool
) -> tuple[Fraction, ...]:
    """Shares whose typical contents come nearest to the promise, held inside the claims.

    A claim that the nearest shares would break, whatever the contents in their range, is added as
    a sum to meet and counts far more.
    """
    known = [claim for claim in claims if claim.known]
    wanted = [claim.least for claim in known]
    rows = [[_end(source, claim.nutrient, "typical") for source in sources] for claim in known]
    sides = list(_sides(claims, sources))
    while True:
        contents = [[row[i] for row in rows] for i in range(len(sources))]
        shares = nearest_shares(contents, wanted, evenness=_EVENNESS, falling=falling)
        broken = [side for side in sides if side.broken_by(shares)]
        if not broken:
            return shares
        for side in broken:
            sides.remove(side)
            rows.append([_HOLD * held for held in side.held])
            wanted.append(_HOLD * side.limit)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One side of a claim: what each source holds at the end of its range that keeps it best."""

    name: str
    held: tuple[Fraction, ...]
    limit: Fraction
    is_least: bool

    def broken_by(self, shares: Sequence[Fraction]) -> Fraction:
        given = sum((s * held for s, held in zip(shares, self.held, strict=True)), NONE)
        return max(NONE, self.limit - given if self.is_least else given - self.limit)


def _sides(claims: Sequence[Claim], sources: Sequence[Material]) -> Iterator[_Side]:
    for claim in claims:
        low = tuple(_end(source, claim.nutrient, "low") for source in sources)
        name = f"{claim.nutrient} at most"
        yield _Side(name=name, held=low, limit=claim.most, is_least=False)
        if claim.known:
            high = tuple(_end(source, claim.nutrient, "high") for source in sources)
            name = f"{claim.nutrient} at least"
            yield _Side(name=name, held=high, limit=claim.least, is_least=True)


def _given(nutrient: Nutrient, shares: Sequence[Fraction], sources: Sequence[Material]) -> Fraction:
    held = [_end(source, nutrient, "typical") for source in sources]
    return sum((s * h for s, h in zip(shares, held, strict=True)), NONE)


def _end(source: Material, nutrient: Nutrient, end: str) -> Fraction:
    """The low, typical or high content; nought where it is not known [kg/kg]."""
    held = content(source, nutrient)
    return getattr(held, end) if held else NONE


def _programme(claims: Sequence[Claim], sources: Sequence[Material]) -> Programme:
    """Shares of the sources, then the rest; a content may lie anywhere in its range."""
    columns = [Column(name=source.key, high=1.0) for source in sources]
    rows = [
        Row(
            name="all shares are one",
            terms=tuple((i, 1.0) for i in range(len(sources) + 1)),
            at_least=1.0,
            at_most=1.0,
        )
    ]
    for side in _sides(claims, sources):
        terms = tuple((i, float(held)) for i, held in enumerate(side.held))
        limit = float(side.limit)
        low, high = (limit, inf) if side.is_least else (-inf, limit)
        rows.append(Row(name=side.name, terms=terms, at_least=low, at_most=high))
    return Programme(columns=(*columns, Column(name="rest", high=1.0)), rows=tuple(rows))


def _ranges(programme: Programme, solver: Solver) -> tuple[tuple[Fraction, Fraction], ...]:
    found = []
    for i, column in enumerate(programme.columns):
        columns = list(programme.columns)
        columns[i] = replace(column, cost=1.0)
        ends = [
            solver.solve(replace(programme, columns=tuple(columns), maximise=most))
            for most in (False, True)
        ]
        if any(end.status is not Status.OPTIMAL for end in ends):
            return ()
        low, high = (to_nearest(Fraction(end.value or 0), _STEP) for end in ends)
        found.append((max(low, NONE), min(high, Fraction(1))))
    return tuple(found)
