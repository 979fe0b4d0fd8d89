"""Files that were made to do harm, or came to harm: each with the sentence it must end in."""

import gzip
import random
import struct
from collections.abc import Callable, Iterator

from halfpail.sheets import trouble
from halfpail.sheets.trouble import Unusable, of_kind
from tests.sheets.honest_files import ods, packed, sheet_xml, xlsx, xlsx_of

MEGABYTE = 1_000_000
HOSTILE: dict[str, tuple[Callable[[], bytes], Unusable]] = {}


def ends_in(why: Unusable) -> Callable[[Callable[[], bytes]], Callable[[], bytes]]:
    """Put a builder of one file into the list."""

    def listed(build: Callable[[], bytes]) -> Callable[[], bytes]:
        HOSTILE[build.__name__.replace("_", " ")] = build, why
        return build

    return listed


def just(name: str, raw: bytes, why: Unusable) -> None:
    HOSTILE[name] = (lambda: raw), why


just("nothing", b"", trouble.EMPTY)
just("noughts alone", bytes(5000), trouble.EMPTY)
just("blank lines", b"\xef\xbb\xbf \r\n\t\r\n" * 100, trouble.EMPTY)
just("separators alone", b",,,\n,,,\n", trouble.NOTHING)
just("a PDF", b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n", of_kind("a PDF"))
just("a picture", b"\x89PNG\r\n\x1a\n" + bytes(50), of_kind("a picture"))
just("a packed file", gzip.compress(b"name,label\nMeal,4-4-4\n"), of_kind("a packed file"))
just("a database", b"SQLite format 3\0" + bytes(100), of_kind("a database"))
just("a program", b"\x7fELF" + bytes(60), of_kind("a program"))
just("a web page", b"<!DOCTYPE html><table><tr><td>name</table>", of_kind("a web page"))
just("a table of markup", b"<?xml version='1.0'?><Workbook/>", of_kind("a page of markup"))
just("a letter", b"{\\rtf1 name}", of_kind("a letter"))
just("an old workbook", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), trouble.OLD_EXCEL)
just(
    "a locked workbook",
    b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600) + "EncryptedPackage".encode("utf-16-le"),
    trouble.LOCKED,
)
just("an empty zip", b"PK\x05\x06" + bytes(18), of_kind("an empty packed file"))
just("a zip cut after its first bytes", b"PK\x03\x04junk", trouble.DAMAGED)
just("lines with unseen letters", b"name,label\nMe\x07al,4-4-4\n", trouble.NO_TEXT)
just("a quote never closed", b'name,label\n"Meal,4-4-4\n' * 3, trouble.QUOTES)
just("half a letter of UTF-16", "name,label".encode("utf-16") + b"\x00", trouble.DAMAGED)
just(
    "one cell of four megabytes", b"name,label\n" + b"x" * (4 * MEGABYTE), trouble.TOO_MANY_LETTERS
)
just("too large a file", b"name,label\n" + b"Meal,4-4-4\n" * 500_000, trouble.TOO_LONG)
just("four hundred thousand lines", b"Meal,4-4-4\n" * 400_000, trouble.TOO_MANY_ROWS)
just("fifty thousand columns", b",".join([b"name"] * 50_000), trouble.TOO_MANY_COLUMNS)
just("columns of nothing", b"a" + b"," * 100_000 + b"b\n", trouble.TOO_MANY_COLUMNS)


@ends_in(of_kind("a packed file"))
def a_zip_of_a_letter() -> bytes:
    return packed({"word/document.xml": "<w/>", "[Content_Types].xml": "<Types/>"})


@ends_in(trouble.OLD_EXCEL)
def a_binary_workbook() -> bytes:
    return packed({"xl/workbook.bin": "x", "[Content_Types].xml": "<Types/>"})


@ends_in(trouble.LOCKED)
def a_locked_entry() -> bytes:
    raw = bytearray(xlsx_of([["name"]]))
    at = raw.find(b"PK\x01\x02")
    raw[at + 8] |= 1
    return bytes(raw)


