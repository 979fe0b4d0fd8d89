"""A label on paper keeps the order and the rounding of the laws.

The batch and its label: our reference page on labels, computed; the rules: Montana's order, no zero
guarantees (Mont. rule 4.12.602 as told there), Washington and Utah order of secondary nutrients.
"""

import re
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from halfpail.application.print_pail_label import (
    OWN_USE,
    Gift,
    LabelQuestion,
    LabelSize,
    LabelWish,
    derived_from,
    print_pail_label,
)
from halfpail.domain.label import Analysis, Label
from halfpail.domain.matter import Nutrient, ceiling
from halfpail.domain.mix import Mix, Part, stir
from tests.documents.papers import printed, text_of
from tests.unit.domain.bags import bag
from tests.unit.domain.test_label_print import BATCH

ORDER = (
    "5-8-10",
    "Guaranteed analysis",
    "Total Nitrogen (N)",
    "Available Phosphate",
    "Soluble Potash (K2O)",
    "Calcium (Ca)",
    "Magnesium (Mg)",
    "Sulfur (S)",
    "Derived from:",
)
# Rounded down: N 5.250, P2O5 8.280, K2O 10.000, Ca 8.340, Mg 1.183, S 15.617 (reference page).
FIGURES = ("5%", "8%", "10%", "8.0%", "1.0%", "15.0%")


def made_up_batch() -> Mix:
    """The batch: as many scoops as pounds, a scoop of each weighing the same."""
    parts = []
    for name, pounds, held in BATCH:
        shares = (
            ceiling(held)
            if isinstance(held, str)
            else {Nutrient(symbol): Fraction(percent) / 100 for symbol, percent in held.items()}
        )
        label = Label(text=name, analysis=Analysis(shares=dict(shares)))
        parts.append(Part(bag=replace(bag(name), label=label), scoops=pounds))
    return stir(parts, Fraction(1))


def label_text(question: LabelQuestion) -> str:
    return " ".join(text_of(printed(print_pail_label(question))).split())


@pytest.mark.parametrize("size", LabelSize)
def test_lines_stand_in_the_order_of_the_laws(size):
    text = label_text(LabelQuestion(name="Batch", mix=made_up_batch(), wish=LabelWish(size=size)))
    places = [text.index(words) for words in ORDER]
    assert places == sorted(places)
    assert text.count(OWN_USE) == (6 if size is LabelSize.SHEET else 1)


def test_guarantees_are_rounded_down_and_none_is_nought():
    page = print_pail_label(LabelQuestion(name="Batch", mix=made_up_batch()))
    assert tuple(figure for _, figure, _ in page.analysis) == FIGURES
    assert page.fuller == "as summed 5.2-8.2-10"
    nothing = stir([Part(bag=bag("potash", 0, 0, 50), scoops=1)], Fraction(1))
    text = label_text(LabelQuestion(name="Potash", mix=nothing))
    assert "Nitrogen" not in text
    assert "Phosphate" not in text
    assert not re.search(r"\b0(\.0)?%", text)


def test_sources_stand_by_falling_weight():
    names = [one.partition(" (")[0] for one in derived_from(made_up_batch())]
    pounds = {name: weight for name, weight, _ in BATCH}
    assert [pounds[name] for name in names] == sorted(pounds.values(), reverse=True)


def test_a_gift_names_its_weight_first_and_its_maker_last():
    gift = Gift(maker="Hill Road Garden Club", address="1 Hill Road", net_kg=Fraction(5))
    wish = LabelWish(gift=gift, size=LabelSize.LARGE)
    text = label_text(LabelQuestion(name="Batch", mix=made_up_batch(), wish=wish))
    assert text.startswith("Net weight 11 lb")
    assert text.endswith("Made by: Hill Road Garden Club, 1 Hill Road")
    assert OWN_USE not in text


def test_days_are_printed_or_left_to_write():
    mix = made_up_batch()
    wish = LabelWish(made_on=date(2027, 4, 1))
    dated = print_pail_label(LabelQuestion(name="Batch", mix=mix, wish=wish))
    assert (dated.made, dated.use_by) == ("1 April 2027", "31 March 2028")
    assert print_pail_label(LabelQuestion(name="Batch", mix=mix)).use_by == "within a year"
    limed = stir(
        [
            Part(bag=replace(bag("meal", 6), materials=("feather_meal",)), scoops=1),
            Part(bag=replace(bag("lime"), materials=("calcitic_lime",)), scoops=1),
        ],
        Fraction(1),
    )
    assert print_pail_label(LabelQuestion(name="x", mix=limed)).use_by == "the day it is made"
