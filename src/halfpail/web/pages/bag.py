"""What the page of one bag shows beside its form: what was understood of the label."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.explain_mix import p2o5_words
from halfpail.application.garden_entry import BagEntry
from halfpail.application.word_mix import Table, grade_text
from halfpail.domain.label_print import NAMES, label_lines
from halfpail.domain.label_working import explain_label
from halfpail.domain.material import Material, Spread
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Part, stir
from halfpail.domain.price import price_view
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, loudest_first
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_mass, show_percent, show_price_per_mass
from halfpail.reference.materials import materials
from halfpail.web.at_hand import FilledBag, filled_bag
from halfpail.web.forms.bag_entry import BagEntryForm
from halfpail.web.home import Home
from halfpail.web.look import Look
from halfpail.web.pages.keeping import KeptPage
from halfpail.working import Working

ONE_LITRE = Fraction(1)
_SELDOM_STATED = (Nutrient.CL, Nutrient.NA)


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """A bag as it was understood."""

    grade: str
    figures: Table
    lines: tuple[str, ...]
    notices: tuple[Notice, ...]
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class BagPage:
    """The form, what was understood, and the materials a bag may begin from."""

    of: KeptPage[BagEntry]
    understood: Understood | None
    materials: tuple[Material, ...]


def bag_page(of: KeptPage[BagEntry]) -> BagPage:
    """The page of a bag, new or kept."""
    filled = _filled(of)
    return BagPage(
        of=of,
        understood=_understood(filled, of.form.home, of.form.look) if filled else None,
        materials=() if of.kept else tuple(filter(_nutrients, materials())),
    )


def _filled(of: KeptPage[BagEntry]) -> FilledBag | None:
    assert isinstance(of.form, BagEntryForm)
    if of.form.is_bound:
        return of.form.filled
    label = of.form.initial.get("label", "")
    told = of.kept.value if of.kept and not of.is_draft else None
    entry = told or BagEntry(name=of.form.initial.get("name", ""), place="label", label=label)
    return filled_bag(entry, of.form.home.about) if label else None


def _understood(filled: FilledBag, home: Home, look: Look) -> Understood:
    bag = filled.bag
    rows = tuple(
        (f"– {line.name}" if line.beneath else line.name, line.figure)
        for line in label_lines(bag.label.analysis)
    )
    return Understood(
        grade=grade_text(bag.label.analysis.grade),
        figures=Table(headings=("guaranteed", "percent"), rows=rows),
        lines=tuple(filter(None, (*_nitrogen(bag), _scoop(bag, home, look), _price(bag, look)))),
        notices=loudest_first(filled.notices),
        working=explain_label(bag.label),
    )


def _nitrogen(bag: Bag) -> tuple[str, ...]:
    usable = bag.usable_n
    if not usable.label:
        return ()
    low, usual, high = (
        show_percent(100 * one) for one in (usable.low, usable.typical, usable.high)
    )
    words = f"Usable nitrogen this season: {usual}, between {low} and {high}."
    return (words, f"P2O5 that comes with 0.1 lb of usable N: {p2o5_of_bag(bag)}.")


def p2o5_of_bag(bag: Bag) -> str:
    """The P2O5 that comes with 0.1 of usable nitrogen, both in one unit."""
    return p2o5_words(stir([Part(bag=bag, scoops=1)], ONE_LITRE))


def _scoop(bag: Bag, home: Home, look: Look) -> str:
    weight = show_mass(bag.scoop_kg(home.about.tools.scoop_l), look.system)
    return f"A level scoop weighs {weight}: {bag.density.basis}."


def _price(bag: Bag, look: Look) -> str:
    view = price_view(bag)
    if view is None:
        return ""
    prices = [show_price_per_mass(view.per_kg, look.currency, look.system)]
    prices += [
        f"{show_price_per_mass(price, look.currency, look.system)} of {nutrient}"
        for nutrient, price in view.per_kg_of.items()
    ]
    return f"Price: {', '.join(prices)}."


def label_of_material(material: Material) -> str:
    """A label of the typical analysis of a material, marked as such by its last line.

    >>> from halfpail.reference.materials import material
    >>> print(label_of_material(material("urea")))
    46-0-0
    Derived from: urea
    """
    contents = material.contents
    grade = "-".join(
        shortest(100 * contents[one].typical, 1) if one in contents else "0" for one in PRIMARY
    )
    others = [
        f"{NAMES[one]} {shortest(100 * spread.typical, 2)}%"
        for one, spread in _nutrients(material).items()
        if one not in PRIMARY
    ]
    return "\n".join((grade, *others, f"Derived from: {material.name.lower()}"))


def _nutrients(material: Material) -> dict[Nutrient, Spread]:
    """What a label of the material usually states."""
    return {
        one: spread
        for one, spread in material.contents.items()
        if spread.typical and one not in _SELDOM_STATED
    }
