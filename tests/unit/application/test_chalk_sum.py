"""The sum on the board can be repeated with a pencil."""

import re
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from halfpail.application.chalk_sum import chalk_sum, grade_number, grade_words
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Part, stir
from halfpail.quantities.units import System
from tests.unit.domain.bags import bag

CUP = Fraction("0.2365882365")


def test_scoops_alone_where_a_scoop_of_every_bag_weighs_the_same():
    """Equal parts are the mean of the labels: common practice."""
    parts = [Part(bag=bag("a", 3, 4, 4), scoops=1), Part(bag=bag("b", 5, 2, 0), scoops=1)]
    board = chalk_sum(stir(parts, CUP), System.US)
    assert board.headings == ("bag", "scoops", "N", "P2O5", "K2O")
    assert board.total == ("total", "2", "8", "6", "4")
    assert board.divide == ("divide by 2", "", "4", "3", "2")
    assert board.wish is None


def test_weights_where_they_differ():
    parts = [
        Part(bag=bag("light", 12, density=Fraction(1, 2)), scoops=1),
        Part(bag=bag("heavy", 0, 6, density=1), scoops=1),
    ]
    board = chalk_sum(stir(parts, Fraction(1)), System.METRIC)
    assert board.headings == ("bag", "scoops", "g", "N", "P2O5", "K2O")
    assert board.rows[0] == ("light", "1", "500", "500 x 12 = 6000", "500 x 0 = 0", "500 x 0 = 0")
    assert board.divide == ("divide by 1500 g", "", "", "4", "4", "0")


def test_the_wish_stands_below():
    mix = stir([Part(bag=bag("a", 3, 4, 4), scoops=1)], CUP)
    board = chalk_sum(mix, System.US, {Nutrient.N: Fraction(5), Nutrient.K2O: Fraction("2.5")})
    assert board.wish == ("wish", "", "5", "any", "2.5")
    assert board.all_rows[-1] == board.wish


tenths = st.integers(0, 300).map(lambda number: Fraction(number, 10))


@given(
    st.lists(
        st.tuples(tenths, tenths, tenths, st.integers(30, 160), st.integers(1, 12)),
        min_size=1,
        max_size=4,
    )
)
def test_a_pencil_comes_to_the_same_grade(rows):
    parts = [
        Part(bag=bag(f"bag {i}", n, p, k, density=Fraction(d, 100)), scoops=scoops)
        for i, (n, p, k, d, scoops) in enumerate(rows)
    ]
    mix = stir(parts, CUP)
    board = chalk_sum(mix, System.US)
    divisor = _number(board.divide[0].removeprefix("divide by "))
    for column, nutrient in enumerate(PRIMARY, start=len(board.headings) - 3):
        products = [_product(row[column]) for row in board.rows]
        assert abs(sum(products) - _number(board.total[column])) <= Fraction(1, 100) * len(parts)
        exact = 100 * mix.analysis.of(nutrient)
        assert abs(sum(products) / divisor - exact) < Fraction(1, 10)
        assert board.divide[column] == grade_number(exact)


def test_every_row_is_as_long_as_the_headings():
    parts = [Part(bag=bag("a", 3, density=2), scoops=1), Part(bag=bag("b", 5), scoops=2)]
    board = chalk_sum(stir(parts, CUP), System.US, {Nutrient.N: Fraction(4)})
    assert {len(row) for row in board.all_rows} == {len(board.headings)}


def test_a_grade_in_words_is_never_rounded_up():
    """A guarantee is a least: 4.67 stands as 4.6."""
    parts = [Part(bag=bag("a", 4), scoops=1), Part(bag=bag("b", 5), scoops=2)]
    assert grade_words(stir(parts, CUP)) == "4.6-0-0"


def _number(text: str) -> Fraction:
    return Fraction(re.split(r"[ a-z]", text)[0])


def _product(cell: str) -> Fraction:
    left, answer = cell.split(" = ")
    number, percent = left.split(" x ")
    product = Fraction(number) * Fraction(percent)
    assert abs(product - Fraction(answer)) <= Fraction(1, 200)
    return product
