"""What is typed about a soil test and a liming material, read or refused beside its place."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, TypeVar

from halfpail.application.lime_question import (
    EarlierLime,
    Found,
    LimeProduct,
    PailMix,
)
from halfpail.domain.label_reading import read_label
from halfpail.domain.lime_method import Buffer
from halfpail.domain.liming_value import FinenessSystem
from halfpail.domain.soil_test import BufferReading
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import (
    read_number,
    read_percent,
    read_rate_kg_per_m2,
    read_whole,
)
from halfpail.reference.defaults import default

Meaning = TypeVar("Meaning")

KINDS = {
    "mehlich": Buffer.MEHLICH,
    "acidity": Buffer.ACIDITY,
    "adams-evans": Buffer.ADAMS_EVANS,
    "smp": Buffer.SMP,
    "sikora": Buffer.SIKORA,
}
_RULES = {
    "new-york": FinenessSystem.NEW_YORK,
    "cornell": FinenessSystem.CORNELL,
    "mississippi": FinenessSystem.MISSISSIPPI,
}
_FOUND = {"low": Found.LOW, "enough": Found.ENOUGH}
_USUAL_PRODUCT = "calcitic_lime"


def read_word(text: str, place: str, meanings: Mapping[str, Meaning]) -> Meaning:
    """What one of a few words means, in any case, with strokes or spaces.

    Raises:
        Refusal: it is none of them.
    """
    plain = " ".join(text.replace("_", " ").replace("-", " ").casefold().split())
    known = {word.replace("-", " "): meaning for word, meaning in meanings.items()}
    if plain in known:
        return known[plain]
    raise Refusal(
        Fault(
            place=place,
            read=text,
            sentence="This word is not known here.",
            remedy=f"Write {', '.join(meanings)}.",
        )
    )


def read_buffer(number: str | None, kind: str | None) -> BufferReading | None:
    """The laboratory's figure with its kind; neither is of use alone.

    Raises:
        Refusal: one of the two is missing, or cannot be read.
    """
    if number is None and kind is None:
        return None
    if number is None or kind is None:
        missing, other = (
            ("--buffer-kind", "the buffer figure") if kind is None else ("--buffer", "the kind")
        )
        raise Refusal(
            Fault(
                place=missing,
                read="",
                sentence=f"Only {other} is written; each buffer has an equation of its own.",
                remedy="The report names its buffer: write --buffer 6.2 --buffer-kind sikora, say "
                f"({', '.join(KINDS)}).",
            )
        )
    return BufferReading(
        buffer=read_word(kind, "--buffer-kind", KINDS), value=read_number(number, "--buffer")
    )


def read_earlier(rate: str | None, months: str | None) -> EarlierLime | None:
    """Lime given earlier and how long ago.

    Raises:
        Refusal: one of the two is missing, or cannot be read.
    """
    if rate is None and months is None:
        return None
    if rate is None or months is None:
        raise Refusal(
            Fault(
                place="--lime-given" if rate is None else "--months-ago",
                read="",
                sentence="Earlier lime counts by how much and how long ago.",
                remedy="Write both: --lime-given '5 lb per 100 sq ft' --months-ago 6.",
            )
        )
    return EarlierLime(
        rate_kg_per_m2=read_rate_kg_per_m2(rate, "--lime-given"),
        months=read_number(months, "--months-ago"),
    )


def read_found(text: str | None, place: str, low_below: str = "") -> Found:
    """What a soil test says: a word, or a figure held against a row of the defaults.

    Raises:
        Refusal: it is neither.
    """
    if text is None:
        return Found.UNTESTED
    if low_below and any(character.isdigit() for character in text):
        figure = read_rate_kg_per_m2(text, place)
        return Found.LOW if figure < default(low_below).value else Found.ENOUGH
    return read_word(text, place, _FOUND)


def read_product(typed: Mapping[str, Any]) -> LimeProduct | None:
    """The liming material and what its bag says; None where nothing is written of it.

    Raises:
        Refusal: a figure of it cannot be read.
    """
    written = [typed[name] for name in ("material", "cce", "effective", "passing")]
    if not any(written):
        return None
    cce, effective = typed["cce"], typed["effective"]
    return LimeProduct(
        key=(typed["material"] or _USUAL_PRODUCT).replace("-", "_").replace(" ", "_").casefold(),
        cce=_cce(cce, "--cce") if cce else None,
        effective=_cce(effective, "--effective") if effective else None,
        passing=_passing(typed["passing"]) if typed["passing"] else (),
        system=read_word(typed["sieve_rule"], "--sieve-rule", _RULES),
    )


def read_pail_mix(mix: str | None, lime: str | None, rate: str | None) -> PailMix | None:
    """A mix with lime in it; what is not written of it is the table's.

    Raises:
        Refusal: a part of it cannot be read.
    """
    if mix is None and lime is None and rate is None:
        return None
    share = read_percent(lime, "--lime-in-pail") / 100 if lime else None
    if share == 1:
        raise Refusal(
            Fault(
                place="--lime-in-pail",
                read=lime or "",
                sentence="A pail of nothing but lime is no mix.",
                remedy="Write less than 100.",
            )
        )
    return PailMix(
        analysis=read_label(mix or "4-4-4").analysis,
        lime_share=default("pail_lime_share").value if share is None else share,
        rate_kg_per_m2=read_rate_kg_per_m2(rate, "--mix-rate")
        if rate
        else default("pail_mix_rate").value,
    )


def _cce(text: str, place: str) -> Fraction:
    """A lime value [kg/kg]; burnt lime stands above 100 percent."""
    percent = read_number(text.removesuffix("%").strip(), place)
    if not 0 < percent <= 250:
        raise Refusal(
            Fault(
                place=place,
                read=text,
                sentence="A lime value lies above 0 and at 250 percent at the most.",
                remedy="Write the percentage on the bag, such as 92.",
            )
        )
    return percent / 100


def _passing(text: str) -> tuple[tuple[int, Fraction], ...]:
    found: dict[int, Fraction] = {}
    for entry in text.split(","):
        mesh, colon, percent = entry.partition(":")
        if not colon:
            raise Refusal(
                Fault(
                    place="--passing",
                    read=text,
                    sentence="Each sieve needs its mesh and a percentage.",
                    remedy="Write 20:98, 60:75, 100:60.",
                )
            )
        found[read_whole(mesh, "--passing", 1, 400)] = read_percent(percent, "--passing") / 100
    return tuple(sorted(found.items()))
