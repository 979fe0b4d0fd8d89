"""What holds on every page: its name, its labels, nothing inline, nothing from elsewhere."""

import pytest

from tests.web.asking import EVERY_PAGE
from tests.web.reading_pages import doubled_ids, from_elsewhere, inline, read, unlabelled

POLICY = {
    "default-src 'self'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' data:",
    "connect-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
    "form-action 'self'",
}
PLAIN_LIMIT = 60_000


@pytest.fixture(params=[*EVERY_PAGE.values()], ids=[*EVERY_PAGE])
def response(request, client):
    return client.get(request.param)


def test_a_refusal_says_so_in_status_and_title(response):
    page = read(response)
    refused = bool(page.all("section", id="told"))
    assert response.status_code == (422 if refused else 200)
    assert page.title.startswith("Error: ") == refused


def test_it_is_named_and_can_be_skipped_to(response):
    page = read(response)
    assert len(page.all("h1")) == 1
    assert page.all("html")[0].attributes["lang"] == "en"
    first_link = page.all("a")[0].attributes
    assert first_link["class"] == "skip" and page.by_id(first_link["href"][1:]).tag == "main"
    assert len(page.all("a", **{"aria-current": "page"})) <= 1


def test_every_box_has_a_label_and_every_id_is_its_own(response):
    page = read(response)
    assert unlabelled(page) == []
    assert doubled_ids(page) == []


def test_what_is_pointed_at_exists(response):
    page = read(response)
    ids = {one.attributes["id"] for one in page.elements if "id" in one.attributes}
    pointed = {
        pointer
        for one in page.elements
        for name in ("aria-describedby", "aria-labelledby", "for")
        for pointer in one.attributes.get(name, "").split()
    }
    inside = {
        one.attributes["href"][1:]
        for one in page.all("a")
        if one.attributes["href"].startswith("#")
    }
    assert (pointed | inside) - ids == set()


def test_nothing_is_inline_or_from_elsewhere(response):
    page = read(response)
    assert inline(page) == []
    assert from_elsewhere(page) == []


def test_the_policy_is_strict(response):
    assert set(response["Content-Security-Policy"].split("; ")) == POLICY


def test_the_other_headers_are_set(response):
    assert response["X-Frame-Options"] == "DENY"
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Referrer-Policy"] == "same-origin"
    assert response["Cross-Origin-Opener-Policy"] == "same-origin"


def test_the_page_itself_is_light(response):
    assert len(response.content) < PLAIN_LIMIT


def test_a_chart_has_its_words_and_its_table(client):
    page = read(client.get(EVERY_PAGE["first, answered"]))
    (drawing,) = page.all("svg", role="img")
    names = drawing.attributes["aria-labelledby"].split()
    assert [page.by_id(name).tag for name in names] == ["title", "desc"]
    assert page.by_id("given-numbers").tag == "details"


def test_every_citation_leads_to_its_source(client):
    listed = read(client.get("/sources"))
    anchors = {one.attributes["id"] for one in listed.elements if "id" in one.attributes}
    cited = {
        link.attributes["href"].partition("#")[2]
        for address in EVERY_PAGE.values()
        for link in read(client.get(address)).all("a")
        if link.attributes["href"].startswith("/sources#")
    }
    assert len(cited) > 5
    assert cited - anchors == set()
