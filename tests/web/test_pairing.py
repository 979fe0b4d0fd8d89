"""A device of the home network: shown nothing before it has typed the code, which works once."""

import pytest
from django.test import Client

from halfpail.web.pairing import COOKIE, DOOR, WRONG_TRIES, Answer, Pairing
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled


@pytest.fixture
def pairing() -> Pairing:
    return Pairing()


@pytest.fixture
def phone(pairing) -> Client:
    """Comes in by the door of the home network."""
    return at_the_door(pairing)


def at_the_door(pairing: Pairing) -> Client:
    phone = Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})
    phone.defaults[DOOR] = pairing  # type: ignore[assignment]  # no header, a value
    return phone


def send(phone: Client, code: str, address: str = "/pair"):
    phone.get("/pair")
    token = phone.cookies["halfpail_csrf"].value
    return phone.post(address, {"code": code, "csrfmiddlewaretoken": token})


@pytest.mark.parametrize("address", ["/", "/bags", "/settings", "/nowhere", "/files/garden.json"])
def test_nothing_is_shown_before_the_code(sample, phone, address):
    response = phone.get(address)
    assert (response.status_code, response["Location"]) == (303, "/pair")
    assert response.content == b""


def test_nothing_is_changed_before_the_code(sample, phone):
    assert send(phone, "", "/garden/remove-sample")["Location"] == "/pair"
    assert sample.store.gardens.all()


def test_the_page_that_asks_tells_nothing_of_the_garden(sample, phone):
    page = read(phone.get("/pair?code=12345678"))
    assert "sample" not in page.text.casefold() and "Bags" not in page.text
    assert "plain text (http)" in page.text and "see and change the whole garden" in page.text
    assert page.by_id("code").attributes["value"] == "12345678"  # it waits for the button
    assert not unlabelled(page) and not doubled_ids(page) and not inline(page)


def test_the_code_lets_one_device_in_and_is_used_up(sample, phone, pairing):
    code = pairing.code
    response = send(phone, f" {code[:4]}-{code[4:]} ")
    assert (response.status_code, response["Location"]) == (303, "/")
    assert phone.get("/bags").status_code == 200
    assert "travels there as plain text" in read(phone.get("/bags")).text
    assert phone.cookies[COOKIE]["httponly"]
    assert send(at_the_door(pairing), code).status_code == 422


def test_wrong_codes_close_the_door_even_for_the_right_one(sample, phone, pairing):
    told = [send(phone, f"{number}").status_code for number in range(WRONG_TRIES)]
    assert told == [422] * (WRONG_TRIES - 1) + [403]
    assert "Too many wrong codes" in read(send(phone, pairing.code)).text
    assert phone.get("/bags").status_code == 303


def test_whoever_was_in_stays_in_when_the_door_closes(sample, phone, pairing):
    send(phone, pairing.code)
    for _ in range(WRONG_TRIES):
        pairing.attempt("no")
    assert pairing.attempt(pairing.code) is Answer.CLOSED
    assert phone.get("/bags").status_code == 200


def test_a_cookie_of_an_earlier_run_or_of_ones_own_making_is_worth_nothing(sample, phone, pairing):
    send(phone, pairing.code)
    later = at_the_door(Pairing())
    for cookie in (phone.cookies[COOKIE].value, "made up", "x:y:z"):
        later.cookies[COOKIE] = cookie
        assert later.get("/bags")["Location"] == "/pair"


def test_a_code_needs_the_forms_token(sample, phone, pairing):
    assert phone.post("/pair", {"code": pairing.code}).status_code == 403
    assert phone.get("/bags").status_code == 303


def test_no_header_opens_the_door(sample, pairing):
    phone = at_the_door(pairing)
    phone.get("/pair")
    response = phone.get("/bags", headers={"halfpail-pairing": "", "x-forwarded-for": "127.0.0.1"})
    assert response.status_code == 303


def test_on_this_machine_no_code_is_asked(sample):
    assert sample.client.get("/bags").status_code == 200
    assert sample.client.get("/pair")["Location"] == "/"
