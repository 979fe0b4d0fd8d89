"""`halfpail label`: what a label promises, read from the bag's own words."""

import sys
from fractions import Fraction
from typing import Any

import click

from halfpail.application.read_label import LabelAnswer, understand_label
from halfpail.cli import as_json, printing
from halfpail.domain.label import NitrogenForm
from halfpail.domain.label_print import FORM_NAMES, NAMES
from halfpail.quantities.rounding import shortest

_PLACES = 4


@click.command("label")
@click.argument("text", required=False)
@click.option("--elemental", is_flag=True, help="The bag prints P and K, not P2O5 and K2O.")
@click.option("--working", "show_working", is_flag=True, help="Show how each number was reached.")
@click.option("--json", "json_wanted", is_flag=True, help="Answer as JSON.")
def command(text: str | None, elemental: bool, show_working: bool, json_wanted: bool) -> None:
    """Read a label: TEXT is three numbers such as 3-4-4, or a pasted guaranteed analysis.

    Without TEXT, or with - in its place, the label is read from standard input.
    """
    words = sys.stdin.read() if text in (None, "-") else str(text)
    answer = understand_label(words, elemental)
    if json_wanted:
        click.echo(as_json.dump(_document(answer)))
    else:
        click.echo(_page(answer, show_working))


def _page(answer: LabelAnswer, show_working: bool) -> str:
    analysis = answer.label.analysis
    rows = [(NAMES[nutrient], _percent(share)) for nutrient, share in analysis.shares.items()]
    rows[1:1] = [(f"  {FORM_NAMES[form]}", _percent(share)) for form, share in _forms(answer)]
    if analysis.total_p2o5 is not None:
        rows.append(("Total Phosphate (P2O5)", _percent(analysis.total_p2o5)))
    parts = [printing.heading(f"{_grade(answer)}  N-P2O5-K2O"), printing.table(("", "%"), rows)]
    if answer.label.derived_from:
        known = ", ".join(material.name for material in answer.sources.materials) or "none known"
        parts.append(printing.paragraph(f"Made of: {known}"))
    if answer.label.net_weight:
        parts.append(printing.paragraph(f"Net weight: {answer.label.net_weight}"))
    if answer.notices:
        parts.append(printing.notices(answer.notices))
    if show_working:
        parts.append(f"{printing.heading('Working')}\n{printing.working(answer.working)}")
    return "\n\n".join(parts)


def _document(answer: LabelAnswer) -> dict[str, Any]:
    label = answer.label
    return {
        "grade": _grade(answer),
        "percent": {n: 100 * share for n, share in label.analysis.shares.items()},
        "nitrogen_forms_percent": {form: 100 * share for form, share in _forms(answer)},
        "total_p2o5_percent": (
            None if label.analysis.total_p2o5 is None else 100 * label.analysis.total_p2o5
        ),
        "derived_from": label.derived_from,
        "materials": [material.key for material in answer.sources.materials],
        "unknown_sources": answer.sources.unknown,
        "not_counted": label.unread,
        "net_weight": label.net_weight,
        "notices": answer.notices,
        "working": answer.working,
    }


def _grade(answer: LabelAnswer) -> str:
    grade = answer.label.analysis.grade
    return "-".join(shortest(number, _PLACES) for number in (grade.n, grade.p2o5, grade.k2o))


def _forms(answer: LabelAnswer) -> list[tuple[NitrogenForm, Fraction]]:
    forms = answer.label.analysis.nitrogen
    stated = ((form, getattr(forms, form.value)) for form in NitrogenForm)
    return [(form, share) for form, share in stated if share is not None]


def _percent(share: Fraction) -> str:
    return shortest(100 * share, _PLACES)
