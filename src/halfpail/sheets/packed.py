"""Whether a packed spreadsheet can be unpacked without harm, looked at before anything is."""

from io import BytesIO
from zipfile import BadZipFile, ZipFile, ZipInfo

from halfpail.sheets import limits, trouble

_LOCKED = 0x1
_NESTED = (".zip", ".xlsx", ".ods", ".xlsm", ".7z", ".gz", ".rar")
_SHEETS = "xl/workbook.xml", "content.xml"
_OLD = "xl/workbook.bin"
_ODS_LOCKED = b"manifest:encryption-data"
_MANIFEST = "META-INF/manifest.xml"


def unpack(raw: bytes) -> ZipFile:
    """The packed file, once its own table of contents promises no harm.

    Raises:
        Unusable: it is damaged, locked, too large once unpacked, or no spreadsheet.
    """
    try:
        packed = ZipFile(BytesIO(raw))
    except (BadZipFile, ValueError, NotImplementedError, UnicodeDecodeError, OSError):
        raise trouble.DAMAGED from None
    entries = packed.infolist()
    if len(entries) > limits.MOST_PACKED_FILES or _is_bomb(entries):
        raise trouble.BOMB
    names = {one.filename for one in entries}
    if any(name.lower().endswith(_NESTED) and "embeddings" not in name for name in names):
        raise trouble.BOMB
    if any(one.flag_bits & _LOCKED for one in entries) or _is_locked_ods(packed, names):
        raise trouble.LOCKED
    if _OLD in names:
        raise trouble.OLD_EXCEL
    if not any(name in names for name in _SHEETS) and not tables_in(packed):
        raise trouble.of_kind("a packed file") if names else trouble.DAMAGED
    if len(names) < len(entries):
        raise trouble.DAMAGED
    return packed


def tables_in(packed: ZipFile) -> list[str]:
    """The files of a zip that holds nothing but CSV; none of any other."""
    names = packed.namelist()
    return names if all(name.lower().endswith(".csv") for name in names) else []


def part(packed: ZipFile, name: str) -> bytes:
    """One part of the file, never more of it than its table of contents promised.

    Raises:
        Unusable: it cannot be unpacked.
    """
    try:
        with packed.open(name) as stream:
            return stream.read(limits.MOST_UNPACKED_BYTES)
    except KeyError:
        return b""
    except (BadZipFile, EOFError, OSError, NotImplementedError, RuntimeError, ValueError):
        raise trouble.DAMAGED from None
    except Exception as error:  # zlib and lzma have errors of their own
        raise trouble.DAMAGED from error


def _is_bomb(entries: list[ZipInfo]) -> bool:
    unpacked = sum(one.file_size for one in entries)
    packed = sum(one.compress_size for one in entries)
    if unpacked > limits.MOST_UNPACKED_BYTES:
        return True
    tight = unpacked > limits.TIGHTEST_PACKING * max(packed, 1)
    return tight and unpacked > limits.SMALL_ENOUGH_TO_PACK_TIGHTLY


def _is_locked_ods(packed: ZipFile, names: set[str]) -> bool:
    return _MANIFEST in names and _ODS_LOCKED in part(packed, _MANIFEST)
