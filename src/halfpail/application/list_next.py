"""What is left to do of a plan: what to buy, stir and feed, and what runs short on the way."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from halfpail.application.date_season import DatedFeed
from halfpail.application.list_tasks import STIR_BEFORE
from halfpail.application.season_answer import MixAnswer, SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.domain.diary import Bought, Event, Fed, Made
from halfpail.domain.mix import part_mass_kg

NONE = Fraction(0)
Place = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneSoFar:
    """Scoops given by bed and food, rounds made by mix, bags bought."""

    scoops: Mapping[Place, Fraction] = field(hash=False)
    rounds: Mapping[str, int] = field(hash=False)
    bought: Mapping[str, int] = field(hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """So much of one food for one bed; without a day where nothing is known of the frost."""

    on: date | None
    bed: str
    food: str
    scoops: Fraction
    volume_l: Fraction
    mass_kg: Fraction
    beside_rows: bool = False
    is_mix: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Stirring:
    """So many rounds of one mix, a week before it is first given."""

    on: date | None
    mix: MixAnswer
    rounds: int

    @property
    def name(self) -> str:
        """What the mix is called in the plan."""
        return mix_name(self.mix.number - 1)

    @property
    def mass_kg(self) -> Fraction:
        """Weight of these rounds [kg]."""
        return self.rounds * self.mix.round.mass_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class NextAnswer:
    """What is left: in the order of its days, bags still to buy, and bags that run short [kg]."""

    todo: tuple[Stirring | Feed, ...]
    buy: Mapping[str, int] = field(hash=False)
    short_kg: Mapping[str, Fraction] = field(hash=False)


def plan_names(answer: SeasonAnswer) -> dict[str, str]:
    """What each mix of a plan is fed as: a mix of one bag is that bag, and is not stirred."""
    return {
        mix_name(mix.number - 1): mix.round.parts[0].bag.name
        if len(mix.round.parts) == 1
        else mix_name(mix.number - 1)
        for mix in answer.mixes
    }


def done_so_far(events: Iterable[Event], called: Mapping[str, str]) -> DoneSoFar:
    """What the diary says was done; `called` gives a mix of the diary its name in the plan."""
    scoops: defaultdict[Place, Fraction] = defaultdict(Fraction)
    rounds: Counter[str] = Counter()
    bought: Counter[str] = Counter()
    for event in events:
        if isinstance(event, Fed):
            scoops[event.bed, called.get(event.of, event.of)] += event.scoops
        elif isinstance(event, Made):
            rounds[called.get(event.mix, event.mix)] += event.rounds
        elif isinstance(event, Bought):
            bought[event.bag] += event.bags
    return DoneSoFar(scoops=scoops, rounds=rounds, bought=bought)


def list_next(
    answer: SeasonAnswer,
    dated: Sequence[DatedFeed] | None,
    done: DoneSoFar,
    shed_kg: Mapping[str, Fraction],
) -> NextAnswer:
    """What is left of a plan, with what the shed holds now [kg]; without dates no day is told."""
    names = plan_names(answer)
    feeds = tuple(_left_to_feed(_feeds(answer, dated, names), done.scoops))
    stirrings = tuple(_left_to_stir(answer, feeds, done.rounds))
    buy = {
        told.bag.name: left
        for told in answer.bags
        if (left := told.bought - done.bought.get(told.bag.name, 0)) > 0
    }
    return NextAnswer(
        todo=tuple(sorted((*stirrings, *feeds), key=_day)),
        buy=buy,
        short_kg=_short(answer, stirrings, feeds, buy, shed_kg),
    )


def _feeds(
    answer: SeasonAnswer, dated: Sequence[DatedFeed] | None, names: Mapping[str, str]
) -> Iterator[Feed]:
    for one in dated or ():
        yield Feed(
            on=one.on,
            bed=one.bed,
            food=names.get(one.food, one.food),
            scoops=one.scoops,
            volume_l=one.volume_l,
            mass_kg=one.mass_kg,
            beside_rows=one.beside_rows,
            is_mix=names.get(one.food) == one.food,
        )
    told = {one.bed for one in dated or ()}
    for bed in answer.beds:
        for feed in bed.feeds if bed.bed.name not in told else ():
            yield Feed(
                on=None,
                bed=bed.bed.name,
                food=names.get(feed.name, feed.name),
                scoops=feed.scoops,
                volume_l=feed.volume_l,
                mass_kg=feed.mass_kg,
                is_mix=names.get(feed.name) == feed.name,
            )


def _left_to_feed(feeds: Iterable[Feed], given: Mapping[Place, Fraction]) -> Iterator[Feed]:
    """What was given is taken off the earliest feedings first; a rest stays as a smaller one."""
    left = dict(given)
    for feed in sorted(feeds, key=_day):
        place = feed.bed, feed.food
        taken = min(feed.scoops, left.get(place, NONE))
        left[place] = left.get(place, NONE) - taken
        rest = feed.scoops - taken
        if rest:
            share = rest / feed.scoops
            volume_l, mass_kg = feed.volume_l * share, feed.mass_kg * share
            yield replace(feed, scoops=rest, volume_l=volume_l, mass_kg=mass_kg)


def _left_to_stir(
    answer: SeasonAnswer, feeds: Sequence[Feed], made: Mapping[str, int]
) -> Iterator[Stirring]:
    for mix in answer.mixes:
        name = mix_name(mix.number - 1)
        rounds = mix.rounds - made.get(name, 0)
        if rounds > 0 and len(mix.round.parts) > 1:
            days = [feed.on for feed in feeds if feed.food == name and feed.on]
            yield Stirring(on=min(days) - STIR_BEFORE if days else None, mix=mix, rounds=rounds)


def _short(
    answer: SeasonAnswer,
    stirrings: Sequence[Stirring],
    feeds: Sequence[Feed],
    buy: Mapping[str, int],
    shed_kg: Mapping[str, Fraction],
) -> dict[str, Fraction]:
    """Bags of which more is wanted than the shed will hold once the rest is bought [kg]."""
    wanted: defaultdict[str, Fraction] = defaultdict(Fraction)
    for one in stirrings:
        for part in one.mix.round.parts:
            wanted[part.bag.name] += one.rounds * part_mass_kg(part, one.mix.round.scoop_l)
    for feed in feeds:
        wanted[feed.food] += feed.mass_kg
    short: dict[str, Fraction] = {}
    for told in answer.bags:
        name = told.bag.name
        there = shed_kg.get(name, NONE) + buy.get(name, 0) * (told.bag.bag_kg or NONE)
        if wanted[name] > there:
            short[name] = wanted[name] - there
    return short


def _day(one: Stirring | Feed) -> tuple[bool, date, bool]:
    """Dated first, by day, stirring before feeding."""
    return one.on is None, one.on or date.max, isinstance(one, Feed)
