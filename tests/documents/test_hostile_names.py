"""Names that nobody should type come out as plain text, and stay on the paper."""

from fractions import Fraction

import pypdfium2
import pytest

from halfpail.application.print_feeding_sheet import print_feeding_sheet
from halfpail.application.print_handout import HandoutQuestion, print_handout
from halfpail.application.print_pail_label import LabelSize, LabelWish
from halfpail.application.print_season import label_page
from halfpail.application.schedule_doses import PlannedFeeding, Schedule
from halfpail.documents.letters import can_print, plain, printable, visible
from halfpail.quantities.units import System
from tests.documents.papers import card, mix_question, printed, printed_mix, squeezed, text_of

HOSTILE = (
    '#import "@preview/tablex:0.0.8": *',
    '#read("/etc/passwd")',
    '#eval("1 + 1")',
    "#let x = 1; #x",
    "#{ while true {} }",
    '#include "secret.typ"',
    "*bold* _under_ `raw` ~tilde",
    "$ sum_(i=0)^n i $ and $x$",
    "= Heading",
    "- list + enum / term: x",
    "<label> @reference [cite]",
    "// a remark",
    "/* a long remark",
    "https://example.org/#?a=b&c",
    "back\\slash \\u{202e} \\ n",
    "\"double\" and 'single' quotes",
    "{braces} [brackets] (round))",
    "}]) unbalanced",
    "Beans\u202eidd\u202cer",
    "Peas\u2066iso\u2069lated\u200f",
    "nul\x00 bell\x07 escape\x1b[31m",
    "line\nbreak\ttab\u2028separator",
    "tomatoes 🍅🌶️ and 👩\u200d🌾",
    "土豆 картофель пюре",
    "גינה ירוקה",
    "Za\u0335\u0301lg\u0327\u0308o Ä́ ﷽",
    "W" * 200,
    "ab " * 66 + "ab",
    "½ cup ⅓ ⅔ ⅛ ₂ ☐ ✓ µ ² × °",
    "{{ template }} <script>alert(1)</script> %s %n",
)
RIGHT_TO_LEFT = "גינה ירוקה"
EDGE = 1.0
ONE = Fraction(1)


def inside(pdf: bytes) -> bool:
    """Whether every letter lies on its page."""
    for page in pypdfium2.PdfDocument(pdf):
        width, height = page.get_size()
        letters = page.get_textpage()
        for number in range(letters.count_chars()):
            left, bottom, right, top = letters.get_charbox(number)
            if left < -EDGE or bottom < -EDGE or right > width + EDGE or top > height + EDGE:
                return False
    return True


def same_letters(name: str, text: str) -> bool:
    """Whether a name stands in a text; written from right to left, its letters are enough."""
    wanted = squeezed(plain(name))
    if name == RIGHT_TO_LEFT:
        return all(text.count(letter) >= wanted.count(letter) for letter in wanted)
    return wanted in squeezed(text)


def test_there_are_thirty():
    assert len(set(HOSTILE)) == 30


@pytest.mark.parametrize("name", HOSTILE, ids=range(1, 31))
def test_a_hostile_name_is_plain_text(name):
    pages = (
        card(name, name, "other"),
        label_page(printed_mix(name, name, "other"), LabelWish(size=LabelSize.A7)),
        print_handout(HandoutQuestion(name=name, mix=mix_question(name, "other"))),
    )
    for page in pages:
        pdf = printed(page)
        assert same_letters(name, text_of(pdf))
        assert inside(pdf)


def test_thirty_hostile_beds_on_one_sheet():
    feedings = tuple(
        PlannedFeeding(bed=name, of=name, scoops=ONE, volume_l=ONE, mass_kg=ONE, dose=1, doses=1)
        for name in HOSTILE
    )
    schedule = Schedule(feedings=feedings, stands={}, notices=())
    pdf = printed(print_feeding_sheet("#garden", schedule, ONE, System.US))
    text = text_of(pdf)
    assert [name for name in HOSTILE if not same_letters(name, text)] == []
    assert inside(pdf)


def test_every_letter_that_is_promised_can_be_printed():
    letters = printable()
    assert all(map(can_print, letters))
    spaced = [letters[start : start + 60] for start in range(0, len(letters), 60)]
    for start in range(0, len(spaced), 20):
        assert printed(card("letters", *spaced[start : start + 20]))


@pytest.mark.parametrize(
    ("typed", "printable_text", "visible_text"),
    [
        ("a\u202eb", "ab", "ab"),
        ("a\u0000b\u0007", "ab", "ab"),
        (" a \n b\t", "a b", "a b"),
        ("🍅", "[tomato]", "🍅"),
        ("土", "□", "土"),
        ("e\u0301", "é", "e\u0301"),
        ("\ud83c", "", ""),
        ("", "", ""),
    ],
)
def test_what_is_left_of_a_text(typed, printable_text, visible_text):
    assert plain(typed) == printable_text
    assert visible(typed) == visible_text
