"""A mix told whole: what one scoop would do, what may not share the pail, what holds the label."""

from fractions import Fraction

import pytest

from halfpail.application.allow_for_label import label_allowance
from halfpail.application.gather_bags import gather_bags
from halfpail.application.keep_apart import bags_apart, clashes
from halfpail.application.sum_mix import MixQuestion, MixSum, sum_mix
from halfpail.domain.band import mix_bands
from halfpail.domain.label import Grade
from halfpail.domain.matter import Nutrient
from halfpail.domain.stock import Bag
from halfpail.findings import Severity
from halfpail.quantities.units import size_of
from halfpail.reference.compatibility import Verdict
from halfpail.reference.defaults import default

CUP = size_of("cup")


def summed(*lines: str, pail: str = "20") -> MixSum:
    gathered = gather_bags(lines, CUP)
    return sum_mix(
        MixQuestion(
            parts=gathered.parts, others=gathered.others, scoop_l=CUP, pail_l=Fraction(pail)
        )
    )


def filled(*lines: str) -> list[Bag]:
    return [part.bag for part in gather_bags(lines, CUP).parts]


def test_the_printed_grade_is_rounded_down():
    """A guarantee is a least: 14/3 is printed as 4 (New York, Maryland, Kansas)."""
    answer = summed("4-4-4, 1 scoop", "5-1-1, 2 scoops")
    assert answer.printed == Grade(n=Fraction(4), p2o5=Fraction(2), k2o=Fraction(2))


def test_one_scoop_more_of_each_and_less_of_what_is_there():
    answer = summed("4-4-4, 1 scoop", "5-1-1, 2 scoops", "0-0-50")
    changes = [(nudge.bag.name, nudge.change) for nudge in answer.nudges]
    assert changes == [("4-4-4", 1), ("5-1-1", 1), ("0-0-50", 1), ("4-4-4", -1), ("5-1-1", -1)]
    more = answer.nudges[2].mix
    assert more.scoops == answer.mix.scoops + 1
    assert more.analysis.of(Nutrient.K2O) > answer.mix.analysis.of(Nutrient.K2O)


def test_a_clash_is_said_before_the_scoop_is_taken():
    """Ammonium fertilizers not with lime of any kind (verified rule of the compatibility page)."""
    answer = summed("21-0-0 ammonium sulfate, 1 scoop", "0-1-3 wood ash")
    assert [nudge.bag.name for nudge in answer.nudges if nudge.apart] == ["wood ash"]


@pytest.mark.parametrize(
    ("lines", "verdict"),
    [
        (("46-0-0 urea", "0-20-0 superphosphate"), Verdict.APART),
        (("18-46-0 diammonium phosphate", "0-1-3 wood ash"), Verdict.APART),
        (("46-0-0 urea", "21-0-0 ammonium sulfate"), Verdict.SAME_DAY),
    ],
)
def test_what_may_not_share_a_pail(lines, verdict):
    """Verified pair rules: urea and superphosphates; ammonium phosphates and lime; urea mixes."""
    (clash,) = clashes(filled(*lines))
    assert clash.pair.verdict is verdict
    keys = frozenset(bag.key for bag in filled(*lines))
    assert bags_apart(filled(*lines)) == ({keys} if verdict is Verdict.APART else frozenset())


def test_bags_of_unnamed_stuff_say_nothing_of_each_other():
    assert clashes(filled("4-4-4", "5-1-1")) == ()


def test_a_clash_in_the_mix_stops():
    answer = summed("46-0-0 urea, 1 scoop", "0-20-0 superphosphate, 1 scoop")
    stops = [n.sentence for n in answer.notices if n.severity is Severity.STOP]
    assert any("must not share a pail" in sentence for sentence in stops)


def test_a_round_too_big_for_the_pail_is_said():
    answer = summed("4-4-4, 12 scoops", pail="5")
    assert answer.pail.rounds == 0
    assert any("smaller scoop" in notice.sentence for notice in answer.notices)


@pytest.mark.parametrize(
    ("nutrient", "guaranteed", "allowance"),
    [
        (Nutrient.CA, "8", "0.60"),
        (Nutrient.MG, "1", "0.25"),
        (Nutrient.S, "15", "0.95"),
        (Nutrient.S, "20", "1"),
        (Nutrient.N, "40", "0.88"),
    ],
)
def test_allowance_below_the_label(nutrient, guaranteed, allowance):
    """New Hampshire Agr 1105.04, computed; N above 32 %: 0.88 (verified)."""
    found = label_allowance(nutrient, Fraction(guaranteed) / 100) * 100
    assert found == Fraction(allowance)


def test_between_two_guarantees_the_allowance_lies_between():
    low, middle, high = (label_allowance(Nutrient.N, Fraction(n, 100)) for n in (10, 11, 12))
    assert low < middle < high


def test_the_band_never_promises_more_than_the_labels():
    answer = summed("4-4-4, 1 scoop", "5-1-1, 2 scoops")
    at_its_word = mix_bands(answer.mix, default("scoop_error").value).shares[Nutrient.N]
    band = answer.bands.shares[Nutrient.N]
    assert band.high == at_its_word.high
    assert band.low < at_its_word.low


def test_the_working_adds_up_to_the_sum():
    answer = summed("4-4-4, 1 scoop", "5-1-1, 2 scoops")
    text = "\n".join(step.sum for step in answer.working)
    assert "4-4-4: 1 x 4 = 4\n5-1-1: 2 x 5 = 10\ntotal 14 / 3 = 4.6%" in text
