"""Answers as JSON: plain numbers under names that carry their unit, and money without loss."""

import json
from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from pathlib import PurePath
from typing import Any

from halfpail.domain.bed import NeedRange
from halfpail.domain.label import Grade
from halfpail.domain.stock import Density, UsableNitrogen

_MONEY = ("price", "cost", "money", "budget", "missed", "bound", "worth", "better", "saved")
# Numbers that carry their unit in their type, not in their name.
_UNIT_OF: dict[type, str] = {
    NeedRange: "_kg_per_m2",
    Grade: "_percent",
    Density: "_kg_per_l",
    UsableNitrogen: "_share",
}
_EXACT_DIGITS = 15


def dump(answer: object) -> str:
    """The answer as indented JSON text.

    >>> print(dump({"price": Fraction("12.99")}))
    {
      "price": 12.99
    }
    """
    return json.dumps(plain(answer), indent=2, ensure_ascii=False)


def plain(value: object) -> Any:
    """Dataclasses, fractions, dates, paths, enums and collections as what JSON knows.

    A fraction becomes a number, and its name tells its unit. Money that no short decimal can
    hold is also given exactly, as a fraction in words, under its name with `_exact` added.

    >>> plain({"cost_per_kg": Fraction(1, 3)})
    {'cost_per_kg': 0.3333333333333333, 'cost_per_kg_exact': '1/3'}
    >>> plain(Grade(n=Fraction(5), p2o5=Fraction(3), k2o=Fraction("3.5")))
    {'n_percent': 5, 'p2o5_percent': 3, 'k2o_percent': 3.5}
    """
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, PurePath):
        return str(value)
    if isinstance(value, Fraction):
        return value.numerator if value.denominator == 1 else float(value)
    if is_dataclass(value) and not isinstance(value, type):
        return _named(_fields(value))
    if isinstance(value, Mapping):
        return _named(value)
    if isinstance(value, AbstractSet):
        return sorted((plain(item) for item in value), key=str)
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    return value


def _fields(value: Any) -> dict[str, object]:
    unit = _UNIT_OF.get(type(value), "")
    found: dict[str, object] = {}
    for field in fields(value):
        one = getattr(value, field.name)
        found[field.name + unit if isinstance(one, Fraction) else field.name] = one
    return found


def _named(pairs: Mapping[Any, object]) -> dict[str, Any]:
    named: dict[str, Any] = {}
    for key, value in pairs.items():
        name = str(key.value) if isinstance(key, Enum) else str(key)
        named[name] = plain(value)
        if isinstance(value, Fraction) and _needs_exact(name, value):
            named[f"{name}_exact"] = str(value)
    return named


def _needs_exact(name: str, value: Fraction) -> bool:
    is_money = any(word in name for word in _MONEY)
    return is_money and Fraction(f"{float(value):.{_EXACT_DIGITS}g}") != value
