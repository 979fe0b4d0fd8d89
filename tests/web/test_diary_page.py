"""The diary as a page: written, summed, taken back; the stock follows; two taps count once."""

from datetime import timedelta
from fractions import Fraction

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.application.garden_entry import BedEntry
from halfpail.application.kept import MixEntry
from halfpail.domain.diary import Fed, Made, Noted
from halfpail.quantities.units import size_of
from halfpail.web.clock import today
from halfpail.web.forms.diary import FORMS
from halfpail.web.pages.diary import LINES_SHOWN
from tests.web.asking import Sender
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled

POUND = size_of("lb")
HUNDRED_SQ_FT = 100 * size_of("sq ft")


@pytest.fixture
def shed(sender):
    """Two bags, one bed of 100 sq ft, one mix of 3 scoops to 1, with scoops of 1 lb."""
    sender.send("/garden/start", {"with": "empty"})
    for name, label, price, full in (("Meal", "4-3-2", "10", "20"), ("Blood", "12-0-0", "8", "10")):
        told = sender.filled("/bags/new", name=name, label=label, weight="20 lb", price=price)
        told |= {"list_price": full, "in_shed": "40 lb", "scoop_weighs": "1 lb"}
        assert sender.send("/bags/new", told).status_code == 303
    sender.shelf.beds.add(BedEntry(name="East", place="", area_m2=HUNDRED_SQ_FT, crop="tomato"))
    sender.shelf.mixes.add(MixEntry(name="Green pail", scoops={"Meal": 3, "Blood": 1}))
    return sender


def write(sender: Sender, kind: str, **typed: str) -> int:
    response = sender.send(f"/diary/write/{kind}", sender.filled(f"/diary/write/{kind}", **typed))
    return int(response.status_code)


def in_shed(sender: Sender) -> dict[str, Fraction]:
    return {one.value.name: one.value.shed_kg / POUND for one in sender.shelf.bags.all()}


def test_a_batch_takes_from_the_shed_and_keeps_its_recipe(shed):
    assert write(shed, "batch", mix="Green pail", rounds="2") == 303
    assert in_shed(shed) == {"Meal": 34, "Blood": 38}  # 2 rounds of 3 + 1 scoops of 1 lb, by hand
    (line,) = shed.shelf.diary.all()
    assert isinstance(line.value, Made) and [one.scoops for one in line.value.taken] == [6, 2]
    kept = shed.shelf.mixes.all()[0]
    shed.shelf.mixes.change(kept.key, kept.version, MixEntry(name="Green pail", scoops={"Meal": 1}))
    assert "2 rounds of Green pail: 6 scoops Meal, 2 scoops Blood; 8 lb" in shed.page("/diary").text


def test_a_feeding_counts_against_the_need_of_its_bed(shed):
    assert write(shed, "feeding", bed="East", of="Blood", scoops="1/2") == 303
    page = shed.page("/diary")
    (line,) = shed.shelf.diary.all()
    assert isinstance(line.value, Fed) and line.value.mass_kg == POUND / 2
    assert line.value.cost == Fraction(8, 20) / 2  # half a pound at 8 for 20 lb
    assert line.value.list_cost == Fraction(10, 20) / 2
    assert "Fed East: 1/2 scoop of Blood, 8 oz" in page.text
    assert "worth $0.20, $0.40 per lb" in page.text
    assert in_shed(shed)["Blood"] == Fraction(79, 2)  # given straight, it came out of the shed
    write(shed, "feeding", bed="East", of="Meal", scoops="10")
    (given,) = shed.page("/diary").all("td", **{"data-heading": "K2O"})
    assert given.text == "0.20"  # 10 lb of 4-3-2 on 100 sq ft, by hand


def test_a_purchase_fills_the_shed_and_tells_what_was_saved(shed):
    assert write(shed, "purchase", bag="Meal", bags="3", paid="24") == 303
    assert in_shed(shed)["Meal"] == 100  # 40 + 3 bags of 20 lb, by hand
    text = shed.page("/diary").text
    assert "Paid for bags: $24.00" in text
    assert "$60.00 in season: $36.00 saved" in text  # 3 at 20 less 24, by hand


def test_a_purchase_costs_the_price_of_the_bag_where_nothing_is_said(shed):
    write(shed, "purchase", bag="Blood", bags="2")
    assert "Paid for bags: $16.00" in shed.page("/diary").text


