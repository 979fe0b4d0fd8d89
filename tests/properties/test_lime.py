"""What holds for lime whatever the soil: order, proportion, and a gate that stays shut."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from halfpail.application.advise_lime import advise_lime
from halfpail.application.explain_lime import lime_working
from halfpail.application.lime_need import need_by
from halfpail.application.lime_notices import lime_notices
from halfpail.application.lime_question import (
    BedUse,
    EarlierLime,
    Found,
    LimeProduct,
    LimeQuestion,
)
from halfpail.domain.lime_method import Buffer, LimeMethod, Texture
from halfpail.domain.liming_value import material_for
from halfpail.domain.soil_test import BufferReading
from halfpail.reference.lime_tables import lime_methods


def hundredths(low: int, high: int) -> st.SearchStrategy[Fraction]:
    return st.integers(low, high).map(lambda number: Fraction(number, 100))


methods = st.sampled_from(sorted(lime_methods().values(), key=lambda method: method.key))
soils, targets = hundredths(450, 599), hundredths(600, 650)
positions = st.fractions(0, 1, max_denominator=50)
products = st.sampled_from(
    [
        None,
        *(
            LimeProduct(key=key)
            for key in ("calcitic_lime", "hydrated_lime", "wood_ash", "oyster_shell", "quicklime")
        ),
        LimeProduct(key="calcitic_lime", effective=Fraction(3, 10)),
        LimeProduct(key="hydrated_lime", effective=Fraction(13, 10)),
    ]
)


def reading_at(method: LimeMethod, position: Fraction) -> Fraction:
    """A reading within the validity of a method, from its sweetest end to its sourest."""
    span = method.validity.reading
    low, high = span.low or Fraction(0), span.high or Fraction(0)
    if method.buffer is Buffer.ACIDITY:
        return low + position * (high - low)
    return high - position * (high - low)


def need(method: LimeMethod, reading: Fraction, soil: Fraction, target: Fraction) -> Fraction:
    goal = target if method.validity.target_ph.holds(target) else Fraction("6.5")
    return need_by(method, reading, soil, goal)


@given(methods, positions, positions, soils, targets)
def test_more_buffer_acidity_never_asks_for_less_lime(method, one, other, soil, target):
    sweet, sour = sorted((one, other))
    assert need(method, reading_at(method, sour), soil, target) >= need(
        method, reading_at(method, sweet), soil, target
    )


@given(methods, positions, soils, targets)
def test_a_target_below_the_soil_asks_for_none(method, position, soil, target):
    assert need_by(method, reading_at(method, position), target, soil) == 0
    assert need_by(method, reading_at(method, position), target, target) == 0


@given(hundredths(0, 2000), hundredths(1, 200))
def test_twice_the_lime_value_is_half_the_amount(rate, cce):
    assert material_for(rate, 2 * cce) == material_for(rate, cce) / 2


@st.composite
def questions(draw: st.DrawFn) -> LimeQuestion:
    buffer = draw(st.none() | st.sampled_from([Buffer.MEHLICH, Buffer.SIKORA, Buffer.ACIDITY]))
    value = (
        draw(hundredths(480, 660)) if buffer is not Buffer.ACIDITY else draw(hundredths(200, 2500))
    )
    return LimeQuestion(
        soil_ph=draw(hundredths(400, 699)),
        area_m2=draw(hundredths(1, 100_000)),
        use=draw(st.sampled_from(BedUse)),
        buffer=None if buffer is None else BufferReading(buffer=buffer, value=value),
        texture=draw(st.sampled_from(Texture)),
        depth_m=draw(st.none() | hundredths(6, 30)),
        earlier=draw(
            st.none()
            | st.builds(EarlierLime, rate_kg_per_m2=hundredths(0, 100), months=hundredths(0, 2400))
        ),
        product=draw(products),
        calcium=draw(st.sampled_from(Found)),
        magnesium=draw(st.sampled_from(Found)),
        free_lime=draw(st.booleans()),
        planted=draw(st.booleans()),
    )


@settings(max_examples=400)
@given(questions())
def test_no_answer_breaks_a_hard_limit(question):
    answer = advise_lime(question)
    assert answer.breaches == ()
    assert lime_notices(answer, question)
    assert lime_working(answer, question)


@given(questions(), st.integers(2, 50))
def test_twice_the_bed_takes_twice_the_weight(question, times):
    one = advise_lime(question)
    larger = advise_lime(replace(question, area_m2=question.area_m2 * times))
    assert [spread.part_kg * times for spread in one.spreads] == [
        spread.part_kg for spread in larger.spreads
    ]


@given(questions())
def test_a_sweeter_soil_never_gets_more_lime(question):
    assume(question.soil_ph < Fraction("6.8"))
    sweeter = replace(question, soil_ph=question.soil_ph + Fraction(1, 10))
    assert advise_lime(sweeter).wanted_kg_per_m2 <= advise_lime(question).wanted_kg_per_m2


@given(questions())
def test_earlier_lime_never_adds(question):
    assume(question.earlier is not None)
    assert (
        advise_lime(question).wanted_kg_per_m2
        <= advise_lime(replace(question, earlier=None)).wanted_kg_per_m2
    )