@ends_in(trouble.LOCKED)
def a_locked_open_document() -> bytes:
    return ods("", {"META-INF/manifest.xml": "<m><manifest:encryption-data/></m>"})


@ends_in(trouble.DAMAGED)
def a_workbook_cut_in_half() -> bytes:
    raw = xlsx_of([["name", "label"], ["Meal", "4-4-4"]])
    return raw[: len(raw) // 2]


@ends_in(trouble.DAMAGED)
def a_workbook_with_a_torn_sheet() -> bytes:
    raw = bytearray(xlsx_of([[f"name {at}", at] for at in range(400)]))
    at = raw.find(b"xl/worksheets/sheet1.xml") + 60
    raw[at : at + 200] = bytes(200)
    return bytes(raw)


@ends_in(trouble.DAMAGED)
def a_workbook_without_its_sheet() -> bytes:
    return xlsx({"xl/worksheets/sheet1.xml": None})


@ends_in(trouble.DAMAGED)
def two_entries_of_one_name() -> bytes:
    raw = xlsx({"xl/WORKBOOK.xml": "<workbook/>"})
    return raw.replace(b"xl/WORKBOOK.xml", b"xl/workbook.xml")


@ends_in(trouble.BOMB)
def sixty_megabytes_of_spaces() -> bytes:
    return xlsx({"xl/worksheets/sheet1.xml": " " * (60 * MEGABYTE)})


@ends_in(trouble.DAMAGED)
def a_bomb_that_says_it_is_small() -> bytes:
    """The sizes in the table of contents are a lie."""
    size = 60 * MEGABYTE
    raw = bytearray(xlsx({"xl/worksheets/sheet1.xml": " " * size}))
    return bytes(raw.replace(struct.pack("<L", size), struct.pack("<L", 2000)))


@ends_in(trouble.BOMB)
def a_packed_file_within() -> bytes:
    return xlsx({"xl/more.zip": packed({"a": "b"})})


@ends_in(trouble.BOMB)
def a_thousand_entries() -> bytes:
    return xlsx({f"xl/part{at}.xml": "<a/>" for at in range(1000)})


def _laughs(body: str) -> str:
    lines = ['<!ENTITY a "haha">']
    for one, before in zip("bcdefghij", "abcdefghi", strict=True):
        lines.append(f'<!ENTITY {one} "{f"&{before};" * 10}">')
    return f"<?xml version='1.0'?><!DOCTYPE x [{''.join(lines)}]>{body}"


@ends_in(trouble.DAMAGED)
def an_entity_bomb_in_a_cell() -> bytes:
    rows = "<row r='1'><c r='A1' t='inlineStr'><is><t>&j;</t></is></c></row>"
    return xlsx({"xl/worksheets/sheet1.xml": _laughs(sheet_xml(rows))})


@ends_in(trouble.DAMAGED)
def an_entity_bomb_in_the_shared_words() -> bytes:
    return xlsx({"xl/sharedStrings.xml": _laughs("<sst><si><t>&j;</t></si></sst>")})


@ends_in(trouble.DAMAGED)
def an_entity_that_reads_a_file() -> bytes:
    words = '<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/hostname">]><sst><si><t>&f;</t></si></sst>'
    return xlsx({"xl/sharedStrings.xml": words})


@ends_in(trouble.DAMAGED)
def an_entity_bomb_in_an_open_document() -> bytes:
    return ods(
        "<table:table-row><table:table-cell office:value-type='string'><text:p>&j;</text:p>"
        "</table:table-cell></table:table-row>",
        laughs=_laughs(""),
    )


def _numbers(rows: int) -> Iterator[str]:
    draw = random.Random(4)
    for row in range(1, rows + 1):
        yield f"<row r='{row}'><c r='A{row}'><v>{draw.random():.6f}</v></c></row>"


@ends_in(trouble.TOO_MANY_ROWS)
def a_hundred_thousand_rows() -> bytes:
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml("".join(_numbers(100_000)))})


