"""JSON loses nothing that matters."""

import json
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from halfpail.cli import as_json
from halfpail.domain.bed import Content


@dataclass(frozen=True)
class Priced:
    """Something with a price."""

    price: Fraction
    mass_kg: Fraction


@given(st.fractions(min_value=0, max_value=10**6))
def test_money_comes_back_exactly(price):
    """The price can be read back exactly, from the number or from its exact twin."""
    read = json.loads(as_json.dump(Priced(price=price, mass_kg=price)))
    assert Fraction(read.get("price_exact", str(read["price"]))) == price
    assert read["mass_kg"] == float(price)


def test_enum_keys_are_their_words():
    """A mapping by content is keyed with the words people read."""
    assert as_json.plain({Content.N_LOW: Fraction(2)}) == {"usable N, low": 2}


def test_a_date_is_year_month_day():
    assert as_json.plain({"on": date(2027, 5, 1)}) == {"on": "2027-05-01"}
