"""Addresses that several tests ask for."""

from urllib.parse import urlencode

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
    "sources": "/sources",
}