def test_a_harvest_counts_in_the_phosphorus_account(shed):
    assert write(shed, "harvest", bed="East", weight="50 lb") == 303
    page = shed.page("/diary?bed=East")
    assert "Harvested 50 lb of tomato from East." in page.text
    (taken,) = page.all("td", **{"data-heading": "taken by harvest"})
    (balance,) = page.all("td", **{"data-heading": "balance"})
    assert float(taken.text) > 0 and balance.text == f"-{taken.text}"


def test_phosphorus_is_drawn_over_the_years(shed):
    write(shed, "feeding", bed="East", of="Meal", scoops="10", on=f"{today().year - 1}-05-01")
    write(shed, "feeding", bed="East", of="Meal", scoops="10", on=f"{today().year}-01-01")
    page = shed.page("/diary?bed=East")
    assert page.by_id("account-title").text == "East: P2O5 beyond what harvests took"
    # 10 lb of 4-3-2 on 100 sq ft hold 0.3 lb of P2O5 by the label, twice, by hand
    cells = [one.text for one in page.all("td", **{"data-heading": "balance"})]
    assert [float(text) for text in cells] == [0.3, 0.6]


def test_a_long_year_begins_with_its_last_lines(shed):
    for number in range(LINES_SHOWN + 2):
        shed.shelf.diary.record(Noted(on=today(), note=f"note {number}."))
    page = shed.page("/diary")
    assert "Show 2 more of this year" in page.text and f"note {LINES_SHOWN + 1}." in page.text
    assert "note 1. " not in page.text
    assert "note 1. " in shed.page("/diary?whole=1").text


def test_a_note_may_be_of_a_bed_or_of_none(shed):
    write(shed, "note", note="slugs", bed="East")
    write(shed, "note", note="first frost")
    text = shed.page("/diary").text
    assert "East: slugs" in text and "first frost" in text


def test_what_is_taken_back_gives_its_stock_back_and_can_be_written_again(shed):
    write(shed, "batch", mix="Green pail", rounds="2")
    key = shed.shelf.diary.all()[0].key
    for _ in range(2):  # a double tap
        assert shed.send(f"/diary/{key}/undo", {}).status_code == 303
    assert in_shed(shed) == {"Meal": 40, "Blood": 40}
    page = shed.page("/diary")
    assert "Nothing is written down" in page.text
    assert "Green pail" in page.by_id("undone").text
    for _ in range(2):
        assert shed.send(f"/diary/{key}/redo", {}).status_code == 303
    assert in_shed(shed) == {"Meal": 34, "Blood": 38}
    assert len(shed.shelf.diary.all()) == 1


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("batch", {"mix": "Green pail", "rounds": "1"}),
        ("feeding", {"bed": "East", "of": "Green pail", "scoops": "2"}),
        ("purchase", {"bag": "Meal", "bags": "1"}),
        ("harvest", {"bed": "East", "weight": "3"}),
        ("note", {"note": "once"}),
    ],
)
def test_a_double_tap_writes_once(shed, kind, typed):
    told = shed.filled(f"/diary/write/{kind}", **typed)
    once = None
    for _ in range(3):
        assert shed.send(f"/diary/write/{kind}", told).status_code == 303
        once = once or in_shed(shed)
        assert in_shed(shed) == once
    assert len(shed.shelf.diary.all()) == 1


def test_more_than_the_shed_held_is_told(shed):
    write(shed, "batch", mix="Green pail", rounds="50")
    assert "not so much in the shed by the book: Meal" in shed.page("/diary").text
    assert in_shed(shed)["Meal"] == 0


def test_what_is_left_in_a_pail_is_told(shed):
    write(shed, "batch", mix="Green pail", rounds="2")
    write(shed, "feeding", bed="East", of="Green pail", scoops="3")
    assert "Green pail: 5 lb" in shed.page("/diary").text  # 8 lb less 3 scoops of 1 lb, by hand


