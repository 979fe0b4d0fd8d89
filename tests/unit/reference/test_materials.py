"""The materials table against figures printed elsewhere; each example names its source."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.domain.material import Release
from halfpail.domain.matter import ATOMIC_WEIGHT, Nutrient, ceiling
from halfpail.quantities.units import size_of
from halfpail.reference.materials import material, materials
from halfpail.reference.passport import cells

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def examples(name: str) -> list[dict[str, str]]:
    with (EXAMPLES / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def label(row: dict[str, str]) -> str:
    return "-".join(list(row.values())[:4])


@pytest.mark.parametrize("row", examples("material_grades"), ids=label)
def test_printed_grades_lie_within_the_range(row):
    contents = material(row["material"]).contents
    for nutrient in (Nutrient.N, Nutrient.P2O5, Nutrient.K2O):
        printed = Fraction(row[f"{nutrient.lower()}_percent"]) / 100
        if nutrient in contents:
            assert contents[nutrient].low <= printed <= contents[nutrient].high
        else:
            assert printed == 0


@pytest.mark.parametrize("row", examples("material_densities"), ids=label)
def test_densities_agree_with_print(row):
    mass, volume = row["unit"].split("/")
    printed = Fraction(row["value"]) * size_of(mass) / size_of(volume)
    found = getattr(material(row["material"]).density_kg_per_l, row["side"])
    assert abs(found / printed - 1) <= Fraction(row["tolerance_percent"]) / 100


@pytest.mark.parametrize("row", examples("pure_compounds"), ids=label)
def test_no_material_is_richer_than_its_pure_compound(row):
    typical = material(row["material"]).contents[Nutrient(row["nutrient"])].typical * 100
    ceiling = Fraction(row["ceiling_percent"])
    assert ceiling * Fraction(3, 4) <= typical <= ceiling + Fraction(row["rounding_percent"])


@pytest.mark.parametrize(
    "one", [one for one in materials() if one.formula], ids=lambda one: one.key
)
def test_formulas_hold_what_the_table_says(one):
    """Computed from atomic weights; half a per cent is left to the rounding of labels."""
    pure = ceiling(one.formula)
    main = {nutrient: spread for nutrient, spread in one.contents.items() if nutrient in pure}
    assert main
    for nutrient, spread in main.items():
        assert spread.typical <= pure[nutrient] + Fraction(1, 200)


@pytest.mark.parametrize(
    ("key", "printed"),
    # Some common organic fertilizers (texas-organics) and Organic Gardener's Composting.
    [("bone_meal_raw", 22), ("bone_meal_raw", 21), ("bone_meal_steamed", 27)],
)
def test_bone_carries_its_total_phosphorus(key, printed):
    bone = material(key)
    assert abs(bone.total_p2o5 * 100 - printed) <= 3
    assert bone.total_p2o5 > bone.contents[Nutrient.P2O5].high


@pytest.mark.parametrize(
    ("key", "printed"),
    # Alabama ANR-174: lb CaCO3 per 100 lb of material.
    [
        ("urea", -81),
        ("ammonium_sulfate", -110),
        ("ammonium_nitrate", -61),
        ("calcium_nitrate", 20),
        ("potassium_nitrate", 26),
        ("sodium_nitrate", 29),
        ("sulfur_coated_urea", -118),
    ],
)
def test_acidity_is_as_printed(key, printed):
    assert material(key).cce * 100 == printed


def test_acidity_of_sulfur_follows_from_atomic_weights():
    """One S makes one H2SO4, which one CaCO3 neutralises (IUPAC abridged weights, 2021)."""
    weight = ATOMIC_WEIGHT
    carbonate = weight["Ca"] + weight["C"] + 3 * weight["O"]
    assert abs(material("sulfur").cce + carbonate / weight["S"]) < Fraction(1, 200)


@pytest.mark.parametrize(
    ("key", "pure"),
    # CCE of the pure compounds: Nebraska liming table 4.4 and Cornell Agronomy Fact Sheet 7.
    [
        ("calcitic_lime", 100),
        ("dolomitic_lime", 109),
        ("hydrated_lime", 136),
        ("quicklime", 179),
    ],
)
def test_no_lime_is_stronger_than_its_pure_compound(key, pure):
    assert 75 <= material(key).cce * 100 <= pure


def test_dolomite_is_no_more_than_all_carbonate():
    """Calcium and magnesium together cannot ask for more carbonate than there is stone."""
    weight, contents = ATOMIC_WEIGHT, material("dolomitic_lime").contents
    carbonate = weight["C"] + 3 * weight["O"]
    stone = sum(
        contents[nutrient].typical * (weight[symbol] + carbonate) / weight[symbol]
        for nutrient, symbol in ((Nutrient.CA, "Ca"), (Nutrient.MG, "Mg"))
    )
    assert Fraction(9, 10) < stone <= 1


def test_there_are_sixty_and_none_on_dry_matter():
    assert len(materials()) >= 60
    assert all(line["basis"].startswith("as sold") for line in cells("materials"))


def test_nitrogen_is_soluble_or_has_a_usable_share():
    lost = [
        one.key
        for one in materials()
        if Nutrient.N in one.contents and one.soluble_n < 1 and one.usable_insoluble_n is None
    ]
    assert lost == []


def test_each_name_means_one_material():
    words = [word for one in materials() for word in {one.name.casefold(), *one.synonyms}]
    assert sorted(words) == sorted(set(words))
    assert all(
        word == " ".join(word.casefold().split()) for one in materials() for word in one.synonyms
    )


def test_figures_carry_their_own_standing():
    urea, feather = material("urea"), material("feather_meal")
    assert urea.density_citation.source == "fertilizer-physical"
    assert urea.cce_citation.source == "auburn-anr174"
    assert urea.usable_n_citation is None
    assert feather.usable_n_citation.source == "high-n-study"
    assert feather.release is Release.FAST


def test_an_unknown_material_is_refused():
    with pytest.raises(KeyError):
        material("unobtainium")
