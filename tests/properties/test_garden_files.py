"""Whatever a person does to a garden file, it is opened or refused, and nothing else happens."""

from contextlib import suppress

from hypothesis import given, settings
from hypothesis import strategies as st

from halfpail.application.open_garden import open_garden
from halfpail.findings import Refusal
from halfpail.garden_file.reader import read_text
from halfpail.garden_file.toml_text import tables_of
from halfpail.wiring import sample_garden_text

LINES = sample_garden_text().splitlines()
ODD = st.sampled_from(
    [
        *("", "=", "x = 1", "[bags]", "[[beds]]", '"""', "need = 3", "a.b = 1", "[beds.need.N]"),
        *("price = -1", 'size = "1 x"', "scoop = true", "label = []", "offered = 1e9"),
        *("row = 1979-05-27", "measure = inf", 'name = """a', "mixes = 0x10", "\x00"),
    ]
)
VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=12),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.sampled_from(["N", "aim", "x"]), st.text(max_size=5), max_size=2),
)


def opens_or_refuses(text: str) -> None:
    with suppress(Refusal):
        open_garden(read_text(text))


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, len(LINES) - 1), ODD), min_size=1, max_size=4))
def test_lines_put_wrong(changes):
    lines = list(LINES)
    for number, line in changes:
        lines[number] = line
    opens_or_refuses("\n".join(lines))


@settings(max_examples=40)
@given(st.text(max_size=200))
def test_any_text(text):
    opens_or_refuses(text)


@settings(max_examples=100)
@given(
    st.sampled_from(["tools", "preferences", "bags", "beds", "need"]),
    st.sampled_from(["name", "scoop", "measure", "mixes", "price", "size", "label", "N", "avoid"]),
    VALUES,
)
def test_any_value_anywhere(table, key, value):
    opens_or_refuses(f"{_header(table)}\n{key} = {_toml(value)}\n")


def _header(table: str) -> str:
    if table == "need":
        return "[[beds]]\n[beds.need]"
    return f"[[{table}]]" if table in ("bags", "beds") else f"[{table}]"


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_toml(one)}" for key, one in value.items()) + "}"
    if isinstance(value, str):
        return '"' + "".join(f"\\U{ord(letter):08x}" for letter in value) + '"'
    return str(value)


@given(st.one_of(st.booleans(), st.integers(), st.text(max_size=9)))
def test_the_value_is_typed_as_meant(value):
    """The helper above writes what TOML reads back; else the test before it would test nothing."""
    if isinstance(value, str) and any(0xD800 <= ord(letter) <= 0xDFFF for letter in value):
        return
    assert tables_of(f"a = {_toml(value)}")["a"] == value
