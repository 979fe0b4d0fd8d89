"""Values as plain data that JSON and columns can hold, and back again without loss.

Which type a piece of data becomes follows from the type it is declared as, so plain data carries no
names of types. Every field is written, so that a default changed later does not change what was
kept; a field that is missing gets its default, so an entry may grow.
"""

import types
from collections.abc import Hashable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

T = TypeVar("T")

_AS_THEY_ARE = (bool, int, float, str, type(None))


def to_plain(value: object) -> Any:
    """A value as plain data.

    >>> to_plain({"a": (Fraction(1, 3), None)})
    {'a': ['1/3', None]}
    """
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, _AS_THEY_ARE):
        return value
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {_key(key): to_plain(one) for key, one in value.items()}
    if isinstance(value, AbstractSet):
        return sorted((to_plain(one) for one in value), key=repr)
    if isinstance(value, tuple | list):
        return [to_plain(one) for one in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: to_plain(getattr(value, one.name)) for one in fields(value)}
    raise TypeError(f"a {type(value).__name__} has no plain form")


def from_plain(kind: type[T], data: Any) -> T:
    """The value of a type that plain data stands for.

    Raises:
        ValueError, TypeError, KeyError: the data is not of that type.

    >>> from_plain(tuple[Fraction, ...], ["1/3", "2"])
    (Fraction(1, 3), Fraction(2, 1))
    """
    return cast(T, _read(kind, data))


@cache
def declared(kind: Hashable) -> Mapping[str, Any]:
    """The declared types of a dataclass, by field."""
    return get_type_hints(kind)


def _key(key: object) -> str:
    plain = to_plain(key)
    if not isinstance(plain, str):
        raise TypeError(f"{plain!r} cannot be a key of plain data")
    return plain


def _read(kind: Any, data: Any) -> Any:
    origin, inside = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        return _read_one_of(inside, data)
    if origin is tuple:
        each = inside if inside[-1] is not ... else inside[:1] * len(data)
        return tuple(_read(one, part) for one, part in zip(each, data, strict=True))
    if origin is frozenset:
        return frozenset(_read(inside[0], one) for one in data)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return {_read(inside[0], key): _read(inside[1], one) for key, one in data.items()}
    if is_dataclass(kind):
        told = declared(cast(type, kind))
        return cast(Any, kind)(**{name: _read(told[name], one) for name, one in data.items()})
    if kind in _AS_THEY_ARE:
        if kind is float and type(data) is int:
            return float(data)
        if type(data) is not kind:
            raise TypeError(f"{data!r} is no {kind.__name__}")
        return data
    return kind.fromisoformat(data) if issubclass(kind, date) else kind(data)


def _read_one_of(kinds: tuple[Any, ...], data: Any) -> Any:
    """The one of several types that fits: a plain type by its own, else the only other one."""
    if type(data) in kinds:
        return data
    others = [kind for kind in kinds if kind is float or kind not in _AS_THEY_ARE]
    if len(others) != 1:
        raise TypeError(f"{data!r} is none of {kinds}")
    return _read(others[0], data)
