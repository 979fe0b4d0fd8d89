"""How the nitrogen of a bag comes, from its label and the materials it is made of."""

from dataclasses import dataclass

from halfpail.domain.label import NitrogenForms
from halfpail.domain.matter import Nutrient
from halfpail.domain.release import ALL_AT_ONCE, ReleaseCurve, mixed
from halfpail.domain.stock import Bag
from halfpail.reference.release import ReleaseKind, release_of, release_of_label

# How the insoluble part of a bag comes that names no insoluble source.
_BLEND_N_SHARE = 0.04


@dataclass(frozen=True, slots=True, kw_only=True)
class BagCurve:
    """The curve of a bag, the soluble share its label states [0-1] or None, and its kinds."""

    curve: ReleaseCurve
    soluble_share: float | None
    kinds: tuple[ReleaseKind, ...]
    named: bool


def curve_of_bag(bag: Bag) -> BagCurve:
    """The curve of a bag: its soluble nitrogen at once, the rest as its materials do.

    A label does not give the shares of several sources, so each counts the same.

    Raises:
        ValueError: the bag holds no nitrogen.
    """
    total = bag.label.analysis.of(Nutrient.N)
    if not total:
        raise ValueError("a bag without nitrogen releases none")
    known = dict.fromkeys(kind for key in bag.materials if (kind := release_of(key)))
    kinds = tuple(known) or (release_of_label(float(total)),)
    if bag.label.analysis.nitrogen == NitrogenForms():
        return BagCurve(curve=_even(kinds), soluble_share=None, kinds=kinds, named=bool(known))
    soluble = float(bag.usable_n.quick / total)
    slow = tuple(kind for kind in kinds if kind.curve.at_once_share < 1) or (
        release_of_label(_BLEND_N_SHARE),
    )
    curve = mixed([(soluble, ALL_AT_ONCE), (1 - soluble, _even(slow))])
    return BagCurve(curve=curve, soluble_share=soluble, kinds=slow, named=bool(known))


def _even(kinds: tuple[ReleaseKind, ...]) -> ReleaseCurve:
    return mixed([(1 / len(kinds), kind.curve) for kind in kinds])
