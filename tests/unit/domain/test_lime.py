"""The edges of lime tables, credits, sieves, partings and sulfur."""

from fractions import Fraction

import pytest

from halfpail.domain.lime import ash_in_place, credit_left, for_depth, outside
from halfpail.domain.lime_buffer import (
    IndexLine,
    acidity_need,
    adams_evans_need,
    between,
    mehlich_acidity,
    mehlich_need,
    smp_lime,
    unsaturation,
)
from halfpail.domain.lime_method import Span
from halfpail.domain.lime_table import TableRow, row_of_acidity, row_of_buffer
from halfpail.domain.liming_value import FinenessSystem, cce_of, fineness_factor, material_for
from halfpail.domain.spreading import PartingRule, part
from halfpail.domain.sulfur import SulfurStep, sulfur_need
from halfpail.reference.lime_rates import fineness_steps
from halfpail.reference.lime_tables import (
    SIKORA_STEP,
    acidity_rows,
    lime_methods,
    sikora_rows,
    smp_lines,
)
from halfpail.reference.table_units import table_unit
from halfpail.sources import Citation, Mark

OURS = Citation(mark=Mark.PROPOSAL)
HALF = Fraction(1, 2)
PH6 = Fraction(6)


def lime_to_6(buffer: str) -> Fraction:
    return row_of_buffer(sikora_rows(), Fraction(buffer), SIKORA_STEP).by_target[PH6]


def test_between_two_rows_the_distance_counts():
    """Oregon's rows 6.0 and 5.9 have 2.5 and 2.8 tons to pH 6.0 (EM 9585)."""
    assert lime_to_6("5.95") == (lime_to_6("5.9") + lime_to_6("6.0")) / 2
    assert lime_to_6("5.65") == (lime_to_6("5.6") + lime_to_6("5.7")) / 2


@pytest.mark.parametrize("buffer", ["5.79", "5.75", "5.71"])
def test_nothing_is_drawn_across_the_step_of_the_table(buffer):
    """The table jumps between 5.8 and 5.7; within the jump the row of less lime holds."""
    assert lime_to_6(buffer) == lime_to_6("5.8") < lime_to_6("5.7")


@pytest.mark.parametrize("buffer", ["4.79", "6.91"])
def test_a_buffer_outside_the_table_is_told(buffer):
    with pytest.raises(ValueError, match="outside the table"):
        lime_to_6(buffer)


@pytest.mark.parametrize("acidity", ["1.9", "25.8"])
def test_an_acidity_outside_the_table_is_told(acidity):
    with pytest.raises(ValueError, match="outside the table"):
        row_of_acidity(acidity_rows(), Fraction(acidity))


def test_an_acidity_between_rows_reads_the_row_it_has_reached():
    assert row_of_acidity(acidity_rows(), Fraction("9.6")).reading == 9
    assert row_of_acidity(acidity_rows(), Fraction("9.7")).reading == Fraction("9.7")


def test_between_goals_and_outside_them():
    lime = {PH6: Fraction(1), Fraction(7): Fraction(3)}
    assert between(lime, Fraction("6.5")) == 2
    with pytest.raises(ValueError, match="goals run from"):
        between(lime, Fraction("7.1"))


def test_equations_end_where_they_end():
    with pytest.raises(ValueError, match=r"6\.6"):
        mehlich_need(Fraction(1), Fraction("6.6"), Fraction("6.7"))
    with pytest.raises(ValueError, match="goals"):
        acidity_need(Fraction(5), Fraction(5), Fraction("6.2"))
    for ph in ("4.39", "7.8"):
        with pytest.raises(ValueError, match="curve runs"):
            unsaturation(Fraction(ph))


def test_the_curve_gives_its_own_ph_back():
    """The root is exact to twelve places: 7.79 - 5.55 h + 2.27 h² is the pH again."""
    for ph in (Fraction(tenths, 10) for tenths in range(44, 78)):
        h = unsaturation(ph)
        assert abs(Fraction("7.79") - Fraction("5.55") * h + Fraction("2.27") * h * h - ph) < 1e-10


def test_at_the_target_no_equation_asks_for_lime():
    assert mehlich_need(Fraction(3), PH6, PH6) == 0
    assert adams_evans_need(Fraction(7), PH6, PH6) == 0
    assert acidity_need(Fraction(9), Fraction(7), Fraction(7)) == 0
    assert mehlich_acidity(Fraction(7)) == 0


