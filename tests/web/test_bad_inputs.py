"""What nobody should type: each gives a message at its field, never a bug, never a number."""

import csv
from pathlib import Path

import pytest

from tests.web.asking import STARTER, first, mix
from tests.web.reading_pages import read

TYPED = Path(__file__).with_name("bad_inputs.csv").read_text(encoding="utf-8")
CASES = list(csv.DictReader(TYPED.splitlines()))
WORDS = {
    "LONG": "9" * 10_000,
    "NUL": "4\x00",
    "BIDI": "3\u202e4",
    "SPACES": "   ",
    "NBSP": "\u00a0\u2009\u00a0",
}
ROW = {"weight", "price", "scoops", "grade", "name"}

# Odd, but what was meant is beyond doubt: each is read, and as this.
ODD = [
    ("weight", "25\u00a0lb", "$0.48 per lb"),
    ("weight", "12 1\u20442 lb", "$0.96 per lb"),
    ("weight", "12½ lb", "$0.96 per lb"),
    ("weight", " 400 oz ", "$0.48 per lb"),
    ("weight", "12,5 lb", "$0.96 per lb"),
    ("weight", "5#", "$2.40 per lb"),
    ("price", "$ 12.00", "$0.48 per lb"),
    ("price", "12 USD", "$0.48 per lb"),
    ("price", "0", "$0.00 per lb"),
    ("grade", "3 - 4 - 4", "3-4-4 by weight"),
    ("grade", "3–4–4", "3-4-4 by weight"),
    ("scoops", "2 ", "3-4-4 by weight"),
    ("ground", "20 x 20", "A year on 400 sq ft"),
    ("ground", "20 ft by 20 ft", "A year on 400 sq ft"),
]
NAMES = [
    "<script>alert(1)</script>",
    '"><svg onload=alert(1)>',
    "{{7*7}}",
    "{% debug %}",
    "=HYPERLINK(1)",
    "' OR 1=1",
    "../../x",
    "CON",
    "بذور",
    "🪱 castings",
    "cafe\u0301",
]


def address(field: str, typed: str) -> str:
    if field in ROW:
        return first({**STARTER, field: typed})
    return first(STARTER, **{field: typed})


def test_there_are_enough_cases():
    assert len(CASES) >= 80


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['field']}: {case['typed'][:30]}")
def test_it_is_refused_at_its_field(client, case):
    field, typed = case["field"], WORDS.get(case["typed"], case["typed"])
    response = client.get(address(field, typed))
    assert response.status_code == 422
    page = read(response)
    said = page.by_id(f"id_1-{field}_error" if field in ROW else f"id_{field}_error").text
    assert said.strip() and case["told"] in said
    assert "by weight" not in page.by_id("answer").text
    assert "id_" not in page.text and "Traceback" not in page.text


@pytest.mark.parametrize(("field", "typed", "told"), ODD)
def test_odd_but_clear_is_read_rightly(client, field, typed, told):
    response = client.get(address(field, typed))
    assert response.status_code == 200
    assert told in read(response).text


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("page", ["/", "/mixes", "/mixes/recipe"])
def test_a_name_is_text_and_nothing_else(client, name, page):
    asked = first({**STARTER, "name": name})[1:]
    response = client.get(page + asked + "&purpose=all_purpose")
    html = response.content.decode()
    assert response.status_code == 200
    assert "<script>alert" not in html and "<svg onload" not in html
    if name == "{{7*7}}":
        assert "49" not in read(response).text
    if page != "/mixes/recipe":
        assert " ".join(name.replace("e\u0301", "é").split()) in read(response).text


def test_two_bags_of_one_name_stay_two(client):
    text = read(client.get(first(STARTER, {**STARTER, "price": "20"}))).text
    assert "3-4-4 (2)" in text


@pytest.mark.parametrize("typed", ["-1", "2.5", "201", "٣", "9" * 10_000, "\x00", "1e1", "<b>"])
def test_scoops_of_a_mix_are_refused_at_their_row(client, typed):
    response = client.get(mix(Blood_meal=typed))
    page = read(response)
    assert response.status_code == 422
    (box,) = [one for one in page.all("input") if one.attributes["name"] == "scoops of Blood meal"]
    assert page.by_id(f"{box.attributes['id']}_error").text.strip()
    assert "by weight" not in page.text


@pytest.mark.parametrize(
    "address",
    [
        "/?rows=" + "9" * 5000,
        "/?rows=x&rows=3",
        "/?1-grade=3-4-4&1-grade=5-5-5&ground=400",
        "/?21-grade=3-4-4",
        "/?%00=1&1-grade%00=3",
        "/?" + "&".join(f"{number}-x=1" for number in range(900)),
        "/mixes?more=" + "x" * 5000,
        "/mixes?scoops+of+=3",
        "/mixes?page=-1&sort=__class__",
        "/mixes/recipe?purpose=__class__",
        "/sources?key=../../etc",
        "/?units=furlongs&1-grade=3-4-4&ground=400",
    ],
)
def test_an_odd_address_never_breaks_the_page(client, address):
    assert client.get(address).status_code in (200, 422)


@pytest.mark.parametrize("address", ["/nothing", "/mixes/", "/mixes/x", "/static/../secret"])
def test_what_is_not_there_is_told_plainly(client, address):
    response = client.get(address)
    assert response.status_code == 404
    assert "There is no such page" in response.content.decode()


@pytest.mark.parametrize("cookie", ["units", "theme", "currency", "halfpail_session", "messages"])
def test_a_cookie_with_nonsense_is_left_aside(client, cookie):
    client.cookies[cookie] = '"><script>;{{7*7}}'
    assert client.get("/").status_code == 200
