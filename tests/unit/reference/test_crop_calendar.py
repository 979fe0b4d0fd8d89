"""Stages, windows and days to maturity: every crop has them, and the printed rows add up."""

import pytest

from halfpail.domain.frost_calendar import Way
from halfpail.reference.crop_calendar import crop_stages, maturities, planting_rule, stages_near
from halfpail.reference.crops import crops
from halfpail.reference.tables import rows
from halfpail.sources import Mark

STAGES = rows("stage_lengths")
PRINTED = [row for row in STAGES if row.text("source") == "fao-56"]
PARTS = ("initial_days", "development_days", "middle_days", "late_days")


@pytest.mark.parametrize(
    "row", PRINTED, ids=lambda row: f"{row.text('crop')} {row.text('planted')} {row.text('region')}"
)
def test_printed_stages_add_up_to_their_printed_total(row):
    """Irrigation and Drainage Paper 56, table 11: each row prints its own total."""
    told = sum(row.needed(part) for part in PARTS) == row.needed("total_days")
    assert told != ("not the sum" in row.text("locator"))


def test_one_printed_total_is_a_misprint():
    """Sweet maize in Idaho prints 110 days for parts of 100; the parts are used."""
    (odd,) = (row for row in PRINTED if "not the sum" in row.text("locator"))
    assert (odd.text("crop"), odd.needed("total_days")) == ("maize sweet", 110)
    assert 100 in [row.stages.total_days for row in crop_stages("sweet_corn")]


def test_the_whole_printed_table_is_there():
    assert len(PRINTED) == 77


@pytest.mark.parametrize("crop", crops())
def test_every_crop_has_stages_and_a_window(crop):
    assert crop_stages(crop)
    rule = planting_rule(crop)
    assert rule is not None
    assert rule.offsets.from_days <= rule.offsets.until_days


def test_windows_of_verified_crops_rest_on_the_bulletin():
    """University of Illinois Extension names 22 of the crops."""
    rules = [rule for crop in crops() if (rule := planting_rule(crop))]
    assert sum(rule.citation.mark is Mark.DERIVED for rule in rules) == 22


def test_plants_are_started_before_they_are_set_out():
    for crop in crops():
        indoors, outdoors = planting_rule(crop, Way.INDOORS), planting_rule(crop)
        if indoors is not None:
            assert indoors.offsets.from_days < outdoors.offsets.from_days


def test_early_is_not_after_late():
    kinds = [kind for crop in crops() for kind in maturities(crop)]
    assert len(kinds) == len(rows("days_to_maturity"))
    assert all(0 < kind.early_days <= kind.late_days for kind in kinds)


def test_the_nearest_season_is_taken():
    assert stages_near("lettuce", 140).region == "mediterranean"
    assert stages_near("tomato", 180).region == "arid region"
