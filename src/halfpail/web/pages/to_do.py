"""What the page of what to do next shows: a plain dated list, what to buy, what runs short."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import urlencode

from django.urls import reverse

from halfpail.application.dated_task import Task
from halfpail.application.list_next import Feed, NextAnswer, Stirring
from halfpail.application.list_tending import words_of
from halfpail.application.word_season import counted
from halfpail.findings import Notice
from halfpail.quantities.dates import day_words
from halfpail.quantities.numerals import mixed
from halfpail.quantities.showing import show_mass, show_scoops, show_volume
from halfpail.quantities.units import System
from halfpail.web.recipes import diary_name

WEEK = timedelta(days=7)
UNDATED = "when it suits"
ToDo = Stirring | Feed | Task


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """One thing to do: its day, what and where, and the address to write it down at."""

    day: str
    late: bool
    words: str
    details: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NextPage:
    """What is left of the plan that is followed; without one what to do first."""

    plan: str = ""
    plan_key: int = 0
    this_week: tuple[NextRow, ...] = ()
    later: tuple[NextRow, ...] = ()
    buy: tuple[str, ...] = ()
    short: tuple[str, ...] = ()
    notices: tuple[Notice, ...] = ()
    first_steps: tuple[tuple[str, str], ...] = ()
    waiting: bool = False
    undated: str = ""
    may_retry: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the rows are told with: today, the plan's name and the units."""

    today: date
    plan: str
    system: System


def rows_of(
    answer: NextAnswer, tending: Sequence[Task], told: Told
) -> tuple[tuple[NextRow, ...], tuple[NextRow, ...]]:
    """What is due within a week or late, and what comes later or has no day."""
    todo = sorted((*answer.todo, *tending), key=lambda one: one.on or date.max)
    soon = [one for one in todo if one.on is not None and one.on < told.today + WEEK]
    later = todo[len(soon) :]
    return tuple(_row(one, told) for one in soon), tuple(_row(one, told) for one in later)


def _row(one: ToDo, told: Told) -> NextRow:
    words, details = _words(one, told)
    return NextRow(
        day=UNDATED if one.on is None else day_words(one.on),
        late=one.on is not None and one.on < told.today,
        words=words,
        details=details,
        address=_address(one, told),
    )


def _words(one: ToDo, told: Told) -> tuple[str, str]:
    if isinstance(one, Task):
        return one.title, one.details
    return _stir(one, told) if isinstance(one, Stirring) else _feed(one, told)


def _stir(one: Stirring, told: Told) -> tuple[str, str]:
    scoops = " + ".join(f"{part.scoops} {part.bag.name}" for part in one.mix.round.parts)
    rounds = counted(one.rounds, "round", "rounds")
    return (
        f"Stir {one.name}",
        f"{rounds} of {scoops} (scoops), {show_mass(one.mass_kg, told.system)}",
    )


def _feed(one: Feed, told: Told) -> tuple[str, str]:
    how = "" if one.on is None else ", beside the rows" if one.beside_rows else ", worked in"
    amount = f"{show_volume(one.volume_l, told.system)}, {show_mass(one.mass_kg, told.system)}"
    return f"Feed {one.bed}: {show_scoops(one.scoops)} of {one.food}", f"{amount}{how}"


def _address(one: ToDo, told: Told) -> str:
    if isinstance(one, Task):
        return f"{reverse('write diary', args=['note'])}?{urlencode({'note': words_of(one)})}"
    if isinstance(one, Stirring):
        asked = {"mix": diary_name(one.name, told.plan), "rounds": str(one.rounds)}
        return f"{reverse('write diary', args=['batch'])}?{urlencode(asked)}"
    of = diary_name(one.food, told.plan) if one.is_mix else one.food
    asked = {"bed": one.bed, "of": of, "scoops": mixed(one.scoops)}
    return f"{reverse('write diary', args=['feeding'])}?{urlencode(asked)}"


def buy_words(answer: NextAnswer) -> tuple[str, ...]:
    """Bags still to buy."""
    return tuple(f"{bag}: {counted(left, 'bag', 'bags')}" for bag, left in answer.buy.items())


def short_words(answer: NextAnswer, system: System) -> Iterator[str]:
    """Bags of which there will not be enough."""
    for bag, short_kg in answer.short_kg.items():
        yield f"{bag}: {show_mass(short_kg, system)} more is wanted than there will be."
