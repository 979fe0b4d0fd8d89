"""A spreadsheet told back on the terminal: each sheet, what is wrong, what would be kept."""

from collections.abc import Iterator

from halfpail.application.found_rows import Standing
from halfpail.application.look_at_spreadsheet import FoundSheet, FoundSpreadsheet
from halfpail.application.match_columns import heads_of
from halfpail.cli import printing
from halfpail.findings import Fault

MOST_FAULTS = 50
_WORDS = {
    Standing.NEW: "new",
    Standing.CHANGED: "here already, but different",
    Standing.SAME: "here already",
    Standing.MORE: "that tell more of beds",
    Standing.FAULTY: "that cannot be used",
}


def found_text(found: FoundSpreadsheet) -> str:
    """Every sheet with its columns, its counts and its faults."""
    known = [sheet for sheet in found.sheets if sheet.choice.matching.table]
    lines = [line for sheet in known for line in _sheet(sheet)]
    others = [sheet for sheet in found.sheets if not sheet.choice.matching.table]
    if others:
        names = ", ".join(sheet.sheet.name for sheet in others)
        lines.append(printing.paragraph(f"Left out: {names}."))
    if others and not known:
        lines += [printing.paragraph(note, indent="  ") for one in others for note in one.notes]
    return "\n".join(lines)


def faulty(found: FoundSpreadsheet) -> int:
    """How many rows cannot be used."""
    return sum(sheet.count(Standing.FAULTY) + len(sheet.faults) for sheet in found.sheets)


def _sheet(found: FoundSheet) -> Iterator[str]:
    matching = found.choice.matching
    yield printing.heading(f"{found.sheet.name}: {matching.table.lower()}")
    heads = heads_of(found.sheet, matching.head_row)
    pairs = (f"{heads[at].text} = {key}" for at, key in matching.known.items() if at < len(heads))
    yield printing.paragraph(f"columns: {', '.join(pairs)}", indent="  ")
    told = [f"{count} {words}" for one, words in _WORDS.items() if (count := found.count(one))]
    yield printing.paragraph(f"rows: {', '.join(told) or 'none'}", indent="  ")
    for note in found.notes:
        yield printing.paragraph(note, indent="  ")
    for row in found.rows:
        if row.standing is Standing.CHANGED:
            yield printing.paragraph(f"{row.name}: {'; '.join(row.differs)}", indent="  ~ ")
    faults = [*found.faults, *(fault for row in found.rows for fault in row.faults)]
    for fault in faults[:MOST_FAULTS]:
        yield printing.paragraph(_fault(fault), indent="  * ")
    if len(faults) > MOST_FAULTS:
        yield f"  and {len(faults) - MOST_FAULTS} more"
    yield ""


def _fault(fault: Fault) -> str:
    read = f"it says “{fault.read}”. " if fault.read else ""
    return f"{fault.place}: {read}{fault.sentence} {fault.remedy}"
