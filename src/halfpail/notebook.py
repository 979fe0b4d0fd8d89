"""The short names one wants in a notebook; no set-up, no settings.

>>> from halfpail.notebook import label, mix, recipe, sample_garden, season
>>> label("Blood meal 12-0-0").label.analysis.grade.n
Fraction(12, 1)
>>> mix("3-4-4, 2 scoops", "12-0-0, 1 scoop").printed
Grade(n=Fraction(6, 1), p2o5=Fraction(2, 1), k2o=Fraction(2, 1))
"""

from pathlib import Path

from halfpail.application.advise_beds import GardenLime, advise_beds
from halfpail.application.answer_first import FirstAnswer, FirstQuestion, answer_first
from halfpail.application.compare_mixes import ComparedSeason, compare_mixes
from halfpail.application.date_season import SeasonDates, date_season
from halfpail.application.explain_season import SeasonExplanation, explain_season
from halfpail.application.find_recipe import find_recipe
from halfpail.application.gather_bags import gather_bags
from halfpail.application.look_inside import Inside, look_inside
from halfpail.application.need_of_bed import BedNeed, need_of_bed
from halfpail.application.open_garden import open_garden
from halfpail.application.plan_season import plan_season
from halfpail.application.read_frost_dates import read_frost_dates
from halfpail.application.read_label import LabelAnswer, understand_label
from halfpail.application.recipe_answer import NoRecipe, RecipeAnswer
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.show_release import ReleaseAnswer, ReleaseQuestion, show_release
from halfpail.application.sum_mix import MixQuestion, MixSum, sum_mix
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
from halfpail.application.wish_from_garden import wish_from_garden
from halfpail.domain.garden import Garden
from halfpail.domain.matter import PRIMARY
from halfpail.domain.recipe import GradeTarget, Prefer
from halfpail.domain.season import Unmet
from halfpail.quantities.reading import read_area_m2, read_volume_l
from halfpail.quantities.units import System
from halfpail.reference.purposes import purpose, purposes
from halfpail.wiring import services


def label(text: str, elemental: bool = False) -> LabelAnswer:
    """A label as printed, understood: its analysis, its sources, and what is odd about it.

    Raises:
        Refusal: the label is wrong.
    """
    return understand_label(text, elemental)


def mix(*bags: str, scoop: str = "1 cup", pail: str = "5 gal") -> MixSum:
    """One round of a mix, a line for each bag: `mix("3-4-4, 2 scoops", "12-0-0, 1 scoop")`.

    Raises:
        Refusal: a line or an amount cannot be read.
    """
    scoop_l = read_volume_l(scoop, "scoop")
    gathered = gather_bags(bags, scoop_l)
    return sum_mix(
        MixQuestion(
            parts=gathered.parts,
            others=gathered.others,
            scoop_l=scoop_l,
            pail_l=read_volume_l(pail, "pail"),
        )
    )


def first_answer(*bags: str, ground: str, scoop: str = "1 cup", pail: str = "5 gal") -> FirstAnswer:
    """What these bags would do for so much ground, without anything else known.

    Raises:
        Refusal: a line or an amount cannot be read.

    >>> answer = first_answer("4-4-4, 25 lb, $12, 1 scoop", ground="500 sq ft")
    >>> answer.sum.printed.n
    Fraction(4, 1)
    """
    scoop_l = read_volume_l(scoop, "scoop")
    gathered = gather_bags(bags, scoop_l)
    return answer_first(
        FirstQuestion(
            parts=gathered.parts,
            others=gathered.others,
            area_m2=read_area_m2(ground, "ground"),
            scoop_l=scoop_l,
            pail_l=read_volume_l(pail, "pail"),
        )
    )


def garden(path: str | Path) -> Garden:
    """The garden of a garden file.

    Raises:
        Refusal: with every fault of the file.
    """
    return open_garden(services().read_garden(Path(path))).garden