TOMORROW = (today() + timedelta(days=1)).isoformat()
LONG = "9" * 5000
BAD = [
    *(("batch", "rounds", typed) for typed in ("", "0", "-1", "2.5", "1000", "two", LONG, "\x00")),
    *(("batch", "mix", typed) for typed in ("", "no such mix", "Meal", LONG, "\x00")),
    *(("batch", "on", typed) for typed in ("", "3/4/2026", "2026-02-30", TOMORROW, "0001-01-01")),
    *(("feeding", "scoops", typed) for typed in ("", "0", "-2", "much", "2001", "1/0", "٣", LONG)),
    *(("feeding", "bed", typed) for typed in ("", "nowhere", "' OR 1=1", LONG)),
    *(("feeding", "of", typed) for typed in ("", "nothing", "<script>")),
    *(("purchase", "bags", typed) for typed in ("", "0", "-3", "1e9", "1000", "x")),
    *(("purchase", "paid", typed) for typed in ("-1", "free", "$", "1,2,3", LONG)),
    *(("purchase", "bag", typed) for typed in ("", "Green pail")),
    *(("harvest", "weight", typed) for typed in ("", "-1", "3 ft", "heavy", "0", "\x00")),
    *(("harvest", "crop", typed) for typed in ("x" * 61, "3\u202e4")),
    *(("note", "note", typed) for typed in ("", "   ", "x" * 401, "a\u202eb")),
    *(("note", "bed", typed) for typed in ("nowhere",)),
]
GOOD = {
    "batch": {"mix": "Green pail", "rounds": "1"},
    "feeding": {"bed": "East", "of": "Meal", "scoops": "1"},
    "purchase": {"bag": "Meal", "bags": "1"},
    "harvest": {"bed": "East", "weight": "1 lb"},
    "note": {"note": "good"},
}


def test_there_are_enough_cases():
    assert len(BAD) >= 55


@pytest.mark.parametrize(("kind", "field", "typed"), BAD, ids=lambda one: one[:20])
def test_it_is_refused_at_its_field_and_nothing_is_written(shed, kind, field, typed):
    told = shed.filled(f"/diary/write/{kind}", **(GOOD[kind] | {field: typed}))
    response = shed.send(f"/diary/write/{kind}", told)
    assert response.status_code == 422
    page = read(response)
    assert page.by_id(f"id_{field}_error").text.strip()
    assert page.title.startswith("Error: ")
    assert shed.shelf.diary.all() == () and in_shed(shed) == {"Meal": 40, "Blood": 40}


@pytest.mark.parametrize("note", ["<script>alert(1)</script>", "{{7*7}}", "بذور", "🪱", "' OR 1=1"])
def test_a_note_is_text_and_nothing_else(shed, note):
    write(shed, "note", note=note)
    html = shed.client.get("/diary").content.decode()
    assert "<script>alert" not in html and note in shed.page("/diary").text


@pytest.mark.parametrize("rest", ["?year=x", "?year=" + LONG, "?year=-1", "?bed=<b>", "?year=0"])
def test_an_odd_address_is_left_aside(shed, rest):
    assert shed.page(f"/diary{rest}")


@pytest.mark.parametrize("kind", ["", "nothing", "__class__", "batch/x"])
def test_another_kind_of_line_is_not_there(shed, kind):
    assert shed.client.get(f"/diary/write/{kind}").status_code == 404


@pytest.mark.parametrize("address", ["/diary/write/note", "/diary/1/undo", "/diary/1/redo"])
def test_a_change_needs_a_token(shed, address):
    assert shed.client.post(address, {"note": "x"}).status_code == 403
    assert shed.shelf.diary.all() == ()


@pytest.mark.parametrize("address", ["/diary/1/undo", "/diary/1/redo"])
def test_a_change_is_never_made_by_an_address(shed, address):
    assert shed.client.get(address).status_code == 405


@pytest.mark.parametrize("address", ["/diary", *(f"/diary/write/{kind}" for kind in FORMS)])
def test_the_page_is_whole(shed, address):
    write(shed, "feeding", bed="East", of="Meal", scoops="1")
    page = shed.page(address)
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []


def test_queries_do_not_grow_with_lines(shed):
    def queries() -> int:
        shed.page("/diary")
        with CaptureQueriesContext(connection) as caught:
            shed.page("/diary")
        return len(caught)

    write(shed, "note", note="first")
    before = queries()
    for number in range(15):
        write(shed, "feeding", bed="East", of="Meal", scoops=str(number + 1))
    assert queries() == before <= 8
