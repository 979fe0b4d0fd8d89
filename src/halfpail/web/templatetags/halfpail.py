"""Tags for what every page shows: who says so, and the field of a form by its name."""

from collections.abc import Sequence
from functools import lru_cache

from django import template
from django.forms import BoundField
from django.urls import reverse
from django.utils.html import escape, format_html
from django.utils.safestring import SafeString
from django.utils.text import slugify

from halfpail.application.chalk_sum import ChalkedSum
from halfpail.application.word_mix import Table
from halfpail.findings import Notice, Severity
from halfpail.sources import Citation, Mark
from halfpail.web.forms.fields import AmountField

register = template.Library()

LOUDNESS = {Severity.STOP: "Stop", Severity.CAUTION: "Caution", Severity.NOTE: "Note"}


@register.simple_tag
@lru_cache(maxsize=1000)
def cite(citation: Citation | None) -> SafeString:
    """The mark of a figure, with a link to its source; nothing where there is no citation."""
    if citation is None:
        return SafeString("")
    anchor = source_anchor(citation.source) if citation.source else mark_anchor(citation.mark)
    words = f"{citation.mark}: {citation.source}" if citation.source else str(citation.mark)
    place = f", {citation.locator}" if citation.locator else ""
    return format_html(
        '<span class="cite">[<a href="{}#{}">{}</a>{}]</span>',
        reverse("sources"),
        anchor,
        words,
        place,
    )


@register.filter
def mark_anchor(mark: Mark) -> str:
    """Where the sources page explains a mark."""
    return f"mark-{mark.name.lower().replace('_', '-')}"


@register.filter
def source_anchor(key: str) -> str:
    """Where the sources page tells of a source."""
    return f"source-{slugify(key)}"


@register.filter
def loudness(notice: Notice) -> str:
    """How loudly a notice speaks, in a word."""
    return LOUDNESS[notice.severity]


@register.filter
def by_loudness(notices: Sequence[Notice]) -> tuple[list[Notice], list[Notice]]:
    """What must be heeded, and apart from it what may be read when there is time."""
    notes = [one for one in notices if one.severity is Severity.NOTE]
    return [one for one in notices if one.severity is not Severity.NOTE], notes


@register.filter
def error_id(field: BoundField) -> str:
    """Where the fault of a field is told."""
    return f"{box_id(field)}_error"


@register.filter
def echo(field: BoundField) -> str:
    """What an amount was read as; nothing for other fields, or where there is a fault."""
    amount, text = field.field, field.value()
    if not isinstance(amount, AmountField) or not text or field.errors:
        return ""
    return amount.echo(text)


@register.filter
def box_id(field: BoundField) -> str:
    """Where a field is filled in; several buttons under one name stand in a set of their own."""
    return field.id_for_label or field.auto_id


@register.simple_tag
def heading(table: Table | ChalkedSum, column: int) -> str:
    """What stands above a column, for pages too narrow to show it there."""
    return table.headings[column]


@register.simple_tag
def cells(table: Table | ChalkedSum, row: Sequence[str], column: int) -> SafeString:
    """The cells of a row from a column on, each with what stands above it."""
    above = map(escape, table.headings[column:])
    told = (
        f'<td role="cell" data-heading="{heading}">{escape(cell)}</td>'
        for heading, cell in zip(above, row, strict=False)
    )
    return SafeString("".join(told))
