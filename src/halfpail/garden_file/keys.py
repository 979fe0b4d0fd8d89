"""Every key of a garden file: what it is called, how it is read, what it means.

These tables are the truth for the reader and for docs/garden-file.md alike.
"""

from functools import partial

from halfpail.domain.bed import History
from halfpail.domain.manure_interval import Treatment
from halfpail.garden_file import soil_values, time_keys, values
from halfpail.garden_file.key import Key
from halfpail.quantities.reading import (
    read_area_m2,
    read_length_m,
    read_mass_kg,
    read_money,
    read_price_per_kg,
    read_volume_l,
)
from halfpail.quantities.units import System

_may_be_none = partial(read_mass_kg, nought=True)
_TREATMENTS = {str(one): one for one in Treatment}

TOP = (
    Key(
        name="name",
        read=values.name,
        meaning="What the garden is called.",
        example='"Back garden"',
    ),
)

TOOLS = (
    Key(
        name="scoop",
        read=values.amount(read_volume_l),
        meaning="What one level scoop holds.",
        example='"2 cups"',
        required=True,
        field="scoop_l",
    ),
    Key(
        name="pail",
        read=values.amount(read_volume_l),
        meaning="What the pail holds to the brim; it is filled to half.",
        example='"5 gal"',
        required=True,
        field="pail_l",
    ),
    Key(
        name="measure",
        read=values.measure,
        meaning="The smallest share of a scoop given to a bed; a quarter where nothing is said.",
        example='"1/4"',
    ),
)


PREFERENCES = (
    Key(
        name="units",
        read=lambda value, place: System(values.choice("US", "metric")(value, place)),
        meaning="The units of the answers: US or metric.",
        example='"US"',
    ),
    Key(
        name="currency",
        read=values.currency,
        meaning="The currency of every price in the file.",
        example='"USD"',
    ),
    Key(
        name="mixes",
        read=values.mixes,
        meaning='How many mixes, 1 to 4, or "find" to have the number found.',
        example="2",
    ),
    Key(
        name="another_mix_saves",
        read=values.amount(read_money),
        money=True,
        meaning='With "find": what more mixes must save, misses counted in; else a twentieth.',
        example='"2"',
    ),
    Key(
        name="most_scoops",
        read=values.whole(1, 40),
        meaning="The most scoops in one round of a mix.",
        example="12",
    ),
    Key(
        name="most_bags",
        read=values.whole(1, 10),
        meaning="The most bags that go into one mix.",
        example="4",
    ),
    Key(
        name="avoid",
        read=values.names,
        meaning="Names of bags that are to be left out.",
        example='["Bone meal"]',
    ),
    Key(
        name="budget",
        read=values.amount(read_money),
        money=True,
        meaning="The most to be spent on bags.",
        example='"80"',
    ),
    Key(
        name="price_ceiling",
        read=values.amount(read_price_per_kg),
        money=True,
        meaning="The highest price worth paying for a weight of any bag.",
        example='"1.00 per lb"',
        field="ceiling_per_kg",
    ),
    Key(
        name="visits",
        read=values.whole(1, 6),
        meaning="How often at the most you want to feed a bed; 3 where nothing is said.",
        example="3",
    ),
    Key(
        name="elemental_labels",
        read=values.yes_no,
        meaning="Whether the labels state P and K themselves, not P2O5 and K2O; seldom so.",
        example="false",
    ),
    Key(
        name="shed_is_free",
        read=values.yes_no,
        meaning="Whether what is in the shed counts as paid for; it does unless you say no.",
        example="true",
    ),
)


BAG = (
    Key(
        name="name",
        read=values.name,
        meaning="What you call the bag; no two may share a name.",
        example='"All-purpose meal blend"',
        required=True,
    ),
    Key(
        name="label",
        read=partial(values.words, most=values.MOST_LABEL),
        meaning="The label: 4-4-4, or the whole guaranteed analysis as printed, on many lines.",
        example='"4-4-4"',
        required=True,
    ),
    Key(
        name="weight",
        read=values.amount(read_mass_kg),
        meaning="Weight of a full bag.",
        example='"25 lb"',
        field="bag_kg",
    ),
    Key(
        name="price",
        read=values.amount(read_money),
        money=True,
        meaning="Price of a full bag now.",
        example='"12.49"',
    ),
    Key(
        name="list_price",
        read=values.amount(read_money),
        money=True,
        meaning="Price of a full bag in season.",
        example='"29.99"',
    ),
    Key(
        name="offered",
        read=values.whole(0, 999),
        meaning="How many bags are on offer; as many as you like where nothing is said.",
        example="3",
    ),
    Key(
        name="in_shed",
        read=values.amount(_may_be_none),
        meaning="Weight at home already, opened bags too.",
        example='"7 lb 8 oz"',
        field="shed_kg",
    ),
    Key(
        name="scoop_weighs",
        read=values.amount(read_mass_kg),
        meaning="What one level scoop of it weighs on your scale.",
        example='"12 oz"',
        field="scoop_weighs_kg",
    ),
    Key(
        name="straight",
        read=values.yes_no,
        meaning="Whether it may be given to a bed on its own, beside the mixes.",
        example="true",
        field="straight_ok",
    ),
    Key(
        name="manure",
        read=lambda value, place: _TREATMENTS[values.choice(*_TREATMENTS)(value, place)],
        meaning=f"What was done to manure in it: {', '.join(_TREATMENTS)}; the bag may tell.",
        example='"composted"',
        field="treatment",
    ),
    Key(
        name="avoid",
        read=values.yes_no,
        meaning="Whether it is to be left out of this plan.",
        example="false",
    ),
)