def test_the_remembered_lines_and_the_remembered_table_agree():
    """Two remembered forms of one bulletin, no oracle: within a rounded tenth of a ton."""
    tons = {70: "0", 68: "1.2", 64: "4.7", 60: "8.1"}
    line = smp_lines()[Fraction("6.5")]
    ton = table_unit("tons_per_acre").size
    for index, remembered in tons.items():
        found = smp_lime(Fraction(index, 10), {PH6: line})[PH6] / ton
        assert abs(found - Fraction(remembered)) <= Fraction("0.11")


def test_a_line_below_nought_asks_for_none():
    line = IndexLine(intercept=Fraction(1), slope=Fraction(1))
    assert smp_lime(Fraction(7), {PH6: line}) == {PH6: 0}


def test_outside_tells_every_figure():
    method = lime_methods()["adams_evans"]
    found = outside(method, Fraction("6.9"), Fraction("6.2"), Fraction("6.8"))
    assert [one.what for one in found] == ["buffer", "soil pH", "target pH"]
    assert outside(method, Fraction("7.5"), Fraction("5.5"), Fraction("6.5")) == ()


def test_open_spans_hold_everything():
    assert Span().holds(Fraction(1000))
    assert not Span(high=Fraction(1)).holds(Fraction(2))


def test_credit_never_falls_below_nought():
    assert credit_left(Fraction(2), Fraction(60), Fraction(8, 100)) == 0


def test_ash_stops_at_its_yearly_most():
    assert ash_in_place(Fraction(1), HALF, Fraction(3)) == 2
    assert ash_in_place(Fraction(9), HALF, Fraction(3)) == 3


def test_half_the_depth_takes_half_the_lime():
    assert for_depth(Fraction(4), Fraction(4), Fraction(8)) == 2


@pytest.mark.parametrize("formula", ["CO(NH2)2", "Ca(NO3)2", "FeSO4.7H2O", "NH4H2PO4"])
def test_what_soil_life_turns_has_no_lime_value_by_formula(formula):
    with pytest.raises(ValueError, match="not a matter of formula"):
        cce_of(formula)


def test_a_compound_of_no_lime_value_limes_nothing():
    with pytest.raises(ValueError, match="does not lime"):
        material_for(Fraction(1), cce_of("CaSO4.2H2O"))


@pytest.mark.parametrize(
    ("passing", "said"),
    [
        ({20: "98"}, "passes 60, 100 mesh"),
        ({20: "60", 60: "75", 100: "50"}, "lets more through"),
        ({20: "101", 60: "75", 100: "50"}, "lets more through"),
    ],
)
def test_sieves_that_cannot_be(passing, said):
    shares = {mesh: Fraction(percent) / 100 for mesh, percent in passing.items()}
    with pytest.raises(ValueError, match=said):
        fineness_factor(shares, fineness_steps(FinenessSystem.NEW_YORK))


def halves(least: int) -> PartingRule:
    return PartingRule(
        least=Fraction(least), step=Fraction(1), parts=2, months_apart=6, citation=OURS
    )


def test_a_part_of_a_pound_counts_as_the_next_pound():
    assert part(Fraction("10.01"), [halves(11)]).parts == 2
    assert part(Fraction(10), [halves(11)]).parts == 1


def test_a_stronger_material_is_parted_by_what_it_does():
    """Eight pounds that do what twelve would are parted as twelve."""
    found = part(Fraction(8), [halves(11)], Fraction(5), weighing=Fraction(3, 2))
    assert (found.parts, found.part_kg_per_m2) == (2, Fraction(10, 3))
    assert found.planned_kg_per_m2 + found.waits_kg_per_m2 == 8


def test_sulfur_outside_its_steps_is_told():
    steps = [SulfurStep(from_ph=Fraction(7), to_ph=PH6, rate_kg_per_m2=Fraction(2))]
    assert sulfur_need(steps, PH6, Fraction(7)) == 0
    for soil, target in (("7.1", "6.5"), ("6.5", "5.9")):
        with pytest.raises(ValueError, match="steps run from"):
            sulfur_need(steps, Fraction(soil), Fraction(target))


def test_a_row_without_a_step_is_its_own():
    rows = [TableRow(reading=PH6, by_target={PH6: Fraction(1)})]
    assert row_of_buffer(rows, PH6, SIKORA_STEP) == rows[0]
