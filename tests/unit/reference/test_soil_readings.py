"""Every published end of a class, read back; each row names its source."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.domain.soil_class import SHORT, SoilClass, class_of
from halfpail.domain.soil_test import (
    Element,
    Extractant,
    Printed,
    Scale,
    SoilFigure,
    SoilUnit,
    soil_figure,
)
from halfpail.reference.passport import cells
from halfpail.reference.published_rates import published_rates
from halfpail.reference.soil_classes import class_tables, own_table, region_called, regions
from halfpail.reference.soil_methods import conversions, equivalent_weights, index_equations
from halfpail.sources import Mark

EXAMPLES = Path(__file__).parents[2] / "examples" / "soil_readings.csv"


def rows() -> list[dict[str, str]]:
    with EXAMPLES.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published_class(row):
    printed = Printed(value=Fraction(row["value"]), unit=SoilUnit(row["unit"]))
    figure = soil_figure(
        Element(row["element"]), Extractant(row["extractant"]), printed, equivalent_weights()
    )
    table = own_table(figure, row["region"])
    assert table
    assert class_of(figure, table).printed == row["printed_class"]


def test_the_usual_table_of_an_extractant_is_a_verified_one_wherever_there_is_one():
    for table in class_tables():
        figure = SoilFigure(
            element=table.element,
            extractant=table.extractant,
            value=Fraction(1),
            scale=table.scale,
        )
        marks = [
            {step.citation.mark for step in one.steps}
            for one in class_tables()
            if (one.element, one.extractant, one.scale)
            == (table.element, table.extractant, table.scale)
        ]
        if {Mark.VERIFIED} in marks:
            assert {step.citation.mark for step in own_table(figure).steps} == {Mark.VERIFIED}


def test_classes_rise_and_end():
    for table in class_tables():
        tops = [step.top for step in table.steps]
        ends = [top for top in tops if top is not None]
        assert tops == [*ends, None]
        assert ends == sorted(ends)
        ranks = [list(SoilClass).index(step.soil_class) for step in table.steps]
        assert ranks == sorted(ranks)


def test_a_figure_is_never_read_in_the_table_of_another_extractant():
    for table in class_tables():
        for extractant in Extractant:
            figure = SoilFigure(
                element=table.element, extractant=extractant, value=Fraction(9), scale=table.scale
            )
            if extractant is not table.extractant:
                with pytest.raises(ValueError, match="cannot be read"):
                    class_of(figure, table)


def test_an_index_is_never_read_as_parts_per_million():
    figure = SoilFigure(
        element=Element.P,
        extractant=Extractant.MEHLICH_3_ICP,
        value=Fraction(60),
        scale=Scale.INDEX,
    )
    assert own_table(figure).region == "North Carolina"


def test_mehlich_phosphorus_by_colour_and_by_icp_have_different_tables():
    icp, colour = (
        own_table(SoilFigure(element=Element.P, extractant=extractant, value=Fraction(30)))
        for extractant in (Extractant.MEHLICH_3_ICP, Extractant.MEHLICH_3_COLOUR)
    )
    assert icp.region != colour.region


def test_morgan_is_never_converted():
    morgan = (Extractant.MORGAN, Extractant.MODIFIED_MORGAN)
    assert not [one for one in conversions().values() if one.of in morgan or one.to in morgan]


def test_what_may_not_be_used_is_in_no_table_of_classes():
    """Not used: an optimum of 161-200 ppm P, boron warned at 20 only, 40 ppm nitrate as enough."""
    assert ("B", "20") not in {(line["element"], line["top"]) for line in cells("soil_classes")}
    for table in class_tables():
        ends = [step.top for step in table.steps if step.soil_class in SHORT and step.top]
        if table.element is Element.P and table.scale is Scale.MASS:
            assert max(ends) <= 60
        if table.element is Element.NITRATE and table.extractant is Extractant.WATER:
            assert max(ends) <= 20


def test_what_breaks_a_limit_is_shown_with_its_reason_and_never_used():
    for rate in published_rates():
        heavy = rate.nutrient == "N" and rate.high * 100 > 15
        assert rate.reason or not heavy
    roses = [rate for rate in published_rates() if "rose" in rate.crops]
    fed_at_very_high = [rate for rate in published_rates() if "potato" in rate.crops]
    assert roses and all(rate.reason for rate in roses)
    assert fed_at_very_high and all(rate.reason for rate in fed_at_very_high)
    assert index_equations()[22].reason


def test_regions_are_found_by_key_and_name():
    assert all(region_called(key) == key == region_called(name) for key, name in regions().items())
