"""The words of a guaranteed analysis: which nutrient a line means, and on which basis.

Every word of a line must be known here, or the line is not taken for a guarantee at all: half a
match ("calcium carbonate equivalent 95 %") would be a wrong number.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType

from halfpail.domain.label import Kind, NitrogenForm
from halfpail.domain.matter import CARBONATE, OXIDE, Nutrient

ELEMENT_WORDS = ("phosphorus", "phosphorous", "potassium")

_SYMBOLS: Mapping[str, tuple[Nutrient, str]] = MappingProxyType(
    {
        formula.lower(): (nutrient, formula)
        for nutrient in Nutrient
        for formula in (
            nutrient.value,
            nutrient.element,
            *((OXIDE[nutrient],) if nutrient in OXIDE else ()),
            *((CARBONATE[nutrient],) if nutrient in CARBONATE else ()),
            *(("SO4",) if nutrient is Nutrient.S else ()),
        )
    }
)
_NAMES: Mapping[str, Nutrient] = MappingProxyType(
    {
        "nitrogen": Nutrient.N,
        "phosphate": Nutrient.P2O5,
        "phosphoric": Nutrient.P2O5,
        "phosphorus": Nutrient.P2O5,
        "phosphorous": Nutrient.P2O5,
        "potash": Nutrient.K2O,
        "potassium": Nutrient.K2O,
        "calcium": Nutrient.CA,
        "magnesium": Nutrient.MG,
        "sulfur": Nutrient.S,
        "sulphur": Nutrient.S,
        "boron": Nutrient.B,
        "chlorine": Nutrient.CL,
        "chloride": Nutrient.CL,
        "cobalt": Nutrient.CO,
        "copper": Nutrient.CU,
        "iron": Nutrient.FE,
        "manganese": Nutrient.MN,
        "molybdenum": Nutrient.MO,
        "nickel": Nutrient.NI,
        "sodium": Nutrient.NA,
        "zinc": Nutrient.ZN,
    }
)
_PART_WORDS = (
    "insoluble soluble chelated combined free other slow slowly controlled organic elemental "
    "edta dtpa eddha citrate natural sulfate sulphate"
)
_OTHER_WORDS = (
    "total available acid the of in as plant water release released oxide pentoxide carbonate "
    "max maximum not no more less than at most analysis contains by weight percent"
)
_NITROGEN_WORDS = "ammoniacal ammonium ammonia nitrate nitric urea ureic nh4 no3"
_SULFUR_WORDS = "sulfate sulphate"
_PARTS = frozenset(_PART_WORDS.split())
_QUALIFIERS = (_PARTS | frozenset(_OTHER_WORDS.split())) - frozenset(_SULFUR_WORDS.split())
_OWN_QUALIFIERS: Mapping[Nutrient, frozenset[str]] = MappingProxyType(
    {
        Nutrient.N: frozenset(_NITROGEN_WORDS.split()),
        Nutrient.S: frozenset(_SULFUR_WORDS.split()),
    }
)
# First match wins: "water insoluble" before "water soluble", "urea" before "soluble".
_FORMS = (
    ({"insoluble"}, NitrogenForm.INSOLUBLE),
    ({"ammoniacal", "ammonium", "ammonia", "nh4"}, NitrogenForm.AMMONIACAL),
    ({"nitrate", "nitric", "no3"}, NitrogenForm.NITRATE),
    ({"urea", "ureic"}, NitrogenForm.UREA),
    ({"soluble"}, NitrogenForm.OTHER_SOLUBLE),
)
_MINIMUM = re.compile(r"\b(min|minimum|(not|no) less than|at least|guaranteed)\b\.?")
_MAXIMUM = re.compile(r"\b(max|maximum|(not|no) more than|at most|less than)\b|[<≤]")
_AFTERTHOUGHT = re.compile(r"\bfrom\b[^)]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """What the words of one line say; `clash` says so where two of them disagree.

    `assumed`: plain "phosphorus" or "potassium" was taken for the oxide, as the laws want it.
    """

    nutrient: Nutrient
    stated: str
    kind: Kind
    form: NitrogenForm | None = None
    clash: str = ""
    assumed: bool = False


def understand(name: str, *, elemental: bool = False) -> Wording | None:
    """What the words beside a figure mean; None where they are not a nutrient guarantee.

    Args:
        name: the words of the line, without its figure.
        elemental: whether plain "phosphorus" and "potassium" mean the elements.

    >>> understand("Available Phosphate (P2O5)").kind.value
    'guarantee'
    >>> understand("Calcium as CaO").stated
    'CaO'
    >>> understand("Calcium carbonate equivalent") is None
    True
    """
    text = _MINIMUM.sub(" ", _AFTERTHOUGHT.sub(" ", name.lower()))
    words = re.findall(r"[a-z][a-z0-9]*", text)
    symbols = [_SYMBOLS[word] for word in words if word in _SYMBOLS]
    named = {_NAMES[word] for word in words if word in _NAMES}
    if not symbols and len(named) != 1:
        return None
    nutrient = symbols[-1][0] if symbols else next(iter(named))
    strange = [word for word in words if not _known(word, nutrient)]
    if any(_name_near(word) is not nutrient for word in strange) or (strange and not symbols):
        return None
    formulas = [formula for _, formula in symbols]
    stated, doubt = _basis(nutrient, words, formulas, elemental)
    others = sorted({other.value for other in named | {n for n, _ in symbols}} - {nutrient.value})
    return Wording(
        nutrient=nutrient,
        stated=stated,
        kind=_kind(nutrient, words, text),
        form=_form(words) if nutrient is Nutrient.N else None,
        clash=f"it names {' and '.join([*others, nutrient.value])} at once" if others else doubt,
        assumed=_is_plain(words) and not formulas and stated == OXIDE.get(nutrient),
    )


def names_outright(name: str) -> bool:
    """Whether a nutrient stands here with its own sign, as on a line of a guaranteed analysis.

    >>> names_outright("Super Total Nitrogen (N)"), names_outright("Calcium carbonate equivalent")
    (True, False)
    """
    words = re.findall(r"[a-z][a-z0-9]*", name.lower())
    signs = {
        _SYMBOLS[word][0]
        for word in re.findall(r"\(([a-z0-9]+)\)", name.lower())
        if word in _SYMBOLS
    }
    return not signs.isdisjoint(_NAMES[word] for word in words if word in _NAMES)


def nearest_name(name: str) -> str:
    """The nutrient name that a misspelt line may have meant; empty where none is near.

    >>> nearest_name("Total Nitrogne")
    'nitrogen'
    """
    for word in re.findall(r"[a-z]+", name.lower()):
        near: list[str] = get_close_matches(word, _NAMES, 1, 0.8)
        if near and word not in _NAMES and word not in _QUALIFIERS:
            return near[0]
    return ""


def mentions_nutrient(text: str) -> bool:
    """Whether any nutrient is named.

    >>> mentions_nutrient("Total Nitrogen (N) 5e1%"), mentions_nutrient("100% natural")
    (True, False)
    """
    return not _NAMES.keys().isdisjoint(re.findall(r"[a-z]+", text.lower()))


def _known(word: str, nutrient: Nutrient) -> bool:
    own = _OWN_QUALIFIERS.get(nutrient, frozenset())
    return word in _SYMBOLS or word in _NAMES or word in _QUALIFIERS or word in own


def _name_near(word: str) -> Nutrient | None:
    near = nearest_name(word)
    return _NAMES[near] if near else None


def _basis(
    nutrient: Nutrient, words: list[str], formulas: list[str], elemental: bool
) -> tuple[str, str]:
    """The formula the figure counts, and a doubt where words and symbol disagree."""
    by_word = ""
    if "oxide" in words or "pentoxide" in words:
        by_word = OXIDE.get(nutrient, "")
    elif "carbonate" in words:
        by_word = CARBONATE.get(nutrient, "")
    if formulas:
        agrees = by_word in ("", formulas[-1])
        return formulas[-1], "" if agrees else f"it says {by_word} and {formulas[-1]} at once"
    if by_word:
        return by_word, ""
    if elemental and _is_plain(words):
        return nutrient.element, ""
    return nutrient.value, ""


def _is_plain(words: list[str]) -> bool:
    """Whether the words name phosphorus or potassium and leave the basis open."""
    named = any(word in ELEMENT_WORDS for word in words)
    return named and not {"oxide", "pentoxide"}.intersection(words)


def _kind(nutrient: Nutrient, words: list[str], text: str) -> Kind:
    oxide_not_available = nutrient in (Nutrient.P2O5, Nutrient.K2O) and "insoluble" in words
    if _MAXIMUM.search(text) or oxide_not_available:
        return Kind.APART
    if nutrient is Nutrient.P2O5:
        if "available" in words:
            return Kind.GUARANTEE
        if "total" in words:
            return Kind.TOTAL_PHOSPHATE
    if nutrient is Nutrient.K2O:
        return Kind.GUARANTEE
    if nutrient is Nutrient.N and _form(words):
        return Kind.PART
    return Kind.PART if _PARTS.intersection(words) else Kind.GUARANTEE


def _form(words: list[str]) -> NitrogenForm | None:
    return next((form for marks, form in _FORMS if marks.intersection(words)), None)
