"""The mixes a person can have made: those of the plan that is followed, and those kept."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from halfpail.application.tell_season import mix_name
from halfpail.web.home import Home
from halfpail.web.plans import followed


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownMix:
    """A mix by its name in the diary, with its recipe in whole scoops by the name of the bag."""

    name: str
    scoops: Mapping[str, int] = field(hash=False)

    @property
    def words(self) -> str:
        """The name with the recipe."""
        return f"{self.name}: {' + '.join(f'{n} {bag}' for bag, n in self.scoops.items())}"


def known_mixes(home: Home) -> tuple[KnownMix, ...]:
    """Every mix that the diary can name, bags as they are left out; of one name the first."""
    found: dict[str, KnownMix] = {}
    for mix in (*_of_plan(home), *_kept(home)):
        found.setdefault(mix.name, mix)
    return tuple(found.values())


def _of_plan(home: Home) -> Iterator[KnownMix]:
    plan = followed(home)
    if plan is None:
        return
    for number, stir in enumerate(plan.value.plan.stirs):
        if len(stir.scoops) > 1:
            name = diary_name(mix_name(number), plan.value.name)
            yield KnownMix(name=name, scoops=stir.scoops)


def diary_name(mix: str, season: str) -> str:
    """What a mix of a plan is called in the diary, since every plan counts its mixes anew.

    >>> diary_name("Mix 1", "Season 2027")
    'Mix 1, Season 2027'
    """
    return f"{mix}, {season}"


def _kept(home: Home) -> Iterator[KnownMix]:
    for one in home.shelf.mixes.all():
        if one.value.scoops:
            yield KnownMix(name=one.value.name, scoops=one.value.scoops)
