"""What kind of file this is, told by its content and never by its name."""

from enum import Enum

from halfpail.sheets import trouble

_ZIP, _OLE = b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_OTHERS = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"\x1f\x8b", "a packed file"),
    (b"7z\xbc\xaf", "a packed file"),
    (b"Rar!", "a packed file"),
    (b"SQLite format 3", "a database"),
    (b"\x7fELF", "a program"),
    (b"MZ\x90", "a program"),
    (b"PK\x05\x06", "an empty packed file"),
)
_LOCKED_PARTS = ("EncryptedPackage".encode("utf-16-le"), "EncryptionInfo".encode("utf-16-le"))
_MARKUP = (b"<!doctype html", b"<html")
_XML = (b"<?xml", b"<!doctype", b"<svg")


class FileKind(Enum):
    """What can be opened."""

    PACKED = "a packed spreadsheet"
    LINES = "lines of text"


def kind_of(raw: bytes) -> FileKind:
    """The kind of a file.

    Raises:
        Unusable: it is empty, or of a kind that is no spreadsheet.

    >>> kind_of(b"name,label")
    <FileKind.LINES: 'lines of text'>
    """
    if not raw.strip(b"\0 \t\r\n\xef\xbb\xbf"):
        raise trouble.EMPTY
    if raw.startswith(_ZIP):
        return FileKind.PACKED
    if raw.startswith(_OLE):
        raise trouble.LOCKED if any(part in raw for part in _LOCKED_PARTS) else trouble.OLD_EXCEL
    for start, what in _OTHERS:
        if raw.startswith(start):
            raise trouble.of_kind(what)
    opening = raw.removeprefix(b"\xef\xbb\xbf").lstrip()[:200].lower()
    if opening.startswith(_MARKUP):
        raise trouble.of_kind("a web page")
    if opening.startswith(_XML):
        raise trouble.of_kind("a page of markup")
    if opening.startswith(b"{\\rtf"):
        raise trouble.of_kind("a letter")
    return FileKind.LINES
