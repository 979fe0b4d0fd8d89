"""What became of the wishes beside a plan, and truly different plans to keep instead of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

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


def names_of(found: SeasonFound) -> tuple[str, ...]:
    """The plans that can be kept, the best first; none where there is but one."""
    return tuple(one.figures.name for one in found.others.plans) if found.others else ()


def instead(found: SeasonFound, which: int) -> SeasonFound:
    """What was found, with another of its plans in the place of the best."""
    if not which or found.others is None:
        return found
    plan = found.others.plans[which].plan
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
