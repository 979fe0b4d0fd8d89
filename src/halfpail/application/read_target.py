"""What a recipe is wished to be, from what a person types: a grade, a ratio or a purpose."""

import re
from collections.abc import Collection, Mapping
from fractions import Fraction

from halfpail.domain.label_reading import read_label
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.recipe import GradeTarget, RatioTarget, Target
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import read_number
from halfpail.reference.purposes import purpose, purposes

# Our defaults, not published: half a point of grade, a quarter part of a ratio to nitrogen.
GRADE_WITHIN = Fraction(1, 2)
RATIO_WITHIN = Fraction(1, 4)


def read_grade(text: str, place: str) -> Mapping[Nutrient, Fraction]:
    """A wished grade [percent] by nutrient.

    Raises:
        Refusal: it is no grade.

    >>> read_grade("5-3-3", "wish")[Nutrient.N]
    Fraction(5, 1)
    """
    try:
        analysis = read_label(text).analysis
    except Refusal:
        raise Refusal(
            Fault(
                place=place,
                read=text,
                sentence="This is no grade.",
                remedy="Write three numbers: 5-3-3.",
            )
        ) from None
    return {nutrient: 100 * analysis.of(nutrient) for nutrient in PRIMARY}


def read_target(
    grade: Mapping[Nutrient, Fraction] | None,
    ratio: str | None,
    purpose_key: str | None,
    within: str | None,
    free: Collection[str],
) -> Target:
    """The one target that is asked for.

    Args:
        grade: wished numbers [percent].
        ratio: three parts such as `3-1-2`.
        purpose_key: a key of the purposes table.
        within: how far each number may be off, in percentage points or in parts for 1 of N.
        free: nutrients that may be anything.

    Raises:
        Refusal: none or several are asked for, or one cannot be read.
    """
    asked = [one for one in (grade, ratio, purpose_key) if one is not None]
    if len(asked) != 1:
        raise Refusal(
            Fault(
                place="wish",
                read="",
                sentence="A recipe needs one wish: a grade, a ratio or a purpose.",
                remedy="Give one of --wish 4-4-4, --ratio 3-1-2, --purpose "
                f"({', '.join(purposes())}).",
            )
        )
    off = None if within is None else read_number(within, "--within")
    if grade is not None:
        return grade_target(grade, GRADE_WITHIN if off is None else off, free)
    if ratio is not None:
        return ratio_target(ratio, RATIO_WITHIN if off is None else off, free)
    return purpose_target(purpose_key or "")


def grade_target(
    grade: Mapping[Nutrient, Fraction], within: Fraction, free: Collection[str] = ()
) -> GradeTarget:
    """A grade whose numbers may each be so far off [percent]; free ones may be anything."""
    percent = {n.value: number for n, number in grade.items() if n.value not in free}
    return GradeTarget(percent=percent, tolerance=dict.fromkeys(percent, within))


def ratio_target(text: str, within: Fraction, free: Collection[str] = ()) -> RatioTarget:
    """Three parts as ratios to nitrogen, each allowed so far off [parts for 1 of N].

    Raises:
        Refusal: it is not three numbers, or there is no nitrogen in it.

    >>> ratio_target("3-1-2", Fraction(1, 4)).aim["K2O"]
    Fraction(2, 3)
    """
    words = re.split(r"\s*[-:\N{EN DASH}]\s*", text.strip())
    if len(words) != len(PRIMARY):
        raise Refusal(_no_ratio(text, "A ratio is three parts, N-P2O5-K2O."))
    n, *others = (read_number(word, "--ratio") for word in words)
    if not n:
        raise Refusal(_no_ratio(text, "A ratio is to nitrogen, and there is none in it."))
    names = [nutrient.value for nutrient in PRIMARY[1:]]
    aim = {name: part / n for name, part in zip(names, others, strict=True) if name not in free}
    return RatioTarget(
        low={name: max(Fraction(0), part - within) for name, part in aim.items()},
        aim=aim,
        high={name: part + within for name, part in aim.items()},
    )


def purpose_target(key: str) -> RatioTarget:
    """The ratios of a purpose.

    Raises:
        Refusal: there is no such purpose.
    """
    if key not in purposes():
        raise Refusal(
            Fault(
                place="--purpose",
                read=key,
                sentence="There is no such purpose.",
                remedy=f"Take one of {', '.join(purposes())}.",
            )
        )
    return purpose(key).target


def _no_ratio(text: str, sentence: str) -> Fault:
    return Fault(place="--ratio", read=text, sentence=sentence, remedy="Write it like 3-1-2.")
