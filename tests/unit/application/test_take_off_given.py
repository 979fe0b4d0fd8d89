"""What a bed got already is taken off its needs, by hand sums."""

from fractions import Fraction

import pytest

from halfpail.application.open_garden import open_garden
from halfpail.findings import Refusal
from halfpail.garden_file.reader import read_text
from halfpail.reference.table_units import table_unit

LB = table_unit("lb_per_100_sq_ft").size
TEXT = """
[tools]
scoop = "2 cups"
pail = "5 gal"

[[bags]]
name = "Blood meal"
label = "12-0-0"
weight = "5 lb"
price = "9"

[[beds]]
name = "North"
crop = "tomato"
size = "100 sq ft"
"""


def opened(given: str = "", crop: str = "tomato"):
    text = TEXT.replace("tomato", crop)
    return open_garden(read_text(text + given)).beds[0]


def test_every_side_of_a_need_is_lessened_by_its_own_figure():
    """A pound of urea on 100 sq ft is 0.46 lb; a quarter of it 0.115, and all is usable."""
    before = opened()
    given = 'given = [{ of = "46-0-0 urea", amount = "0.25 lb", on = "2027-04-20" }]\n'
    after = opened(given)
    n_before, n_after = before.bed.need("N"), after.bed.need("N")
    taken = Fraction(115, 1000) * LB
    assert n_after.aim == n_before.aim - taken
    assert n_after.most == n_before.most - taken
    assert n_after.least == max(0, min(n_before.least - taken, n_after.aim))
    assert after.bed.need("P2O5") == before.bed.need("P2O5")


def test_the_whole_need_of_the_season_is_kept_beside_it():
    given = 'given = [{ of = "Blood meal", amount = "1 lb", on = "2027-04-20" }]\n'
    after = opened(given)
    assert after.need == opened().need
    assert after.bed.given[0].food.name == "Blood meal"
    assert after.bed.given[0].rate_kg_per_m2 == LB
    assert after.bed.facts == opened().bed.facts


def test_the_most_of_phosphorus_is_lessened_by_all_of_it():
    bone = (
        'given = [{ of = "Bone meal 3-13-0\\nDerived from: steamed bone meal", amount = "0.2 lb", '
        'on = "2027-04-20" }]\n'
    )
    before, after = opened().bed.need("P2O5"), opened(bone).bed.need("P2O5")
    assert after.cap == before.cap - Fraction(2, 10) * Fraction(24, 100) * LB
    assert after.aim == min(
        max(0, before.aim - Fraction(2, 10) * Fraction(13, 100) * LB), after.most
    )


def test_more_than_a_bed_needs_leaves_a_need_of_nothing():
    much = 'given = [{ of = "46-0-0 urea", amount = "50 lb", on = "2027-04-20" }]\n'
    need = opened(much).bed.need("N")
    assert (need.least, need.aim, need.most, need.cap) == (0, 0, 0, 0)


@pytest.mark.parametrize("of", ["Dragon meal", "99-99-99"])
def test_what_is_neither_a_bag_nor_a_label_is_refused_beside_its_place(of):
    with pytest.raises(Refusal) as refused:
        opened(f'given = [{{ of = "{of}", amount = "1 lb", on = "2027-04-20" }}]\n')
    assert refused.value.faults[0].place.startswith("beds[1].given[1].of")
