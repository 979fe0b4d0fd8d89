"""Keys of climate and dates: how warm the place is, what was given, when beds are planted."""

from functools import partial

from halfpail.application.lime_question import BedUse
from halfpail.domain.manure_interval import Contact
from halfpail.garden_file import values
from halfpail.garden_file.key import Key
from halfpail.quantities.reading import read_length_m, read_mass_kg

CLIMATE = (
    Key(
        name="last_frost",
        read=values.day,
        meaning="The average last frost of spring, with the year that is planned.",
        example='"2027-05-10"',
    ),
    Key(
        name="first_frost",
        read=values.day,
        meaning="The average first frost of the autumn after it.",
        example='"2027-10-01"',
    ),
    Key(
        name="months",
        read=values.twelve_means_c,
        meaning="Twelve monthly means of the air, January first; else the frost dates stand in.",
        example='["24 F", "27 F", "36 F", "47 F", "58 F", "67 F", "71 F", "69 F", "62 F", "51 F", '
        '"40 F", "29 F"]',
        field="months_c",
    ),
    Key(
        name="soil_temperature",
        read=values.temperature_c,
        meaning="Under glass, instead: one temperature of the soil throughout.",
        example='"68 F"',
        field="steady_c",
    ),
    Key(
        name="soil_depth",
        read=values.amount(read_length_m),
        meaning="How deep the food lies; 4 inches where nothing is said.",
        example='"4 in"',
        field="depth_m",
    ),
)

PLANTED = Key(
    name="planted",
    read=values.day,
    meaning="When it is sown or set out; else it follows from the frost dates.",
    example='"2027-05-20"',
)
HARVEST = Key(
    name="harvest",
    read=values.day,
    meaning="When the last of it is harvested; else it follows from the days to maturity.",
    example='"2027-09-15"',
)

_CONTACTS = {str(one): one for one in Contact}
_USES = {str(one): one for one in BedUse if one is not BedUse.CONTAINER}

BED_TIMES = (
    PLANTED,
    HARVEST,
    Key(
        name="eaten_part",
        read=lambda value, place: _CONTACTS[values.choice(*_CONTACTS)(value, place)],
        meaning=f"Where what is eaten grows: {', '.join(_CONTACTS)}; the first where nothing is "
        "said.",
        example='"does not touch the soil"',
        field="contact",
    ),
    Key(
        name="nitrate_test",
        read=values.water_nitrate,
        meaning="Nitrate nitrogen of a test just before feeding beside the rows.",
        example='"18 ppm"',
        field="nitrate_n_mg_per_kg",
    ),
    Key(
        name="kept_for",
        read=lambda value, place: _USES[values.choice(*_USES)(value, place)],
        meaning=f"For its one target pH: {', '.join(_USES)}; else its crops tell.",
        example='"potatoes in rotation"',
        field="use",
    ),
    Key(
        name="lime_given",
        read=values.harvest,
        meaning="Lime it got, as pure lime, that may still act.",
        example='"5 lb per 100 sq ft"',
    ),
    Key(
        name="lime_months_ago",
        read=values.whole(0, 120),
        meaning="With it: how many months ago.",
        example="8",
    ),
    Key(
        name="free_lime",
        read=values.yes_no,
        meaning="Whether the soil fizzes with vinegar: then no sulfur.",
        example="false",
    ),
)

GIVEN = (
    Key(
        name="of",
        read=partial(values.words, most=values.MOST_LABEL),
        meaning="A bag of this file by name, or a label such as 4-4-4.",
        example='"Blood meal"',
        required=True,
    ),
    Key(
        name="amount",
        read=values.amount(read_mass_kg),
        meaning="What the whole bed got of it.",
        example='"3 lb"',
        field="mass_kg",
        required=True,
    ),
    Key(
        name="on",
        read=values.day,
        meaning="When.",
        example='"2027-04-20"',
        required=True,
    ),
)
