"""Sources recognised in many wordings, mended where that is safe, and never guessed."""

import pytest

from halfpail.domain.derived_from import recognise
from halfpail.findings import Severity
from halfpail.reference.materials import materials


def keys(text: str) -> list[str]:
    return [material.key for material in recognise(text, materials()).materials]


@pytest.mark.parametrize("material", materials(), ids=lambda material: material.key)
def test_every_name_and_synonym_is_recognised(material):
    for name in (material.name, *material.synonyms):
        found = recognise((name,), materials())
        assert found.all_known, name
        assert found.notices == (), name


def test_the_made_up_label_keeps_its_order():
    listed = (
        "Derived from: ammonium sulfate, gypsum, potassium sulfate, triple superphosphate, "
        "magnesium sulfate."
    )
    assert keys(listed) == [
        "ammonium_sulfate",
        "gypsum",
        "potassium_sulfate",
        "triple_superphosphate",
        "epsom_salt",
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Sulphate of Potash", ["potassium_sulfate"]),
        ("sulfate of potash (potassium sulfate)", ["potassium_sulfate"]),
        ("potassium sulfate (0-0-50)", ["potassium_sulfate"]),
        ("blood meal and feather meal", ["blood_meal", "feather_meal"]),
        ("hoof and horn meal and kelp meal", ["hoof_horn_meal", "kelp_meal"]),
        ("hydrolyzed feather meal, and dried kelp meal", ["feather_meal", "kelp_meal"]),
        ("20% urea, 30% gypsum", ["urea", "gypsum"]),
        ("urea, urea, gypsum", ["urea", "gypsum"]),
        ("bonemeal", ["bone_meal_steamed"]),
        ("triple super phosphate", ["triple_superphosphate"]),
    ],
)
def test_wordings(text, expected):
    found = recognise(text, materials())
    assert [material.key for material in found.materials] == expected
    assert found.all_known
    assert found.notices == ()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("fether meal", "feather_meal"),
        ("gypsom", "gypsum"),
        ("rock phosphte", "rock_phosphate"),
        ("ammonium sufate", "ammonium_sulfate"),
        ("diamonium phosphate", "diammonium_phosphate"),
        ("monamonium phosphate", "monoammonium_phosphate"),
        ("langbienite", "langbeinite"),
        ("magnesum sulphate", "epsom_salt"),
        ("magnanese sulphate", "manganese_sulfate"),
        ("cottenseed meal", "cottonseed_meal"),
    ],
)
def test_a_slip_is_mended_and_told(text, expected):
    found = recognise(text, materials())
    assert [material.key for material in found.materials] == [expected]
    assert [notice.severity for notice in found.notices] == [Severity.NOTE]
    assert text in found.notices[0].sentence


@pytest.mark.parametrize(
    "text",
    [
        "leather meal",
        "corn meal",
        "flood meal",
        "barium sulfate",
        "potassium nitrite",
        "potassium phosphite",
        "calcium sulfite",
        "zinc sulfide",
        "calcium carbide",
        "potassium chlorate",
        "bone china",
        "sulfate",
        "meal",
        "secret ingredients",
        "🌱",
        "<script>",
        "",
    ],
)
def test_what_only_looks_alike_is_not_guessed(text):
    found = recognise((text,), materials())
    assert found.materials == ()
    assert found.unknown == (text,)
    assert not found.all_known
    assert [notice.severity for notice in found.notices] == [Severity.CAUTION]


def test_known_and_unknown_side_by_side():
    found = recognise("urea and moon dust", materials())
    assert [material.key for material in found.materials] == ["urea"]
    assert found.unknown == ("moon dust",)


def test_a_bracket_that_contradicts_the_name_makes_it_unknown():
    assert keys("gypsum (urea)") == []


def test_an_empty_list_is_not_all_known():
    assert not recognise((), materials()).all_known


def test_a_list_without_end_is_cut_and_told():
    found = recognise(", ".join(["urea"] * 60), materials())
    assert len(found.unknown) == 20
    assert "20 were not" in found.notices[-1].sentence
