"""Nitrogen that a bed gets of itself, source by source, with the sum behind each."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from fractions import Fraction

from halfpail.application.need_question import NeedQuestion
from halfpail.domain.bed import NeedRange
from halfpail.domain.cover_crop import plant_available
from halfpail.domain.decay_series import released_this_year
from halfpail.domain.nitrogen_credit import (
    NitrogenCredit,
    of_organic_matter,
    of_soil_nitrate,
    of_water,
)
from halfpail.domain.soil_test import Element
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_length, show_rate
from halfpail.quantities.units import size_of
from halfpail.reference.decay_series import cover_crop_line, decay_series
from halfpail.reference.defaults import default
from halfpail.reference.needs import organic_matter_rule
from halfpail.sources import Citation, Mark

NONE = Fraction(0)
COMPOST = "compost"
YEARS = 3
_PHYSICS = Citation(mark=Mark.DERIVED, locator="one part per million of a metre of water is 1 g/m²")


def nitrogen_credits(question: NeedQuestion, need: NeedRange) -> tuple[NitrogenCredit, ...]:
    """What need not be given of a bed's nitrogen [kg/m²], the larger of humus and compost only.

    Organic matter of the soil and the decay of compost given are the same humus seen twice, so
    never both count. A container lives of its water alone.
    """
    found = [*_water(question)]
    if question.container_l is None:
        humus, manure = [*_organic_matter(question)], [*_manure(question)]
        found += [*_cover_crop(question), *_soil_nitrate(question), *_legume(question, need)]
        found += max(humus, manure, key=_together)
    return tuple(credit for credit in found if credit.rate_kg_per_m2 > 0)


def _together(credits: Iterable[NitrogenCredit]) -> Fraction:
    return sum((credit.rate_kg_per_m2 for credit in credits), NONE)


def _organic_matter(question: NeedQuestion) -> Iterator[NitrogenCredit]:
    share = question.soil_test.organic_matter_share if question.soil_test else None
    if share is None:
        return
    rule = organic_matter_rule()
    rate = of_organic_matter(share, rule)
    above, percent = shortest(100 * rule.above_share, 1), shortest(100 * share, 1)
    per_cent = show_rate(rule.for_all_kg_per_m2 / 100, question.system)
    most = show_rate(rule.most_kg_per_m2, question.system)
    yield NitrogenCredit(
        name="organic matter of the soil",
        rate_kg_per_m2=rate,
        sum=f"({percent} % - {above} %) x {per_cent}, at most {most}",
        citation=rule.citation,
    )


def _manure(question: NeedQuestion) -> Iterator[NitrogenCredit]:
    """Manure by kind and year, and the compost that is told by its depth."""
    organic: dict[str, list[Fraction]] = defaultdict(lambda: [NONE] * YEARS)
    at_once: dict[str, Fraction] = defaultdict(Fraction)
    for given in question.nitrogen.manure:
        if given.years_ago < YEARS:
            organic[given.series][given.years_ago] += given.organic_n_kg_per_m2
        if given.years_ago == 0:
            at_once[given.series] += given.ammonium_n_kg_per_m2
    ground = question.ground
    layer = ground.compost_m_per_year * default("compost_inch_n").value / size_of("in")
    for years_ago in range(1, min(ground.compost_years, YEARS - 1) + 1):
        organic[COMPOST][years_ago] += layer
    for key, given_n in organic.items():
        yield _decayed(key, given_n, at_once[key], question)


def _decayed(
    key: str, given: list[Fraction], at_once: Fraction, question: NeedQuestion
) -> NitrogenCredit:
    series = decay_series()[key]
    terms = [
        f"{shortest(100 * share, 1)} % x {show_rate(amount, question.system)}"
        for share, amount in zip(series.years, given, strict=False)
        if amount
    ]
    if at_once:
        terms.append(f"ammonium {show_rate(at_once, question.system)}")
    return NitrogenCredit(
        name=f"{series.meaning.lower()} of this and earlier years",
        rate_kg_per_m2=released_this_year(series, given) + at_once,
        sum=" + ".join(terms),
        citation=series.citation,
    )


def _cover_crop(question: NeedQuestion) -> Iterator[NitrogenCredit]:
    crop = question.nitrogen.cover_crop
    if crop is None:
        return
    line, citation = cover_crop_line()
    per_kg = plant_available(line, min(crop.n_share, line[-1][0]))
    yield NitrogenCredit(
        name="cover crop dug in",
        rate_kg_per_m2=crop.dry_kg_per_m2 * per_kg,
        sum=f"{show_rate(crop.dry_kg_per_m2, question.system)} dry x {shortest(100 * per_kg, 2)} %",
        citation=citation,
    )


def _soil_nitrate(question: NeedQuestion) -> Iterator[NitrogenCredit]:
    test = question.soil_test
    nitrate = test.figure(Element.NITRATE) if test else None
    if test is None or nitrate is None:
        return
    depth_m = test.depth_m or size_of("ft") / 2
    foot = default("soil_nitrate_foot")
    yield NitrogenCredit(
        name="nitrate in the soil before planting",
        rate_kg_per_m2=of_soil_nitrate(
            nitrate.value, depth_m, foot.value * 1_000_000 / size_of("ft")
        ),
        sum=f"{shortest(nitrate.value, 1)} ppm in {show_length(depth_m, question.system)}",
        citation=foot.citation,
    )


def _legume(question: NeedQuestion, need: NeedRange) -> Iterator[NitrogenCredit]:
    """After a legume the side-dress half may be left out, on soil with much organic matter."""
    share = question.soil_test.organic_matter_share if question.soil_test else None
    enough = default("organic_matter_above").value
    if not question.nitrogen.legume_before or share is None or share <= enough:
        return
    half = default("legume_n_share")
    yield NitrogenCredit(
        name="legume before",
        rate_kg_per_m2=need.aim * half.value,
        sum=f"{shortest(100 * half.value, 0)} % of {show_rate(need.aim, question.system)}",
        citation=half.citation,
    )


def _water(question: NeedQuestion) -> Iterator[NitrogenCredit]:
    water = question.nitrogen.water
    if water is None:
        return
    depth = show_length(water.depth_m, question.system)
    yield NitrogenCredit(
        name="nitrate in the water",
        rate_kg_per_m2=of_water(water.depth_m, water.nitrate_n_ppm),
        sum=f"{depth} x {shortest(water.nitrate_n_ppm, 1)} ppm nitrate-N",
        citation=_PHYSICS,
    )
