"""JSON files written and read; what cannot be read is refused with its place and what to do."""

import re
from fractions import Fraction
from typing import Any, NoReturn

import msgspec

from halfpail.application.shared_pieces import SharedMix
from halfpail.application.whole_garden import Piece, WholeGarden
from halfpail.findings import Fault, Refusal
from halfpail.garden_json.forms import FORMS, VERSION, Form, GardenForm, Head, MixForm, PlanForm

MOST_BYTES = 10_000_000
_MOST_DIGITS = 2000
_FRACTION = re.compile(r"-?[0-9]+(?:/[0-9]+)?", re.ASCII)
_AT = re.compile(r"(.*?)(?: - at `(?:key in )?(\$[^`]*)`)?", re.DOTALL)
_INDEX = re.compile(r"\[(\d+)\]")
_WORDS = {
    "object": "a table",
    "array": "a list",
    "str": "words",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "null": "nothing",
    "custom": "a fraction",
}
_KINDS = {"garden": "a garden", "mix": "a mix", "plan": "a plan"}

_NAMED = re.compile(r"\b(?:" + "|".join(_WORDS) + r")\b")


class GardenJson:
    """The JSON files of gardens, mixes and plans."""

    def write(self, piece: Piece) -> bytes:
        """The file of a garden, a mix or a plan; the same value gives the same bytes."""
        plain = msgspec.json.encode(_form_of(piece), enc_hook=_to_words)
        return msgspec.json.format(plain, indent=1) + b"\n"

    def read(self, data: bytes) -> Piece:
        """What a file holds.

        Raises:
            Refusal: it is no such file, is broken, too long, or of a newer program.
        """
        if len(data) > MOST_BYTES:
            raise _refused("the file", f"It is longer than {MOST_BYTES // 1_000_000} MB.")
        head = _decoded(data, Head)
        kind = FORMS.get(head.halfpail)
        if kind is None:
            raise _refused("halfpail", "This is no garden, mix or plan of Halfpail.", head.halfpail)
        if head.version > VERSION:
            raise _newer(head)
        if head.version < 1:
            raise _refused("version", "There is no version of this number.", str(head.version)[:20])
        form: Form = _decoded(data, kind)
        if isinstance(form, GardenForm):
            _check_lines(form)
        return form.piece


def _form_of(piece: Piece) -> Form:
    if isinstance(piece, WholeGarden):
        return GardenForm.of(piece)
    return MixForm.of(piece) if isinstance(piece, SharedMix) else PlanForm.of(piece)


def _to_words(value: Any) -> str:
    if isinstance(value, Fraction):
        return str(value)
    raise NotImplementedError(type(value).__name__)


def _from_words(kind: type, value: Any) -> Any:
    """A number written as a fraction, so that no digit is lost."""
    if kind is not Fraction:
        raise NotImplementedError(kind.__name__)
    if not isinstance(value, str) or len(value) > _MOST_DIGITS or not _FRACTION.fullmatch(value):
        raise ValueError("A number is wanted as a fraction in quotes, such as 5/2")
    above, _, below = value.partition("/")
    if below and not int(below):
        raise ValueError("Nothing can be divided by nought")
    return Fraction(int(above), int(below or 1))


def _decoded(data: bytes, kind: type[Any]) -> Any:
    try:
        return msgspec.json.decode(data, type=kind, dec_hook=_from_words)
    except msgspec.ValidationError as error:
        _tell(str(error))
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        raise _refused("the file", "It is not whole, or no JSON.", str(error)) from None
    except RecursionError:
        raise _refused("the file", "Lists stand too deep in lists.") from None


def _tell(said: str) -> NoReturn:
    """Refuse what has the wrong type, in the words of the library, with the place in ours."""
    found = _AT.fullmatch(said)
    path = (found and found[2]) or "$"
    place = _INDEX.sub(lambda at: f"[{int(at[1]) + 1}]", path.removeprefix("$").lstrip("."))
    sentence = (found[1] if found else said).rstrip(".").replace("`", "").replace(" | ", " or ")
    plain = _NAMED.sub(lambda word: _WORDS[word[0]], sentence)
    raise _refused(place or "the file", f"{plain}.")


def _check_lines(form: GardenForm) -> None:
    for at, line in enumerate(form.diary, 1):
        if line.event is None:
            raise _refused(f"diary[{at}]", "A line tells of one thing: bought, made, fed, ...")


def _newer(head: Head) -> Refusal:
    return Refusal(
        Fault(
            place="version",
            read=str(head.version),
            sentence=f"This file holds {_KINDS[head.halfpail]} written by a newer Halfpail; this "
            f"one reads version {VERSION}.",
            remedy="Bring Halfpail up to date, or have the file written by the older one.",
        )
    )


def _refused(place: str, sentence: str, read: str = "") -> Refusal:
    remedy = "Write the file again with halfpail export, and change nothing in it."
    return Refusal(Fault(place=place, read=read[:60], sentence=sentence, remedy=remedy))