BED = (
    Key(
        name="name",
        read=values.name,
        meaning="What you call the bed; no two may share a name.",
        example='"North bed"',
        required=True,
    ),
    Key(
        name="crop",
        read=values.name,
        meaning="What grows there: a crop or a crop group.",
        example='"tomato"',
        required=True,
    ),
    Key(
        name="size",
        read=values.amount(read_area_m2),
        meaning="The area, or both sides.",
        example='"4 x 12 ft"',
        field="area_m2",
    ),
    Key(
        name="row",
        read=values.amount(read_length_m),
        meaning="Instead of the size: the length of row.",
        example='"50 ft"',
        field="row_m",
    ),
    Key(
        name="row_width",
        read=values.amount(read_length_m),
        meaning="With the row: the width of ground that belongs to it.",
        example='"3 ft"',
        field="row_width_m",
    ),
    Key(
        name="history",
        read=lambda value, place: History(values.choice("fed", "virgin")(value, place)),
        meaning="fed, where compost or fertilizer was given in the last three years; else virgin.",
        example='"fed"',
    ),
    Key(
        name="compost_each_year",
        read=values.amount(partial(read_length_m, nought=True)),
        meaning="How deep the compost was that the bed got each year.",
        example='"1/2 in"',
        field="compost_m_per_year",
    ),
    Key(
        name="compost_years",
        read=values.whole(0, 50),
        meaning="How many years it got that compost.",
        example="3",
    ),
    Key(
        name="yield",
        read=values.harvest,
        meaning="The harvest you expect; the table's where nothing is said.",
        example='"60 lb per 100 sq ft"',
        field="yield_kg_per_m2",
    ),
    Key(
        name="container",
        read=values.amount(read_volume_l),
        meaning="A pot or box of bought mix: the volume of its mix; the size may then be left out.",
        example='"15 gal"',
        field="container_l",
    ),
    Key(
        name="legume_before",
        read=values.yes_no,
        meaning="Whether beans, peas, clover or another legume stood there before.",
        example="true",
    ),
    Key(
        name="cover_crop_dry",
        read=values.rate,
        meaning="Dry weight of a cover crop dug in green.",
        example='"6 lb per 100 sq ft"',
        field="cover_dry",
    ),
    Key(
        name="cover_crop_N",
        read=soil_values.share,
        meaning="With it: nitrogen in its dry matter; 3.5 % is a young legume, 1.5 % old straw.",
        example='"3 %"',
        field="cover_n",
    ),
    Key(
        name="water_depth",
        read=values.amount(read_length_m),
        meaning="How much water the bed gets in a season.",
        example='"12 in"',
        field="water_m",
    ),
    Key(
        name="water_nitrate",
        read=values.water_nitrate,
        meaning="With it: nitrate nitrogen in that water, or NO3 if you write so.",
        example='"5 ppm NO3-N"',
        field="water_ppm",
    ),
    Key(
        name="straight",
        read=values.yes_no,
        meaning="Whether the bed may get a bag on its own; it may unless you say no.",
        example="true",
        field="straight_ok",
    ),
    *time_keys.BED_TIMES,
)

# A bed that lists its crops names none by itself.
BED_OF_MANY = tuple(key for key in BED if key.name not in ("crop", "yield"))

NUTRIENTS = ("N", "P2O5", "K2O", "Ca", "Mg", "S")

NEED = (
    Key(
        name="least",
        read=values.rate,
        meaning="No less than this; nought where nothing is said.",
        example='"0.10 lb per 100 sq ft"',
    ),
    Key(
        name="aim",
        read=values.rate,
        meaning="What is wanted.",
        example='"0.18 lb per 100 sq ft"',
        required=True,
    ),
    Key(
        name="most",
        read=values.rate,
        meaning="No more than this.",
        example='"0.25 lb per 100 sq ft"',
        required=True,
    ),
    Key(
        name="stop",
        read=values.rate,
        meaning="P2O5 only: what is above the most is weighed against, and it stops here.",
        example='"0.55 lb per 100 sq ft"',
        field="cap",
    ),
)
