"""Plain data is read as what it is declared as, or refused."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

import pytest

from halfpail.domain.bed import Content
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.storage.plain_data import from_plain, to_plain


@dataclass(frozen=True)
class Old:
    """An entry as it was."""

    mass_kg: Fraction


@dataclass(frozen=True)
class New:
    """The same entry, grown."""

    mass_kg: Fraction
    since: date | None = None
    warm_c: float = 5.0


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (Fraction, Fraction(-1, 3)),
        (int | str, 3),
        (int | str, "3"),
        (Fraction | None, None),
        (float | None, 2.5),
        (date, date(2028, 2, 29)),
        (frozenset[frozenset[str]], frozenset({frozenset({"a", "b"}), frozenset()})),
        (Mapping[Content, Fraction], {Content.N_LOW: Fraction(1, 7)}),
        (tuple[tuple[str, int], ...], (("a", 1),)),
        (New, New(Fraction(1), date(2027, 1, 1), 3.25)),
    ],
)
def test_there_and_back(kind, value):
    assert from_plain(kind, to_plain(value)) == value


def test_a_plan_keeps_what_is_not_compared():
    plan = SeasonPlan(
        stirs=(Stir(scoops={"a": 1}, rounds=2),),
        feedings=(Feeding(plot="p", of=0, measures=1), Feeding(plot="p", of="0", measures=1)),
        purchases={},
        money=Fraction(1),
        missed=Fraction(0),
        bound=Fraction(1),
        proven_by="hand",
        seconds=0.125,
    )
    again = from_plain(SeasonPlan, to_plain(plan))
    assert again == plan and again.seconds == 0.125
    assert [feeding.of for feeding in again.feedings] == [0, "0"]


def test_an_entry_may_grow():
    assert from_plain(New, to_plain(Old(Fraction(2, 3)))) == New(Fraction(2, 3))
    assert from_plain(float, 5) == 5.0


@pytest.mark.parametrize(
    ("kind", "data"),
    [
        (int, True),
        (int, 1.5),
        (str, 3),
        (Fraction, "much"),
        (Fraction, "1/0"),
        (Content, "N, some"),
        (date, "2027-02-29"),
        (New, {"mass_kg": "1", "smell": "bad"}),
        (New, {}),
        (tuple[str, int], ["a", 1, 2]),
        (Fraction | date, "1"),
    ],
)
def test_what_is_not_of_its_type_is_refused(kind, data):
    with pytest.raises((TypeError, ValueError, KeyError, ZeroDivisionError)):
        from_plain(kind, data)


@pytest.mark.parametrize("value", [object(), {1: "a"}, b"bytes", Old])
def test_what_has_no_plain_form_is_refused(value):
    with pytest.raises(TypeError):
        to_plain(value)
