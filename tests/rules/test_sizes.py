"""Small modules, short bodies, few parameters: the bars of docs/house.md."""

from collections.abc import Sequence
from statistics import median, quantiles

from tests.rules.tree import functions, modules, parsed, text_of


def share(values: Sequence[int], hundredth: int) -> float:
    return quantiles(values, n=100, method="inclusive")[hundredth - 1]


def test_modules_are_small():
    lines = {module.name: len(text_of(module).splitlines()) for module in modules()}
    assert median(lines.values()) <= 130
    assert share(list(lines.values()), 90) <= 300
    assert {name: count for name, count in lines.items() if count > 500} == {}


def test_bodies_are_short():
    places = [place for module in modules() for place in functions(module)]
    lines = [place.body_lines for place in places]
    assert median(lines) <= 8
    assert share(lines, 90) <= 25
    assert [str(place) for place in places if place.body_lines > 60] == []


def test_parameters_are_few():
    places = [place for module in modules() for place in functions(module)]
    assert share([len(place.parameters) for place in places], 95) <= 5
    assert [str(place) for place in places if len(place.parameters) > 8] == []


def test_packages_are_no_front_doors():
    """An `__init__` that hands on names is how import loops start."""
    busy = [
        str(module) for module in modules() if module.name == "__init__.py" and _has_import(module)
    ]
    assert busy == []


def _has_import(module) -> bool:
    return any("import" in type(node).__name__.lower() for node in parsed(module).body)
