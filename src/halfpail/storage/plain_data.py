"""Values as plain data that JSON and columns can hold, and back again without loss.

Which type a piece of data becomes follows from the type it is declared as, so plain data carries no
names of types. Every field is written, so that a default changed later does not change what was
kept; a field that is missing gets its default, so an entry may grow.
"""

import types
from collections.abc import Callable, Hashable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from functools import cache, lru_cache, partial
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
    return cast(T, _reader(cast(Hashable, kind))(data))


@cache
def declared(kind: Hashable) -> Mapping[str, Any]:
    """The declared types of a dataclass, by field."""
    return get_type_hints(kind)


def _key(key: object) -> str:
    plain = to_plain(key)
    if not isinstance(plain, str):
        raise TypeError(f"{plain!r} cannot be a key of plain data")
    return plain


@cache
def _reader(kind: Any) -> Callable[[Any], Any]:
    """How data of one declared type is read; found once for each type, since there is much data."""
    origin, inside = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        return _reader_of_one_of(inside)
    if origin is tuple:
        return _reader_of_tuple(inside)
    if origin is frozenset:
        return lambda data: frozenset(map(_reader(inside[0]), data))
    if isinstance(origin, type) and issubclass(origin, Mapping):
        keys, values = map(_reader, inside)
        return lambda data: {keys(key): values(one) for key, one in data.items()}
    if is_dataclass(kind):
        readers = {name: _reader(one) for name, one in declared(cast(type, kind)).items()}
        return partial(_read_fields, kind, readers)
    if kind in _AS_THEY_ARE:
        return _reader_as_it_is(kind)
    if kind is Fraction:
        return _fraction
    read: Callable[[Any], Any] = kind.fromisoformat if issubclass(kind, date) else kind
    return read


def _read_fields(kind: Any, readers: Mapping[str, Callable[[Any], Any]], data: Any) -> Any:
    return kind(**{name: readers[name](one) for name, one in data.items()})


def _reader_of_one_of(kinds: tuple[Any, ...]) -> Callable[[Any], Any]:
    """A plain type is known by its own, and what is none of these is of the only other one."""
    others = [_reader(kind) for kind in kinds if kind is float or kind not in _AS_THEY_ARE]

    def read(data: Any) -> Any:
        if type(data) in kinds:
            return data
        if len(others) != 1:
            raise TypeError(f"{data!r} is none of {kinds}")
        return others[0](data)

    return read


def _reader_of_tuple(inside: tuple[Any, ...]) -> Callable[[Any], Any]:
    if inside[-1] is ...:
        return lambda data: tuple(map(_reader(inside[0]), data))
    readers = [_reader(one) for one in inside]
    return lambda data: tuple(read(one) for read, one in zip(readers, data, strict=True))


def _reader_as_it_is(kind: Any) -> Callable[[Any], Any]:
    def read(data: Any) -> Any:
        if kind is float and type(data) is int:
            return float(data)
        if type(data) is not kind:
            raise TypeError(f"{data!r} is no {kind.__name__}")
        return data

    return read


@lru_cache(maxsize=10_000)
def _fraction(data: str) -> Fraction:
    above, _, below = data.partition("/")
    return Fraction(int(above), int(below or 1))
