"""Whatever is brought along ends in a plain sentence, in bounded memory and time."""

import pytest

from halfpail.findings import Refusal
from halfpail.sheets import limits
from halfpail.sheets.reader import LimitedReader
from tests.sheets.hostile_files import HOSTILE
from tests.sheets.measured import opened


def test_there_are_many_of_them():
    print(f"{len(HOSTILE)} hostile files")
    assert len(HOSTILE) >= 30


@pytest.mark.parametrize("name", HOSTILE)
def test_it_ends_in_its_sentence(name):
    build, why = HOSTILE[name]
    with pytest.raises(Refusal) as refused:
        LimitedReader().read(build(), "bags.xlsx")
    (fault,) = refused.value.faults
    assert (fault.place, fault.sentence) == ("bags.xlsx", why.sentence)
    assert fault.remedy == why.remedy and fault.remedy


@pytest.mark.slow
def test_none_takes_more_of_the_machine_than_it_may():
    taken = {name: opened(build()[: limits.MOST_BYTES])[1:] for name, (build, _) in HOSTILE.items()}
    size, seconds = (max(one[at] for one in taken.values()) for at in (0, 1))
    print(f"{len(taken)} hostile files: at most {size / 2**20:.0f} MiB and {seconds:.1f} s of work")
    assert size <= limits.MOST_MEMORY_BYTES
    assert seconds <= limits.MOST_CPU_SECONDS