@ends_in(trouble.BOMB)
def a_million_rows() -> bytes:
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml("<row><c><v>1</v></c></row>" * 1_000_000)})


@ends_in(trouble.TOO_MUCH)
def a_cell_in_the_farthest_corner() -> bytes:
    rows = "<row r='1'><c r='A1'><v>1</v></c></row>"
    rows += "<row r='1048576'><c r='XFD1048576'><v>2</v></c></row>"
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml(rows)})


@ends_in(trouble.TOO_MANY_COLUMNS)
def a_cell_in_the_last_column() -> bytes:
    rows = "<row r='1'><c r='A1'><v>1</v></c><c r='XFD1'><v>2</v></c></row>"
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml(rows)})


@ends_in(trouble.TOO_MANY_CELLS)
def too_many_cells() -> bytes:
    line = ",".join(str(at) for at in range(40))
    return "\n".join([line] * 3000).encode()


@ends_in(trouble.TOO_MUCH)
def rows_repeated_without_end() -> bytes:
    cell = "<table:table-cell office:value-type='float' office:value='1' {}/>"
    wide = cell.format("table:number-columns-repeated='16'")
    return ods(f"<table:table-row table:number-rows-repeated='1048576'>{wide}</table:table-row>")


@ends_in(trouble.TOO_MANY_CELLS)
def percents_repeated() -> bytes:
    cell = "<table:table-cell office:value-type='percentage' office:value='1' {}/>"
    wide = cell.format("table:number-columns-repeated='40'")
    return ods(f"<table:table-row table:number-rows-repeated='19000'>{wide}</table:table-row>")


@ends_in(trouble.TOO_MANY_SHEETS)
def thirty_sheets() -> bytes:
    return xlsx_of(*([["name"]] for _ in range(30)))


@ends_in(trouble.DAMAGED)
def words_that_are_not_there() -> bytes:
    rows = "<row r='1'><c r='A1' t='s'><v>999999</v></c></row>"
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml(rows)})


@ends_in(trouble.TOO_MANY_ROWS)
def an_address_beyond_every_sheet() -> bytes:
    rows = "<row r='1'><c r='ZZZZZZ99999999999'><v>1</v></c></row>"
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml(rows)})


@ends_in(trouble.NOTHING)
def tags_within_tags_without_end() -> bytes:
    draw = random.Random(2)
    tags = "".join(f"<a{draw.random()}>" for _ in range(200_000))
    return xlsx({"xl/worksheets/sheet1.xml": tags})


def _slow(tag: str) -> str:
    return f"<{tag} r='A1' " * 400_000


@ends_in(trouble.BOMB)
def cells_never_closed_alike() -> bytes:
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml(_slow("c"))})


@ends_in(trouble.NOTHING)
def cells_never_closed() -> bytes:
    draw = random.Random(5)
    cells = "".join(f"<c r='A{draw.randrange(10**6)}'>" for _ in range(600_000))
    return xlsx({"xl/worksheets/sheet1.xml": sheet_xml(f"<!-- {cells} -->")})


@ends_in(trouble.DAMAGED)
def sheets_never_closed() -> bytes:
    draw = random.Random(6)
    sheets = "".join(f"<sheet name='{draw.randrange(10**6)}' " for _ in range(300_000))
    return xlsx({"xl/workbook.xml": f"<workbook><sheets>{sheets}</sheets></workbook>"})


@ends_in(trouble.NOTHING)
def a_workbook_of_empty_sheets() -> bytes:
    return xlsx_of([[]], [[]])


@ends_in(trouble.TOO_MANY_LETTERS)
def five_megabytes_of_words() -> bytes:
    draw = random.Random(3)
    return xlsx_of([[draw.randbytes(2040).hex()] for _ in range(1100)])
