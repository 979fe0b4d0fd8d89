"""Earlier years as typed and the diary's years run on in one account."""

from datetime import date
from fractions import Fraction

from halfpail.application.account_phosphorus import account_phosphorus
from halfpail.application.garden_entry import BedEntry, YearEntry
from halfpail.application.need_of_bed import need_of_bed
from halfpail.domain.bed import Bed, Content
from halfpail.domain.diary import Fed

BED = Bed(key="East", name="East", area_m2=Fraction(10), crop="tomato", needs=())


def fed(year: int) -> Fed:
    """Half a kilogram of P2O5 on ten square metres."""
    return Fed(
        on=date(year, 5, 1),
        bed="East",
        of="meal",
        straight=True,
        scoops=Fraction(1),
        mass_kg=Fraction(5),
        holds={Content.P2O5_TOTAL: Fraction(1, 10)},
    )


def test_years_of_the_diary_run_on_from_those_typed():
    typed = YearEntry(
        place="", year=2025, given_kg_per_m2=Fraction(1, 10), crop="tomato", yield_kg_per_m2=None
    )
    entry = BedEntry(name="East", place="", area_m2=Fraction(10), crop="tomato", years=(typed,))
    worked = need_of_bed(entry).worked
    assert worked
    lines = account_phosphorus(BED, worked, [fed(2026), fed(2026), fed(2027)])
    assert [line.year.year for line in lines] == [2025, 2026, 2027]
    # By hand: 5 kg at a tenth on 10 m2 is 0.05 kg a m2 for each feeding.
    assert [line.year.given_kg_per_m2 for line in lines[1:]] == [Fraction(1, 10), Fraction(1, 20)]
    assert lines[2].balance_kg_per_m2 - lines[0].balance_kg_per_m2 == Fraction(3, 20)


def test_a_bed_of_typed_ranges_has_its_account_too():
    (line,) = account_phosphorus(BED, None, [fed(2026)])
    assert (line.balance_kg_per_m2, line.expected_mg_per_kg) == (Fraction(1, 20), None)
