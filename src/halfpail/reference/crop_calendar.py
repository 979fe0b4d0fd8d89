"""Stages, planting windows and days to maturity of crops, from the shipped tables."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.frost_calendar import Frost, Offsets, Way
from halfpail.domain.uptake import Habit, Stages
from halfpail.reference.table_units import table_unit
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class CropStages:
    """One row of stages: the crop and region of the source, its habit, and who says so."""

    crop: str
    region: str
    habit: Habit
    stages: Stages
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingRule:
    """When to put a crop in, and who says so."""

    way: Way
    offsets: Offsets
    hardiness: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Maturity:
    """Days from planting to harvest of one kind of a crop [days]; `in_pot` comes on top."""

    kind: str
    early_days: int
    late_days: int
    in_pot: bool
    citation: Citation

    @property
    def middle_days(self) -> int:
        """The middle of early and late [days]."""
        return (self.early_days + self.late_days) // 2


@cache
def crop_stages(crop: str) -> tuple[CropStages, ...]:
    """All rows of stages of a crop by its key.

    >>> [row.stages.total_days for row in crop_stages("lettuce")]
    [75.0, 105.0, 100.0, 140.0]
    """
    return tuple(_stages(row) for row in rows("stage_lengths") if crop in row.words("crops"))


def stages_near(crop: str, total_days: float) -> CropStages:
    """The row of a crop whose season is nearest in length [days].

    Raises:
        ValueError: the table has no stages for that crop.

    >>> stages_near("lettuce", 60).region
    'mediterranean'
    """
    return min(crop_stages(crop), key=lambda row: abs(row.stages.total_days - total_days))


@cache
def planting_rule(crop: str, way: Way = Way.OUTDOORS) -> PlantingRule | None:
    """When a crop is put in; None where the table has nothing for that way.

    >>> planting_rule("tomato").offsets.from_days
    3
    """
    return next(
        (
            _planting(row)
            for row in rows("planting_windows")
            if row.text("crop") == crop and row.text("way") == way
        ),
        None,
    )


@cache
def maturities(crop: str) -> tuple[Maturity, ...]:
    """Days to maturity of a crop by kind, the common kind first; none where the table has none.

    >>> maturities("radish")[0].middle_days
    31
    """
    return tuple(
        Maturity(
            kind=row.text("kind"),
            early_days=int(row.needed("early_days")),
            late_days=int(row.needed("late_days")),
            in_pot=row.text("counted_from") == "transplanting",
            citation=row.citation(),
        )
        for row in rows("days_to_maturity")
        if row.text("crop") == crop
    )


def _stages(row: Row) -> CropStages:
    names = ("initial", "development", "middle", "late")
    initial, development, middle, late = (float(row.needed(f"{name}_days")) for name in names)
    return CropStages(
        crop=row.text("crop"),
        region=row.text("region"),
        habit=Habit(row.text("habit")),
        stages=Stages(
            initial_days=initial,
            development_days=development,
            middle_days=middle,
            late_days=late,
        ),
        citation=row.citation(),
    )


def _planting(row: Row) -> PlantingRule:
    return PlantingRule(
        way=Way(row.text("way")),
        offsets=Offsets(
            frost=Frost(row.text("frost")),
            from_days=_in_days(row, "from"),
            until_days=_in_days(row, "until"),
        ),
        hardiness=row.text("hardiness"),
        citation=row.citation(),
    )


def _in_days(row: Row, column: str) -> int:
    return int(Fraction(row.text(column)) * table_unit(row.text("unit")).size)
