"""Bad labels: each is refused at its line, in words that say why, never with a wrong number."""

import tomllib
from pathlib import Path

import pytest

from halfpail.application.read_label import understand_label
from halfpail.findings import Refusal

BAD = tomllib.loads((Path(__file__).parent / "bad_labels.toml").read_text(encoding="utf-8"))[
    "label"
]


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad["id"])
def test_a_bad_label_is_refused_with_its_reason(bad):
    with pytest.raises(Refusal) as refused:
        understand_label(bad["text"])
    faults = refused.value.faults
    told = [fault for fault in faults if fault.place == bad["place"]]
    assert told, faults
    assert any(bad["says"] in f"{fault.sentence} {fault.remedy}" for fault in told), faults
    assert len(faults) == bad.get("faults", 1), faults
    assert all(fault.remedy for fault in faults)
    assert all(fault.read.isprintable() for fault in faults)


def test_there_are_enough_of_them():
    assert len(BAD) >= 30


@pytest.mark.parametrize(
    "text",
    [
        "x" * 30_000,
        "9" * 10_000,
        "3-4-4\n" + "Calcium (Ca) 1%\n" * 500,
        "Derived from: " + ", ".join(["qwertyuiop"] * 900),
        "3-4-4\nDerived from: " + " and ".join(["qwertyuiop"] * 1500),
        "<script>alert(1)</script>",
        '"><svg onload=x>',
        "{{7*7}} {% debug %}",
        "=HYPERLINK(1)",
        "' OR 1=1",
        "../../x",
        "🌱🌱🌱",
        "\u0645\u0631\u062d\u0628\u0627",
        "%%%%%",
        "N%",
        "....%",
        "(((((((",
        "3-4-4 (((((",
        "P2O5",
        "5%",
        "\r\n\r\n",
        "Derived from:",
        "Total Nitrogen (N) (5%",
    ],
    ids=lambda text: text[:12],
)
def test_odd_text_is_read_or_refused_but_never_breaks(text):
    try:
        answer = understand_label(text)
    except Refusal as refusal:
        assert refusal.faults
    else:
        assert sum(answer.label.analysis.shares.values()) <= 1
