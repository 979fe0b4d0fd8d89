"""The tables of a garden as sheets: what a spreadsheet holds, and what is looked for in one.

One description for what is written and for what is read. The key of a column is the key of the
garden file (docs/garden-file.md) where there is one; `bed` names the bed a row is about.
"""

from halfpail.application.sheet_columns import Column, Kind, Table, column_of
from halfpail.domain.bed import Content

words, yes_no = column_of(Kind.WORDS), column_of(Kind.YES_NO)
whole, number = column_of(Kind.WHOLE), column_of(Kind.NUMBER)
day, money, mass = column_of(Kind.DATE), column_of(Kind.MONEY), column_of(Kind.MASS)
rate, percent, ppm = column_of(Kind.RATE), column_of(Kind.PERCENT), column_of(Kind.PPM)
depth, nitrate = column_of(Kind.DEPTH), column_of(Kind.NITRATE)
volume = column_of(Kind.VOLUME)

# Numbers that a cell cannot hold to the last digit stand here once more, as fractions.
EXACTLY = Column(
    key="exactly",
    head="exactly",
    meaning="Numbers of the row that a cell cannot hold to the last digit, in the unit of the head;"
    " they count as long as the cell still says the same.",
)

_MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)
_BED = Column(key="bed", head="bed", needed=True, example="North bed")

GARDEN = Table(
    name="Garden",
    rows_are="what holds for the whole garden",
    columns=(
        Column(key="name", head="garden", needed=True),
        volume("tools.scoop", "one level scoop", "2 cups"),
        volume("tools.pail", "pail to the brim", "5 gal"),
        number("tools.measure", "smallest share of a scoop", "1/4"),
        words("preferences.units", "units", "US"),
        words("preferences.currency", "currency", "USD"),
        words("preferences.mixes", "how many mixes", "2"),
        money("preferences.another_mix_saves", "another mix saves"),
        whole("preferences.most_scoops", "most scoops in a round", "12"),
        whole("preferences.most_bags", "most bags in a mix", "4"),
        money("preferences.budget", "budget", "80"),
        Column(key="preferences.price_ceiling", head="highest price of any bag", kind=Kind.PRICE),
        whole("preferences.visits", "feedings at the most", "3"),
        yes_no("preferences.elemental_labels", "labels state P and K"),
        yes_no("preferences.shed_is_free", "shed is free"),
        day("climate.last_frost", "last frost", "2027-05-10"),
        day("climate.first_frost", "first frost", "2027-10-01"),
        *(
            Column(key=f"climate.months[{at}]", head=f"air in {month}", kind=Kind.TEMPERATURE)
            for at, month in enumerate(_MONTHS, 1)
        ),
        Column(key="climate.soil_temperature", head="soil throughout", kind=Kind.TEMPERATURE),
        depth("climate.soil_depth", "depth of the food", "4 in"),
    ),
)

BAGS = Table(
    name="Bags",
    rows_are="one for each bag",
    columns=(
        Column(
            key="name",
            head="bag",
            needed=True,
            example="All-purpose meal blend",
            meaning="What you call the bag; no two may share a name.",
        ),
        Column(
            key="label",
            head="label",
            needed=True,
            example="4-4-4",
            meaning="The three numbers, or the whole guaranteed analysis as printed.",
        ),
        mass("weight", "weight of a full bag", "25 lb"),
        money("price", "price of a full bag", "12.49"),
        money("list_price", "list price in season", "29.99"),
        whole("offered", "bags on offer", "3", "As many as you like where it is empty."),
        mass("in_shed", "in the shed", "7 lb 8 oz", "Opened bags too."),
        Column(
            key="scoop_weighs",
            head="one level scoop weighs",
            kind=Kind.LIGHT,
            example="12 oz",
            meaning="On your scale.",
        ),
        yes_no("straight", "may go on a bed alone", "yes"),
        words("manure", "manure in it", "composted", "raw, composted, heat-processed or not known"),
        yes_no("avoid", "leave out", "no"),
    ),
)

