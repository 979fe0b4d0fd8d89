"""Only this machine's own pages may ask, and changes need a token and a post."""

import pytest
from django.test import Client

OURS = ["127.0.0.1", "127.0.0.1:8765", "localhost", "localhost:8765", "localhost.", "[::1]:8765"]
FOREIGN = [
    "example.org",
    "127.0.0.1.example.org",
    "localhost.example.org",
    "0.0.0.0",
    "192.168.1.20:8765",
    "localhost:8765@evil.example",
    "evil.example:8765",
    "127.0.0.2",
    "",
]


@pytest.mark.parametrize("host", OURS)
def test_our_own_names_are_answered(host):
    assert Client(headers={"host": host}).get("/").status_code == 200


@pytest.mark.parametrize("host", FOREIGN)
@pytest.mark.parametrize("address", ["/", "/static/halfpail/halfpail.css"])
def test_another_name_is_refused(host, address):
    response = Client(headers={"host": host}).get(address)
    assert response.status_code == 400
    assert b"Halfpail" in response.content


def token(client: Client) -> str:
    client.get("/")
    return client.cookies["halfpail_csrf"].value


def test_a_change_without_a_token_is_refused(client):
    response = client.post("/look", {"units": "metric"})
    assert response.status_code == 403
    assert "units" not in response.cookies
    assert "Nothing was changed" in response.content.decode()


def test_a_change_with_its_token_is_made(client):
    sent = {"units": "metric", "csrfmiddlewaretoken": token(client), "next": "/sources"}
    response = client.post("/look", sent)
    assert (response.status_code, response["Location"]) == (303, "/sources")
    assert response.cookies["units"].value == "metric"


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"sec-fetch-site": "same-origin"}, 303),
        ({"sec-fetch-site": "none"}, 303),
        ({}, 303),
        ({"origin": "http://127.0.0.1"}, 303),
        ({"sec-fetch-site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site"}, 403),
        ({"sec-fetch-site": "nonsense"}, 403),
        ({"origin": "http://example.org"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "https://127.0.0.1"}, 403),
        ({"origin": "http://127.0.0.1:81"}, 403),
        ({"origin": "http://[broken"}, 403),
    ],
)
def test_another_site_cannot_ask_for_a_change_even_with_a_token(client, headers, status):
    sent = {"units": "metric", "csrfmiddlewaretoken": token(client)}
    assert client.post("/look", sent, headers=headers).status_code == status


def test_asking_from_another_site_is_only_refused_for_changes(client):
    assert client.get("/", headers={"sec-fetch-site": "cross-site"}).status_code == 200


@pytest.mark.parametrize("method", ["put", "patch", "delete", "trace"])
def test_other_methods_are_refused(client, method):
    assert getattr(client, method)("/look").status_code in (403, 405)


def test_a_change_is_never_made_by_an_address(client):
    response = client.get("/look?units=metric")
    assert response.status_code == 405
    assert "units" not in response.cookies


def test_a_method_cannot_be_put_over_another(client):
    response = client.get("/look?_method=POST", headers={"x-http-method-override": "POST"})
    assert response.status_code == 405


@pytest.mark.parametrize(
    "asked",
    ["//evil.example", "https://evil.example", "/\\evil.example", "javascript:alert(1)", ""],
)
def test_one_is_never_led_elsewhere(client, asked):
    sent = {"units": "US", "csrfmiddlewaretoken": token(client), "next": asked}
    assert client.post("/look", sent)["Location"] == "/"


def test_too_many_fields_are_refused(client):
    sent = {f"f{number}": "" for number in range(1001)} | {"csrfmiddlewaretoken": token(client)}
    assert client.post("/look", sent).status_code == 400


def test_too_large_a_body_is_refused(client):
    sent = f"csrfmiddlewaretoken={token(client)}&next={'x' * 1_000_001}"
    response = client.post("/look", sent, content_type="application/x-www-form-urlencoded")
    assert response.status_code == 400
