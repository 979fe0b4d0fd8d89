"""Public functions of the domain name their units and show a worked number that runs."""

import ast
import re

from tests.rules.tree import SOURCE, Place, functions, modules

UNIT = re.compile(r"\[[^\[\]]+\]")


def public() -> list[Place]:
    places = [place for module in modules(SOURCE / "domain") for place in functions(module)]
    return [place for place in places if place.public]


def numbers(place: Place) -> bool:
    """Whether a function takes or gives an amount (an exact fraction)."""
    shown = [parameter.annotation for parameter in place.parameters] + [place.node.returns]
    return any("Fraction" in ast.unparse(one) for one in shown if one is not None)


def test_every_amount_has_its_unit_in_brackets():
    silent = [
        str(place) for place in public() if numbers(place) and not UNIT.search(place.docstring)
    ]
    assert silent == []


def test_every_function_has_an_example_that_runs():
    silent = [
        str(place) for place in public() if "." not in place.name and ">>>" not in place.docstring
    ]
    assert silent == []


def test_every_public_function_says_what_it_is():
    silent = [
        str(place)
        for module in modules()
        for place in functions(module)
        if place.public and not place.docstring
    ]
    assert silent == []