BEDS = Table(
    name="Beds",
    rows_are="one for each bed",
    columns=(
        Column(
            key="name",
            head="bed",
            needed=True,
            example="North bed",
            meaning="What you call the bed; no two may share a name.",
        ),
        Column(
            key="crop",
            head="crop",
            example="tomato",
            meaning="A crop or a crop group; empty where the sheet of crops lists several.",
        ),
        Column(key="size", head="size", kind=Kind.AREA, needed=True, example="4 x 12 ft"),
        volume("container", "pot or box holds", "15 gal", "Only for bought mix."),
        words("history", "history", "fed", "fed, where something was given lately; else virgin"),
        depth("compost_each_year", "compost each year", "1/2 in"),
        whole("compost_years", "years of compost", "3"),
        rate("yield", "harvest expected", "60 lb per 100 sq ft"),
        yes_no("legume_before", "legume before", "yes"),
        rate("cover_crop_dry", "cover crop, dry", "6 lb per 100 sq ft"),
        percent("cover_crop_N", "N in the cover crop", "3 %"),
        depth("water_depth", "water in a season", "12 in"),
        nitrate("water_nitrate", "nitrate in the water", "5 ppm NO3-N"),
        yes_no("straight", "may get a bag alone", "yes"),
        day("planted", "planted", "2027-05-20"),
        day("harvest", "last harvest", "2027-09-15"),
        words("eaten_part", "part that is eaten", "touches the soil"),
        nitrate("nitrate_test", "nitrate before side-dressing", "18 ppm NO3-N"),
        words("kept_for", "kept for", "potatoes in rotation"),
        rate("lime_given", "lime that may still act", "5 lb per 100 sq ft"),
        number("lime_months_ago", "months since that lime", "8"),
        yes_no("free_lime", "fizzes with vinegar", "no"),
    ),
)

CROPS = Table(
    name="Crops",
    rows_are="one for each crop of a bed that has several",
    columns=(
        _BED,
        Column(key="crop", head="crop", needed=True, example="spinach"),
        percent("share", "share of the bed", "50 %"),
        whole("succession", "turn in the season", "1"),
        rate("yield", "harvest expected", "30 lb per 100 sq ft"),
        day("planted", "planted", "2027-05-20"),
        day("harvest", "last harvest", "2027-09-15"),
    ),
)

SOIL_TESTS = Table(
    name="Soil tests",
    rows_are="one for each bed with a soil test",
    columns=(
        _BED,
        whole("year", "year of the sample", "2026"),
        words("extractant", "method", "Mehlich-3 ICP", "The laboratory's method."),
        *(ppm(name, name, "42 ppm") for name in ("P", "K", "Ca", "Mg", "Na", "S", "B")),
        Column(key="nitrate", head="nitrate N", kind=Kind.PPM, example="8 ppm"),
        words("bases_extractant", "method for K, Ca, Mg, Na", "ammonium acetate"),
        words("boron_extractant", "method for B", "hot water"),
        number("pH", "pH", "6.3"),
        words("buffer", "buffer", "SMP"),
        number("buffer_pH", "buffer pH", "6.7"),
        Column(key="acidity", head="acidity", kind=Kind.MEQ, example="3.2 meq/100 g"),
        percent("organic_matter", "organic matter", "4.1 %"),
        Column(key="CEC", head="CEC", kind=Kind.MEQ, example="9.5 meq/100 g"),
        depth("depth", "depth of the sample", "6 in"),
        words("texture", "texture", "loam"),
        words("table", "tables of", "Rutgers"),
        whole("P_equation", "equation for P2O5"),
        whole("K_equation", "equation for K2O"),
    ),
)

MANURE = Table(
    name="Manure",
    rows_are="one for each manure or compost a bed got",
    columns=(
        _BED,
        Column(key="kind", head="kind", needed=True, example="poultry"),
        whole("years_ago", "years ago", "1"),
        rate("organic_N", "organic N"),
        rate("ammonium_N", "ammonium N"),
    ),
)

YEARS = Table(
    name="Earlier years",
    rows_are="one for each bed and earlier year",
    columns=(
        _BED,
        Column(key="year", head="year", kind=Kind.WHOLE, needed=True, example="2025"),
        rate("P2O5", "P2O5 given", "0.2 lb per 100 sq ft"),
        words("crop", "crop harvested", "tomato"),
        rate("yield", "harvest", "45 lb per 100 sq ft"),
    ),
)

GIVEN = Table(
    name="Given this season",
    rows_are="one for each bag or label a bed got already",
    columns=(
        _BED,
        Column(key="of", head="bag or label", needed=True, example="Blood meal"),
        mass("amount", "amount", "3 lb"),
        day("on", "day", "2027-04-20"),
    ),
)

