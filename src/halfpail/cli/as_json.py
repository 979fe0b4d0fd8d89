"""Answers as JSON: plain numbers under names that carry their unit, and money without loss."""

import json
from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from typing import Any

_MONEY = ("price", "cost", "money", "budget", "missed", "bound", "worth")
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
    """Dataclasses, fractions, enums and collections as what JSON knows.

    A fraction becomes a number. Money that no short decimal can hold is also given exactly,
    as a fraction in words, under its name with `_exact` added.

    >>> plain({"cost_per_kg": Fraction(1, 3)})
    {'cost_per_kg': 0.3333333333333333, 'cost_per_kg_exact': '1/3'}
    """
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Fraction):
        return value.numerator if value.denominator == 1 else float(value)
    if is_dataclass(value) and not isinstance(value, type):
        return _named({field.name: getattr(value, field.name) for field in fields(value)})
    if isinstance(value, Mapping):
        return _named(value)
    if isinstance(value, AbstractSet):
        return sorted((plain(item) for item in value), key=str)
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    return value


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
