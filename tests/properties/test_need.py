"""More in the soil never asks for more from the bag; a need knows no acre but its own."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from halfpail.application.need_question import CropPlan, NeedQuestion
from halfpail.application.work_out_need import WorkedNeed, work_out_need
from halfpail.domain.bed import Ground, NeedRange
from halfpail.domain.phosphorus_account import PhosphorusYear, phosphorus_account
from halfpail.domain.soil_class import ClassTable, SoilClass
from halfpail.domain.soil_test import Element, SoilFigure, SoilTest
from halfpail.quantities.units import size_of
from halfpail.reference.crops import crops
from halfpail.reference.needs import movement
from halfpail.reference.soil_classes import class_tables
from halfpail.reference.table_units import table_unit

OXIDES = {Element.P: "P2O5", Element.K: "K2O"}
FIELD = [
    table
    for table in class_tables()
    if table.element in OXIDES and table.extractant.value != "saturated media"
]
SIDES = ("least", "aim", "most", "cap")

crop_keys = st.sampled_from(sorted(crops()))
tables = st.sampled_from(FIELD)
amounts = st.fractions(min_value=0, max_value=900, max_denominator=4)
areas = st.fractions(min_value=Fraction(1, 2), max_value=50, max_denominator=10)
shares = st.fractions(min_value=0, max_value=Fraction(1, 5), max_denominator=1000)


def need_at(crop: str, table: ClassTable, value: Fraction) -> NeedRange:
    figure = SoilFigure(
        element=table.element, extractant=table.extractant, value=value, scale=table.scale
    )
    test = SoilTest(figures=(figure,), region=table.key)
    found = work_out_need(_question(crop, soil_test=test)).need(OXIDES[table.element])
    assert found is not None
    return found


def _question(crop: str, area_m2: Fraction = Fraction(10), **rest: object) -> NeedQuestion:
    plans = (CropPlan(crop=crop),)
    return NeedQuestion(area_m2=area_m2, crops=plans, **rest)  # type: ignore[arg-type]  # a shorthand of the tests


def asks_no_more(more: NeedRange, less: NeedRange) -> bool:
    return all(getattr(more, side) <= getattr(less, side) for side in SIDES)


@given(crop_keys, tables, amounts, amounts)
def test_more_soil_test_never_asks_for_more(crop, table, one, other):
    low, high = sorted((one, other))
    assert asks_no_more(need_at(crop, table, high), need_at(crop, table, low))


@given(crop_keys, tables, amounts)
def test_low_ground_needs_at_least_what_the_harvest_takes_and_no_other_does(crop, table, value):
    step = next(step for step in table.steps if step.holds(value))
    need, removed = need_at(crop, table, value), work_out_need(_question(crop)).removed
    taken = removed.p2o5 if table.element is Element.P else removed.k2o
    is_low = step.soil_class in (SoilClass.VERY_LOW, SoilClass.LOW)
    assert need.least == (min(taken, need.aim) if is_low else 0)


@given(crop_keys, tables, amounts)
def test_nothing_very_high_is_ever_fed(crop, table, value):
    step = next(step for step in table.steps if step.holds(value))
    if step.soil_class is SoilClass.VERY_HIGH:
        assert all(getattr(need_at(crop, table, value), side) == 0 for side in SIDES)


@given(crop_keys, shares, shares)
def test_more_organic_matter_never_asks_for_more_nitrogen(crop, one, other):
    low, high = sorted((one, other))
    needs = [
        work_out_need(_question(crop, soil_test=SoilTest(organic_matter_share=share))).needs[0]
        for share in (low, high)
    ]
    assert asks_no_more(needs[1], needs[0])


@given(crop_keys, st.integers(0, 10), st.integers(0, 5))
def test_more_compost_never_asks_for_more(crop, tenths, years):
    def found(layers: int) -> WorkedNeed:
        depth = layers * size_of("in") / 10
        return work_out_need(
            _question(crop, ground=Ground(compost_m_per_year=depth, compost_years=years))
        )

    for more, less in zip(found(tenths + 1).needs, found(tenths).needs, strict=True):
        assert asks_no_more(more, less)


@given(crop_keys, areas)
def test_a_need_for_each_area_is_the_same_so_what_is_given_grows_with_the_bed(crop, area_m2):
    assert work_out_need(_question(crop, area_m2)).needs == work_out_need(_question(crop)).needs


@given(crop_keys, areas, st.integers(2, 9))
def test_the_need_of_a_container_grows_with_its_mix(crop, area_m2, times):
    small = work_out_need(_question(crop, area_m2, container_l=Fraction(20)))
    large = work_out_need(_question(crop, area_m2, container_l=Fraction(20) * times))
    for one, many in zip(small.needs, large.needs, strict=True):
        assert many.aim == times * one.aim
        assert many.most == times * one.most


@given(crop_keys, st.sampled_from([None, *FIELD]), amounts)
def test_every_range_rises_and_none_is_below_nought(crop, table, value):
    needs = work_out_need(_question(crop)).needs if table is None else [need_at(crop, table, value)]
    for need in needs:
        assert 0 <= need.least <= need.aim <= need.most <= need.cap


@given(st.lists(st.tuples(shares, shares), max_size=6))
def test_the_account_ends_where_its_sums_do(pairs):
    years = [
        PhosphorusYear(year=2000 + number, given_kg_per_m2=given_p, removed_kg_per_m2=taken)
        for number, (given_p, taken) in enumerate(pairs)
    ]
    lines = phosphorus_account(years, movement("P2O5"))
    balance = sum((given_p - taken for given_p, taken in pairs), Fraction(0))
    assert not lines or lines[-1].balance_kg_per_m2 == balance
    assert all(line.surplus_kg_per_m2 >= 0 for line in lines)


@given(crop_keys, st.lists(shares, max_size=4))
def test_a_year_s_most_phosphorus_never_passes_the_stop_of_the_account(crop, given_p):
    years = tuple(
        PhosphorusYear(year=2000 + number, given_kg_per_m2=amount)
        for number, amount in enumerate(given_p)
    )
    found = work_out_need(_question(crop, years=years))
    stop = Fraction(1, 2) * table_unit("lb_per_100_sq_ft").size
    over = max(Fraction(0), found.surplus_kg_per_m2 - stop)
    assert found.surplus_kg_per_m2 - over + found.stop_kg_per_m2 - found.removed.p2o5 <= stop
