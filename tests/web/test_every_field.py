"""Every field of every form against one table of what nobody should type: refused at its field."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

import pytest

from halfpail.application.kept import MixEntry
from tests.web.asking import STARTER, first
from tests.web.reading_pages import read

NUMBERS = (
    *("2 1/0", "½½", "1 1/2/3", "2 3/2", "0/0", "1//2", "/2", "1/", "4..5", "1.2.3", "--4", "+-4"),
    *("nan", "NaN", "inf", "-inf", "1e400", "1e3", "9**9**9", "1_000", "0x10", "0b1", "1j"),
    *(
        "٣",
        "１２",
        "三",
        "Ⅳ",
        "x",
        "two",
        "a half",
        "-0",
        "-1",
        "−5",
        "1,00",
        "1.000,5",
        "1,234.50",
    ),
    *("9" * 40, "9" * 10_000, "4\x00", "3\u202e4", "1\u200b2", "4 lb 8 fl oz", "8 oz 4 lb"),
    *("<script>alert(1)</script>", '"><svg onload=alert(1)>', "{{7*7}}", "{% debug %}", "=1+1"),
    *("=HYPERLINK(1)", "@SUM(1)", "' OR 1=1", "../../x", "#import", "$x$", "5 gallonz", "furlong"),
)
DAYS = (
    *("31 April 2026", "29 February 2026", "30 February 2024", "0001-01-01", "0000-00-00"),
    *("9999-12-31", "2026-13-01", "2026-00-10", "2026-04-31", "5/10/2026", "10.5.26", "tomorrow"),
    *("today", "-2026-01-01", "٢٠٢٦-٠١-٠١", "2026-1", "May 2026", "20260101T00", "1" * 10_000),
    *("2026-01-01\x00", "2026\u202e-01-01", "", "   ", "<script>", "{{7*7}}"),
)
NAMES = ("", "   ", "\u00a0\u2009", "a\x00b", "a\u202eb", "\u2066a", "n" * 10_000)


@dataclass(frozen=True)
class Asked:
    """A form: where it is sent, what makes it whole, and its fields by what may not be in them."""

    to: str
    whole: Mapping[str, str] = field(default_factory=dict)
    numbers: tuple[str, ...] = ()
    days: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    at: str = ""
    posted: bool = True

    def cases(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Each field with what is typed there."""
        for fields, typed in (
            (self.numbers, NUMBERS),
            (self.days, DAYS),
            (self.names, NAMES),
        ):
            yield from ((name, typed) for name in fields)


FORMS = (
    Asked("/diary/write/batch", {"rounds": "1"}, ("rounds",), ("on",)),
    Asked("/diary/write/feeding", {"scoops": "1"}, ("scoops",), ("on",)),
    Asked("/diary/write/purchase", {"bags": "1", "paid": "5"}, ("bags", "paid"), ("on",)),
    Asked("/diary/write/harvest", {"weight": "2 lb", "crop": "tomato"}, ("weight",), ("on",)),
    Asked("/diary/write/note", {"note": "Rain."}, (), ("on",)),
    Asked(
        "/bags/1",
        numbers=("weight", "price", "list_price", "offered", "in_shed", "scoop_weighs"),
        names=("name",),
    ),
    Asked(
        "/beds/1",
        numbers=(
            *("size", "row", "compost_each_year", "compost_years", "crops-1-yield"),
            *("crops-1-share", "crops-1-succession", "container"),
            *(f"soil_test-{key}" for key in ("P", "K", "Ca", "Mg", "pH", "organic_matter", "CEC")),
            *("soil_test-depth", "soil_test-buffer_pH", "soil_test-year"),
        ),
        names=("name",),
    ),
    Asked(
        "/settings",
        numbers=(
            *("tools-scoop", "tools-pail", "tools-measure", "preferences-budget"),
            *("preferences-most_scoops", "preferences-most_bags", "preferences-visits"),
            *("preferences-price_ceiling", "climate-soil_depth"),
        ),
        names=("name",),
    ),
    Asked("/season/plan", {"mixes": "1"}, ("budget",), at="/season"),
    Asked("/mixes/keep", {"scoops of Blood meal": "1"}, names=("name",), at="/mixes"),
    Asked("/mixes/recipe", {"grade": "5-3-3"}, ("within", "scoops", "bags"), posted=False),
    Asked("/mixes/recipe", numbers=("ratio", "grade"), posted=False),
    Asked("/mixes", {"scoops of Blood meal": "1"}, ("wish", "scoop", "pail"), posted=False),
)
TYPED = ("weight", "price", "scoops")
ALONE = ("ground", "compost", "compost_years", "ceiling", "wish", "scoop", "pail")
pytestmark = pytest.mark.slow

CASES = [(form, name, typed) for form in FORMS for name, typed in form.cases()]


@pytest.fixture
def garden(sample):
    sample.shelf.mixes.add(MixEntry(name="Pail", scoops={"Blood meal": 1}))
    return sample


@pytest.mark.parametrize(
    ("form", "name", "typed"), CASES, ids=[f"{form.to} {name}" for form, name, _ in CASES]
)
def test_it_is_refused_at_its_field(garden, form, name, typed):
    whole = {**garden.filled(form.at or form.to), **form.whole} if form.posted else {**form.whole}
    before = len(garden.shelf.diary.all())
    taken = []
    for text in typed:
        told = {**whole, name: text}
        if form.posted:
            response = garden.send(form.to, told)
        else:
            response = garden.client.get(f"{form.to}?{urlencode(told)}")
        assert response.status_code in (200, 303, 422), (text[:40], response.status_code)
        if response.status_code != 422:
            taken.append(text[:40])
            continue
        page = read(response)
        said = page.by_id(f"id_{name}_error").text.strip()
        assert said and "Traceback" not in page.text, text[:40]
        assert "<script>alert" not in page.html and "<svg onload" not in page.html
    assert taken == []
    assert len(garden.shelf.diary.all()) == before


@pytest.mark.parametrize("name", [*TYPED, *ALONE])
def test_it_is_refused_in_a_first_answer(client, name):
    taken = []
    for text in NUMBERS:
        told = first({**STARTER, name: text}) if name in TYPED else first(STARTER, **{name: text})
        response = client.get(told)
        assert response.status_code in (200, 422)
        if response.status_code == 200:
            taken.append(text[:40])
            continue
        at = f"id_1-{name}_error" if name in TYPED else f"id_{name}_error"
        assert read(response).by_id(at).text.strip(), text[:40]
    assert taken == []


def test_the_table_is_long():
    asked = sum(len(typed) for _, _, typed in CASES) + len(NUMBERS) * len((*TYPED, *ALONE))
    print(f"{asked} cases in {len(CASES) + len((*TYPED, *ALONE))} fields")
    assert asked > 2500
