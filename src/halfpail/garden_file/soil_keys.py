"""Keys of what stands below a bed: its crops, soil test, manure and earlier years."""

from halfpail.domain.lime_method import Texture
from halfpail.garden_file import soil_values, values
from halfpail.garden_file.key import Key
from halfpail.garden_file.time_keys import HARVEST, PLANTED

CROP = (
    Key(
        name="crop",
        read=values.name,
        meaning="A crop or a crop group.",
        example='"spinach"',
        required=True,
    ),
    Key(
        name="share",
        read=values.measure,
        meaning="Its share of the bed; all of it where nothing is said.",
        example='"1/2"',
    ),
    Key(
        name="succession",
        read=values.whole(1, 4),
        meaning="1 for what stands first in the season, 2 for what follows it, and so on.",
        example="2",
    ),
    Key(
        name="yield",
        read=values.harvest,
        meaning="The harvest you expect of it.",
        example='"30 lb per 100 sq ft"',
        field="yield_kg_per_m2",
    ),
    PLANTED,
    HARVEST,
)

_FIGURES = (
    ("P", "Phosphorus, as the element.", '"42 ppm"'),
    ("K", "Potassium, as the element.", '"120 ppm"'),
    ("Ca", "Calcium.", '"900 ppm"'),
    ("Mg", "Magnesium.", '"110 ppm"'),
    ("Na", "Sodium.", '"12 ppm"'),
    ("S", "Sulfur.", '"14 ppm"'),
    ("B", "Boron.", '"0.6 ppm"'),
)

SOIL_TEST = (
    Key(
        name="extractant",
        read=soil_values.extractant,
        meaning="The laboratory's method; a figure without it says nothing.",
        example='"Mehlich-3 ICP"',
    ),
    *(
        Key(name=name, read=soil_values.soil_figure, meaning=meaning, example=example)
        for name, meaning, example in _FIGURES
    ),
    Key(
        name="nitrate",
        read=soil_values.soil_figure,
        meaning="Nitrate nitrogen before planting.",
        example='"8 ppm"',
        field="nitrate-N",
    ),
    Key(
        name="bases_extractant",
        read=soil_values.extractant,
        meaning="The method for K, Ca, Mg and Na, where it is another.",
        example='"ammonium acetate"',
    ),
    Key(
        name="boron_extractant",
        read=soil_values.extractant,
        meaning="The method for B, where it is another.",
        example='"hot water"',
    ),
    Key(
        name="pH",
        read=soil_values.soil_ph,
        meaning="Soil pH in water.",
        example='"6.3"',
        field="ph",
    ),
    Key(
        name="buffer",
        read=soil_values.buffer,
        meaning="The kind of buffer: Mehlich, Adams-Evans, SMP or Sikora.",
        example='"SMP"',
    ),
    Key(
        name="buffer_pH",
        read=soil_values.buffer_ph,
        meaning="The buffer pH.",
        example='"6.7"',
        field="buffer_ph",
    ),
    Key(
        name="acidity",
        read=soil_values.acidity,
        meaning="Instead of a buffer pH: Mehlich exchangeable acidity.",
        example='"3.2 meq/100 g"',
    ),
    Key(
        name="organic_matter",
        read=soil_values.share,
        meaning="Organic matter of the soil.",
        example='"4.1 %"',
        field="organic_matter_share",
    ),
    Key(
        name="CEC",
        read=soil_values.cec,
        meaning="Cation exchange capacity.",
        example='"9.5 meq/100 g"',
        field="cec",
    ),
    Key(
        name="depth",
        read=soil_values.depth_m,
        meaning="How deep the sample was taken.",
        example='"6 in"',
        field="depth_m",
    ),
    Key(
        name="year",
        read=values.whole(1950, 2150),
        meaning="The year it was taken; just now where nothing is said.",
        example="2025",
    ),
    Key(
        name="texture",
        read=lambda value, place: Texture(
            values.choice(*(str(texture) for texture in Texture))(value, place)
        ),
        meaning="sand, sandy loam, loam, clay loam, clay or organic.",
        example='"loam"',
    ),
    Key(
        name="table",
        read=soil_values.region,
        meaning="Whose tables are to be used, where you want another than the usual.",
        example='"Rutgers"',
        field="region",
    ),
    Key(
        name="P_equation",
        read=values.whole(1, 25),
        meaning="With an index of North Carolina: the number of its equation for P2O5, to compare.",
        example="14",
        field="p_equation",
    ),
    Key(
        name="K_equation",
        read=values.whole(1, 25),
        meaning="The same for K2O.",
        example="14",
        field="k_equation",
    ),
)

MANURE = (
    Key(
        name="kind",
        read=values.manure_kind,
        meaning="What it was: " + ", ".join(values.MANURES) + ".",
        example='"poultry"',
        required=True,
    ),
    Key(
        name="amount",
        read=values.rate,
        meaning="How much of it the bed got.",
        example='"10 lb per 100 sq ft"',
        required=True,
    ),
    Key(
        name="organic_N",
        read=soil_values.share,
        meaning="Nitrogen in it that is no ammonium.",
        example='"2 %"',
        required=True,
    ),
    Key(
        name="ammonium_N",
        read=soil_values.share,
        meaning="Ammonium nitrogen in it; counts only in the year it is dug in.",
        example='"0.5 %"',
    ),
    Key(
        name="years_ago",
        read=values.whole(0, 20),
        meaning="0 for this year, 1 for last year, and so on.",
        example="1",
    ),
)

YEAR = (
    Key(
        name="year",
        read=values.whole(1950, 2150),
        meaning="The year.",
        example="2025",
        required=True,
    ),
    Key(
        name="P2O5",
        read=values.rate,
        meaning="All P2O5 the bed got, bone and rock in full.",
        example='"0.2 lb per 100 sq ft"',
        field="given_kg_per_m2",
        required=True,
    ),
    Key(
        name="crop",
        read=values.name,
        meaning="What was harvested.",
        example='"tomato"',
        required=True,
    ),
    Key(
        name="yield",
        read=values.harvest,
        meaning="How much of it; the table's where nothing is said.",
        example='"45 lb per 100 sq ft"',
        field="yield_kg_per_m2",
    ),
)
