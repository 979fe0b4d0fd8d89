"""Addresses that several tests ask for."""

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from django.test import Client

from halfpail.application.shelf_ports import Shelf, Store
from tests.web.reading_pages import Element, Page, read

STARTER = {"grade": "3-4-4", "weight": "25", "price": "12", "scoops": "2"}
BLOOD = {"name": "blood meal", "grade": "12-0-0", "weight": "5", "price": "9", "scoops": "1"}


def first(*bags: dict[str, str], ground: str = "400 sq ft", **more: str) -> str:
    """The first question about these bags."""
    rows = {
        f"{number}-{key}": value for number, bag in enumerate(bags, 1) for key, value in bag.items()
    }
    return "/?" + urlencode({**rows, "ground": ground, **more})


def mix(**scoops: int | str) -> str:
    """The sum of so many scoops of bags of the sample garden; `_` stands for a space."""
    named = {f"scoops of {name.replace('_', ' ')}": count for name, count in scoops.items()}
    return "/mixes?" + urlencode(named)


EVERY_PAGE = {
    "first, blank": "/",
    "first, answered": first(STARTER, BLOOD),
    "first, refused": first({"grade": "99-99-99"}, ground="4 by"),
    "mixes, blank": "/mixes",
    "mixes, summed": mix(Blood_meal=2, Bone_meal=1) + "&wish=5-3-3",
    "mixes, refused": mix(Blood_meal="two"),
    "recipe, blank": "/mixes/recipe",
    "recipe, found": "/mixes/recipe?purpose=fruiting",
    "recipe, none": "/mixes/recipe?grade=20-20-20",
    "recipe, refused": "/mixes/recipe?grade=4-4-4&ratio=3-1-2",
    "files": "/files",
    "sources": "/sources",
}


@dataclass
class Sender:
    """A browser with a store behind it, which sends forms as a person would."""

    client: Client
    store: Store

    @property
    def shelf(self) -> Shelf:
        """The shelf of the garden the pages work on."""
        return self.store.shelf(self.store.gardens.all()[-1].key)

    def page(self, address: str) -> Page:
        """A page that can be had."""
        response = self.client.get(address)
        assert response.status_code == 200, response.content.decode()
        return read(response)

    def send(self, address: str, told: Mapping[str, str], **headers: str):
        """A form posted with the browser's token."""
        if "halfpail_csrf" not in self.client.cookies:
            self.client.get("/sources")
        token = self.client.cookies["halfpail_csrf"].value
        sent = {**told, "csrfmiddlewaretoken": token}
        return self.client.post(address, sent, headers=headers)

    def filled(self, address: str, **typed: str) -> dict[str, str]:
        """What a page's form would send, with these boxes filled in."""
        page = self.page(address)
        sent = {
            box.attributes["name"]: box.attributes.get("value", _blank(box))
            for box in page.all("input")
            if _is_sent(box)
        }
        for box in page.all("textarea"):
            sent[box.attributes["name"]] = box.text.lstrip("\n").replace("\r\n", "\n")
        sent |= page.chosen
        del sent["csrfmiddlewaretoken"]
        return {name: text for name, text in {**sent, **typed}.items() if text is not None}


def _is_sent(box: Element) -> bool:
    return "checked" in box.attributes or not _is_ticked(box)


def _is_ticked(box: Element) -> bool:
    return box.attributes.get("type") in ("checkbox", "radio")


def _blank(box: Element) -> str:
    return "on" if _is_ticked(box) else ""