def sample_garden() -> Garden:
    """The sample garden, which is invented.

    >>> len(sample_garden().beds)
    13
    """
    return open_garden(services().read_sample_garden()).garden


def recipe(bags_of: Garden, wish: str) -> RecipeAnswer | NoRecipe:
    """The best recipe from the bags of a garden, for a grade or for a purpose by its key.

    A grade is met as closely as whole scoops allow.

    Raises:
        Refusal: the wish cannot be read, or leaves no bag.

    >>> found = recipe(sample_garden(), "6-3-3")
    >>> found.best.recipe.total <= 12
    True
    """
    if wish in purposes():
        target, prefer = purpose(wish).target, Prefer.CHEAPEST
        return find_recipe(wish_from_garden(bags_of, target, prefer), services().search)
    analysis = understand_label(wish).label.analysis
    percent = {nutrient.value: 100 * analysis.of(nutrient) for nutrient in PRIMARY}
    grade = GradeTarget(percent=percent, tolerance={})
    return find_recipe(wish_from_garden(bags_of, grade, Prefer.CLOSEST), services().search)


def release(material: str, last_frost: str, first_frost: str) -> ReleaseAnswer:
    """How the nitrogen of a material or a label comes between the frost dates of a season.

    Raises:
        Refusal: nothing is known under that name, or the dates are no season.

    >>> release("feather meal", "2027-05-10", "2027-10-01").half_on
    datetime.date(2027, 5, 27)
    """
    frost = read_frost_dates(last_frost, first_frost)
    return show_release(
        ReleaseQuestion(
            words=material,
            spread=frost.last,
            until=frost.first,
            warmth=WarmthQuestion(frost=frost),
        )
    )


def need(**bed: object) -> BedNeed:
    """What a bed should get, told by the keys a bed has in a garden file.

    Raises:
        Refusal: something told cannot be so, or the crop is not known.

    >>> test = {"extractant": "Olsen", "P": "70 ppm", "table": "Oregon"}
    >>> found = need(crop="tomato", size="4 x 12 ft", soil_test=test)
    >>> [int(one.cap) for one in found.needs if one.nutrient == "P2O5"]
    [0]
    """
    return need_of_bed(services().read_bed({"name": "this bed", **bed}, "bed"))


def season(of: Garden) -> SeasonAnswer | Unmet:
    """The season plan of a garden: mixes, bags to buy, what each bed gets, and the working."""
    return plan_season(of, services().engine)


def dates(planned: SeasonAnswer, path: str | Path) -> SeasonDates | None:
    """When a plan of the garden file goes on, day by day; None where it tells no climate.

    Raises:
        Refusal: with every fault of the file.
    """
    return date_season(open_garden(services().read_garden(Path(path))), planned)


def lime(path: str | Path, units: System = System.US) -> GardenLime:
    """Lime, sulfur and salts for every bed of a garden file whose soil test tells its pH.

    Raises:
        Refusal: with every fault of the file.
    """
    return advise_beds(open_garden(services().read_garden(Path(path))), units)


def worth(of: Garden) -> WorthAnswer | Unmet:
    """What each bag of a garden is worth: its highest price worth paying, and how many to buy."""
    return weigh_worth(of, services().engine)


def inside(text: str, name: str = "bag") -> Inside:
    r"""What is likely in a bag, from its label as printed.

    Raises:
        Refusal: the label is wrong.

    >>> inside("46-0-0\nDerived from: urea").explained
    True
    """
    return look_inside(understand_label(text).label, name, services().solver)


def compare(of: Garden) -> ComparedSeason:
    """The season with one mix, with straight nitrogen beside it, with two mixes and with three."""
    return compare_mixes(of, services().engine, services().solver)


def explain(of: Garden, plan: SeasonAnswer) -> SeasonExplanation:
    """What a little more room would save a plan, why each bag is in it, what is left over."""
    return explain_season(of, plan, services().solver)
