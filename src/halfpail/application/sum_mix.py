"""What a mix is before a bag is opened: its sum, bands, pail, and one scoop more or less."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.application.allow_for_label import label_allowance
from halfpail.application.chalk_sum import ChalkedSum, chalk_sum
from halfpail.application.explain_mix import mix_working
from halfpail.application.hold_mix_to_gate import mix_stops
from halfpail.application.keep_apart import bags_apart, cautions_of, clash_notices
from halfpail.application.lime_in_mix import lime_in_mix_notices
from halfpail.domain.band import MixBands, mix_bands
from halfpail.domain.label import Grade
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, Part, guarantee, one_scoop_less, one_scoop_more, stir
from halfpail.domain.pail import Pailful, pailful
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.quantities.showing import show_scoops
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class MixQuestion:
    """Bags with their scoops, others that could go in, and the bench they are mixed at.

    `wish` is a wished grade [percent] by nutrient.
    """

    parts: tuple[Part, ...]
    scoop_l: Fraction
    pail_l: Fraction
    others: tuple[Bag, ...] = ()
    wish: Mapping[Nutrient, Fraction] | None = field(default=None, hash=False)
    system: System = System.US
    currency: str = "USD"


@dataclass(frozen=True, slots=True, kw_only=True)
class Nudge:
    """What one scoop more (+1) or less (-1) of a bag would make of the mix.

    `apart` says that the bag must not share a pail with what is in the mix.
    """

    bag: Bag
    change: int
    mix: Mix
    apart: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MixSum:
    """Everything about one round of a mix; `printed` is the grade in whole percents."""

    mix: Mix
    chalked: ChalkedSum
    printed: Grade
    bands: MixBands
    nudges: tuple[Nudge, ...]
    pail: Pailful
    notices: tuple[Notice, ...]
    working: Working


def sum_mix(question: MixQuestion) -> MixSum:
    """Stir the parts of a question and tell all that follows.

    Raises:
        ValueError: without a single scoop.
    """
    mix = stir(question.parts, question.scoop_l)
    pail = pailful(mix, question.pail_l, default("pail_fill").value)
    return MixSum(
        mix=mix,
        chalked=chalk_sum(mix, question.system, question.wish),
        printed=guarantee(mix.analysis.grade),
        bands=mix_bands(mix, default("scoop_error").value, label_allowance),
        nudges=nudges(mix, question.others),
        pail=pail,
        notices=(
            *mix_stops(mix, question.system),
            *mix_notices(mix, pail),
            *lime_in_mix_notices(mix, question.system),
        ),
        working=mix_working(mix, pail, question.system, question.currency),
    )


def nudges(mix: Mix, others: Sequence[Bag] = ()) -> tuple[Nudge, ...]:
    """One scoop more of each bag, in the mix or not, and one less where there is one to take."""
    inside = [part.bag for part in mix.parts]
    outside = [bag for bag in others if all(bag.key != other.key for other in inside)]
    kept_apart = bags_apart([*inside, *outside])
    more = [
        Nudge(
            bag=bag,
            change=1,
            mix=one_scoop_more(mix, bag),
            apart=any({bag.key, other.key} in kept_apart for other in inside),
        )
        for bag in (*inside, *outside)
    ]
    less = [
        Nudge(bag=bag, change=-1, mix=left)
        for bag in inside
        if (left := one_scoop_less(mix, bag)) is not None
    ]
    return (*more, *less)


def mix_notices(mix: Mix, pail: Pailful) -> tuple[Notice, ...]:
    """Bags that do not get on, cautions of what is in them, and a round too big for the pail."""
    bags = [part.bag for part in mix.parts]
    found = [*clash_notices(bags), *cautions_of(bags, "directions", "dust")]
    if not pail.rounds:
        sentence = (
            f"One round of {show_scoops(mix.scoops)} fills this pail more than half: "
            "take a smaller scoop or a larger pail."
        )
        found.append(Notice(severity=Severity.CAUTION, sentence=sentence))
    return tuple(found)