RANGES = Table(
    name="Ranges",
    rows_are="one for each range that was set by hand",
    columns=(
        _BED,
        Column(key="nutrient", head="nutrient", needed=True, example="N"),
        rate("least", "least"),
        rate("aim", "aim"),
        rate("most", "most"),
        rate("stop", "stop"),
    ),
)

MIXES = Table(
    name="Mixes",
    rows_are="one for each bag of a kept mix",
    columns=(
        Column(key="mix", head="mix", needed=True, example="All-purpose pail"),
        Column(key="bag", head="bag", needed=True, example="All-purpose meal blend"),
        whole("scoops", "scoops", "4"),
        words("purpose", "purpose"),
        words("note", "note"),
    ),
)

DIARY = Table(
    name="Diary",
    rows_are="one for each line of the diary",
    columns=(
        whole("line", "line"),
        Column(key="on", head="day", kind=Kind.DATE, needed=True, example="2027-05-12"),
        Column(
            key="what",
            head="what",
            needed=True,
            example="fed",
            meaning="bought, made, fed, harvested or noted",
        ),
        words("bed", "bed", "North bed"),
        words("bag", "bag", "Blood meal", "What was bought, or given without mixing."),
        words("mix", "mix", "All-purpose pail", "What was made, or given."),
        words("crop", "crop", "tomato"),
        whole("bags", "bags", "2", "How many full bags were bought."),
        whole("rounds", "rounds", "3", "How often the recipe was scooped."),
        number("scoops", "scoops", "2.5", "How much the bed got."),
        mass("weight", "weight", "25 lb", "Of one bag where bags were bought; else of all of it."),
        money("paid", "paid", "24.98", "For all the bags."),
        money("list_price", "list price of one bag", "29.99"),
        money("cost", "what it had cost"),
        money("list_cost", "what it costs at list price"),
        words("note", "note"),
    ),
)

BATCHES = Table(
    name="Batches",
    rows_are="one for each bag that went into a batch; the line is that of the diary",
    columns=(
        whole("line", "line"),
        words("mix", "mix"),
        words("bag", "bag"),
        whole("scoops", "scoops"),
        mass("weight", "weight"),
    ),
)

HELD = Table(
    name="Feedings held",
    rows_are="what a feeding held, for each line of the diary that is one",
    columns=(
        whole("line", "line"),
        words("of", "mix or bag"),
        *(percent(one.value, one.value) for one in Content),
    ),
)

PLANS = Table(
    name="Plans",
    rows_are="one for each kept plan of a season",
    columns=(
        words("plan", "plan"),
        day("made_on", "made on"),
        yes_no("chosen", "followed"),
        money("money", "cost of bags and shed"),
        money("missed", "weight of what is missed"),
        money("bound", "no plan can be below"),
        words("proven_by", "proven by"),
        words("note", "note"),
    ),
)

PLAN_MIXES = Table(
    name="Plan mixes",
    rows_are="one for each bag of each mix of a plan",
    columns=(
        words("plan", "plan"),
        whole("mix", "mix"),
        whole("rounds", "rounds"),
        words("bag", "bag"),
        whole("scoops", "scoops in a round"),
    ),
)

PLAN_FEEDINGS = Table(
    name="Plan feedings",
    rows_are="what each bed gets in a plan",
    columns=(
        words("plan", "plan"),
        words("bed", "bed"),
        whole("mix", "mix"),
        words("bag", "bag alone"),
        whole("measures", "smallest measures"),
        number("scoops", "scoops"),
    ),
)

PLAN_BUYING = Table(
    name="Plan buying",
    rows_are="what is to be bought for a plan",
    columns=(
        words("plan", "plan"),
        words("bag", "bag"),
        whole("bags", "bags to buy"),
        money("price", "price of a bag"),
        money("cost", "cost"),
    ),
)

TABLES = (
    GARDEN,
    BAGS,
    BEDS,
    CROPS,
    SOIL_TESTS,
    MANURE,
    YEARS,
    GIVEN,
    RANGES,
    MIXES,
    DIARY,
    BATCHES,
    HELD,
    PLANS,
    PLAN_MIXES,
    PLAN_FEEDINGS,
    PLAN_BUYING,
)

# The sheets a garden may be brought in by, one kind after the other.
BROUGHT_IN = (BAGS, BEDS, SOIL_TESTS, DIARY)
