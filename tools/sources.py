"""Count the shipped figures by how far they can be trusted: python tools/sources.py [WORD].

With a word of a mark, such as `memory` or `default`, every figure of that mark is listed with its
table, its row and the publication it is thought to come from.
"""

import sys
from collections.abc import Iterator

from halfpail.reference.passport import cells, passport, table_names
from halfpail.reference.standing import count_by_mark
from halfpail.sources import Mark


def counted() -> Iterator[str]:
    """A line for each mark that a shipped figure has, and the sum."""
    found = {mark: count for mark, count in count_by_mark().items() if count}
    for mark, count in found.items():
        yield f"{count:>6}  {mark}"
    yield f"{sum(found.values()):>6}  citations in {len(table_names())} tables"


def listed(mark: Mark) -> Iterator[str]:
    """Every figure of a mark: table, line of the file, first cell, and who is thought to say so."""
    for table in table_names():
        columns = [key for key, column in passport(table).columns.items() if column.unit == "mark"]
        for line, row in enumerate(cells(table), start=2):
            for column in (one for one in columns if row[one] == mark):
                of = column.removesuffix("mark")
                said = ", ".join(
                    row[f"{of}{key}"] for key in ("source", "locator") if row.get(f"{of}{key}")
                )
                name = f"{next(iter(row.values()))} {of.rstrip('_')}".strip()
                yield f"  {table}:{line}  {name}  {said}".rstrip()


def main(words: list[str]) -> int:
    """Print the count, or what a mark stands on; 2 where no mark has that word."""
    marks = [mark for mark in Mark if words and words[0] in mark]
    if words and not marks:
        print(f"No mark has the word {words[0]}: {'; '.join(Mark)}.", file=sys.stderr)
        return 2
    lines = (line for mark in marks for line in listed(mark)) if marks else counted()
    print("\n".join(lines))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
