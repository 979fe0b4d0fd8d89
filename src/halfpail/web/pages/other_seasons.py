"""What became of the wishes beside a plan, and truly different plans to keep instead of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from halfpail.application.other_plans import BEST
from halfpail.application.word_choices import (
    NO_CUPS,
    kept_words,
    others_table,
    others_words,
    worse_words,
)
from halfpail.application.word_mix import Table
from halfpail.web.look import Look
from halfpail.web.season_text import SeasonFound


@dataclass(frozen=True, slots=True, kw_only=True)
class OthersSheet:
    """The best plan and others for nearly the same."""

    table: Table
    words: Sequence[str]


def others_sheet(found: SeasonFound, look: Look) -> OthersSheet | None:
    """The plans side by side; None where they were not asked for."""
    if found.others is None or found.plan is None:
        return None
    return OthersSheet(
        table=others_table(found.others, look.currency, look.system),
        words=others_words(found.others, look.currency),
    )


def others_to_keep(found: SeasonFound) -> tuple[tuple[str, str], ...]:
    """The other plans that can be kept: the place of each among those found, and its name."""
    plans = found.others.plans if found.others else ()
    return tuple(
        (str(place), one.figures.name)
        for place, one in enumerate(plans)
        if one.figures.name != BEST and one.plan != found.plan
    )


def instead(found: SeasonFound, which: str) -> SeasonFound:
    """What was found, with another of its plans in the place of the one on the page."""
    if not which or found.others is None:
        return found
    plan = found.others.plans[int(which)].plan
    return replace(found, plan=plan, mixes=max(1, len(plan.stirs)))


def news_of(found: SeasonFound, look: Look) -> tuple[str, ...]:
    """What became of the plan before, and of the wish for few sizes."""
    return tuple(_news(found, look.currency))


def _news(found: SeasonFound, currency: str) -> Iterator[str]:
    if found.old:
        old = found.old
        yield kept_words(old.kept, old.saved_money, old.saves_enough_money, currency)
        yield from (f"{one}." for one in old.because)
    if found.few is None:
        return
    if not found.few.sizes:
        yield NO_CUPS
        return
    yield f"Amounts in a few sizes: {'; '.join(found.few.sizes)}."
    yield worse_words(found.few.worse_money, currency)
