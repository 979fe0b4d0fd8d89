"""Needs, credits and published rates against printed figures; each row names its source."""

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.application.compare_needs import TESTED, published_rate_at
from halfpail.application.credit_nitrogen import nitrogen_credits
from halfpail.application.need_question import (
    CoverCrop,
    CropPlan,
    Manure,
    NeedQuestion,
    NitrogenSources,
)
from halfpail.application.read_classes import ClassReading
from halfpail.application.work_out_need import work_out_need
from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient
from halfpail.domain.rate import nutrient_in, product_for
from halfpail.domain.soil_test import Extractant, SoilFigure, SoilTest
from halfpail.reference.published_rates import PublishedRate, rates_for
from halfpail.reference.table_units import table_unit

EXAMPLES = Path(__file__).parents[2] / "examples" / "need_figures.csv"
LB_PER_ACRE = table_unit("lb_per_acre").size
LB_PER_1000 = table_unit("lb_per_1000_sq_ft").size
PER = {"ha": table_unit("kg_per_ha").size, "1000": LB_PER_1000}
TONS = table_unit("tons_per_acre").size


def rows() -> list[dict[str, str]]:
    with EXAMPLES.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def published(**given: str) -> Fraction:
    reading = None
    if "test" in given:
        figure = SoilFigure(
            element=TESTED[given["nutrient"]],
            extractant=Extractant(given["extractant"]),
            value=Fraction(given["test"]),
        )
        reading = ClassReading(figure=figure, read_as=figure)
    rate = published_rate_at(given["crop"], given["nutrient"], given["region"], reading)
    assert rate.low == rate.high
    return rate.high / PER[given["per"]]


def rate_of(region: str, crop: str, nutrient: str, level: str = "") -> PublishedRate:
    return next(
        rate for rate in rates_for(crop, nutrient) if (rate.region, rate.level) == (region, level)
    )


def credited(nitrogen: NitrogenSources, test: SoilTest | None = None) -> Fraction:
    """All credits of a bed that has nothing else [kg/m²]."""
    question = NeedQuestion(
        area_m2=Fraction(10),
        crops=(CropPlan(crop="sweet corn"),),
        nitrogen=nitrogen,
        soil_test=test,
    )
    need = work_out_need(question).nitrogen_before
    return sum((one.rate_kg_per_m2 for one in nitrogen_credits(question, need)), Fraction(0))


def manure(series: str, years: str) -> Fraction:
    given = tuple(
        Manure(
            series=series,
            years_ago=years_ago,
            organic_n_kg_per_m2=Fraction(amount) * LB_PER_ACRE,
        )
        for years_ago, amount in enumerate(years.split(","))
    )
    return credited(NitrogenSources(manure=given)) / LB_PER_ACRE


def cover(percent: str, tons: str) -> Fraction:
    crop = CoverCrop(dry_kg_per_m2=Fraction(tons) * TONS, n_share=Fraction(percent) / 100)
    return credited(NitrogenSources(cover_crop=crop)) / LB_PER_ACRE


def organic(percent: str) -> Fraction:
    test = SoilTest(organic_matter_share=Fraction(percent) / 100)
    return credited(NitrogenSources(), test) / LB_PER_1000


def inside(mass: str, percent: str) -> Fraction:
    analysis = Analysis(shares={Nutrient.N: Fraction(percent) / 100})
    return nutrient_in(Fraction(mass), analysis, Nutrient.N)


COMPUTED: dict[str, Callable[..., Fraction]] = {
    "published": published,
    "level": lambda **given: rate_of(**given).high / LB_PER_ACRE,
    "level_1000": lambda **given: rate_of(**given).high / LB_PER_1000,
    "low": lambda **given: rate_of(**given).low / LB_PER_ACRE,
    "high": lambda **given: rate_of(**given).high / LB_PER_ACRE,
    "low_1000": lambda **given: rate_of(**given).low / LB_PER_1000,
    "manure": manure,
    "cover": cover,
    "organic": organic,
    "product": lambda amount, percent: product_for(Fraction(amount), Fraction(percent) / 100),
    "inside": inside,
}


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published_figure(row):
    given = dict(pair.split("=", 1) for pair in row["inputs"].split(";") if pair)
    found = COMPUTED[row["kind"]](**given)
    assert abs(found - Fraction(row["exact"])) <= Fraction(row["tolerance"]), float(found)


def test_every_row_names_its_source():
    assert [row["id"] for row in rows() if not row["source"]] == []


def test_a_rate_is_not_found_under_another_extractant():
    with pytest.raises(AttributeError):
        published(
            region="Ontario",
            crop="eggplant",
            nutrient="P2O5",
            extractant="Bray-1",
            test="12",
            per="ha",
        )
