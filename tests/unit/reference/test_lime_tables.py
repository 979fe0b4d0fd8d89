"""Lime and sulfur tables: in order, and what may never back a default cannot."""

from fractions import Fraction
from itertools import pairwise

import pytest

from halfpail.domain.lime_method import Buffer, Texture, Use
from halfpail.domain.liming_value import FinenessSystem
from halfpail.reference.lime_rates import (
    CAREFUL,
    acidifying,
    calcium_in_crops,
    careful_rate,
    fineness_citation,
    fineness_steps,
    lime_by_texture,
    parting_rules,
    sulfur_citation,
    sulfur_steps,
)
from halfpail.reference.lime_tables import (
    acidity_rows,
    lime_methods,
    methods_for,
    sikora_rows,
    smp_lines,
)
from halfpail.sources import Mark

HIGHEST_TARGET = Fraction("6.8")


def test_more_acid_never_asks_for_less_lime_in_a_table():
    for rows in (sorted(sikora_rows(), key=lambda row: -row.reading), acidity_rows()):
        for one, other in pairwise(rows):
            for target, lime in one.by_target.items():
                assert other.by_target[target] >= lime


def test_a_higher_target_never_asks_for_less_lime():
    for row in (*sikora_rows(), *acidity_rows()):
        by_target = [row.by_target[target] for target in sorted(row.by_target)]
        assert by_target == sorted(by_target)


def test_every_row_of_the_two_tables_is_there():
    assert [row.reading for row in sikora_rows()] == [
        Fraction(tenths, 10) for tenths in range(69, 47, -1)
    ]
    assert len(acidity_rows()) == 38


def test_columns_for_look_ups_only_back_no_method():
    """To 7.0 and 7.2 are published; no garden bed aims there."""
    assert Fraction("7.2") in sikora_rows()[0].by_target
    assert Fraction(7) in acidity_rows()[0].by_target
    for method in lime_methods().values():
        assert method.validity.target_ph.high <= HIGHEST_TARGET


@pytest.mark.parametrize("buffer", Buffer)
def test_every_buffer_has_a_method_that_reaches_the_common_target(buffer):
    assert any(one.validity.target_ph.holds(Fraction("6.5")) for one in methods_for(buffer))


def test_the_equation_of_acidity_comes_before_its_table():
    assert [one.key for one in methods_for(Buffer.ACIDITY)] == ["acidity_pa", "acidity_pa_table"]


def test_remembered_methods_say_so():
    marks = {key: one.citation.mark for key, one in lime_methods().items()}
    assert marks["smp"] is marks["adams_evans"] is Mark.MEMORY
    assert marks["sikora"] is marks["mehlich_nc"] is marks["acidity_pa"] is Mark.VERIFIED
    assert set(smp_lines()) == {6, Fraction("6.5"), HIGHEST_TARGET}


def test_only_the_careful_rate_is_used_without_a_buffer_test():
    used = {one.system for one in lime_by_texture() if one.use is Use.BED}
    assert used == {CAREFUL}
    assert all(one.reason for one in lime_by_texture() if one.use is Use.SHOWN)


def test_the_careful_rate_is_the_lowest_for_its_texture():
    """Each careful rate stands at or below every published one for the step from 5.5 to 6.5."""
    for texture in Texture:
        careful = careful_rate(texture)
        published = [
            one.low
            for one in lime_by_texture()
            if one.use is Use.SHOWN and one.texture is texture and one.from_ph == Fraction("5.5")
        ]
        assert careful is None or all(careful.low <= other for other in published)


def test_nothing_but_the_michigan_table_makes_soil_sour_here():
    used = [one for one in acidifying() if one.use is Use.BED]
    assert {one.system for one in used} == {"michigan"}
    assert {one.material for one in used} == {"sulfur"}
    assert sulfur_citation().source == "michigan-soil-ph"
    assert sulfur_steps(Texture.CLAY) == sulfur_steps(Texture.CLAY_LOAM)


def test_iron_and_ammonium_sulfate_are_published_and_not_used():
    for material in ("ferrous sulfate", "ammonium sulfate"):
        rows = [one for one in acidifying() if one.material == material]
        assert rows
        assert all(one.use is Use.SHOWN and one.reason for one in rows)


@pytest.mark.parametrize("system", FinenessSystem)
def test_fineness_steps_follow_on_each_other(system):
    steps = fineness_steps(system)
    for coarse, fine in pairwise(steps):
        assert coarse.not_through_mesh == fine.through_mesh
        assert coarse.counted < fine.counted
    assert steps[-1].not_through_mesh is None
    assert fineness_citation(system).mark is Mark.VERIFIED


def test_rules_of_turf_part_no_bed():
    assert [rule.parts for rule in parting_rules("garden")] == [2, 3]
    assert [rule.parts for rule in parting_rules("epsom")] == [2]


def test_crops_hold_less_calcium_than_one_spreading_of_lime_brings():
    """New England removal table: celery 110 lb an acre is the most."""
    most = max(one.calcium_kg_per_m2 for one in calcium_in_crops())
    assert most == next(
        one.calcium_kg_per_m2 for one in calcium_in_crops() if one.crop == "celery, whole plant"
    )
