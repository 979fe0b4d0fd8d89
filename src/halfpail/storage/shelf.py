"""The ports of the shelf, filled with rows."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.kept import GardenSettings, Kept, MixEntry, SeasonEntry
from halfpail.application.whole_garden import WholeGarden
from halfpail.storage import models
from halfpail.storage.bring_in import RowImports
from halfpail.storage.diary_book import RowDiary
from halfpail.storage.drawers import MixDrawer, RowDrawer
from halfpail.storage.jobs import RowJobs
from halfpail.storage.mapping import BagMapper, BedMapper, GardenMapper, SeasonMapper
from halfpail.storage.work import reading, writing


class RowShelf:
    """One garden."""

    def __init__(self, garden: int, gardens: RowDrawer[GardenSettings]) -> None:
        self.key = garden
        self._gardens = gardens
        self.bags: RowDrawer[BagEntry] = RowDrawer(BagMapper(), garden)
        self.beds: RowDrawer[BedEntry] = RowDrawer(BedMapper(), garden)
        self.mixes = MixDrawer(garden)
        self.seasons: RowDrawer[SeasonEntry] = RowDrawer(SeasonMapper(), garden)
        self.diary = RowDiary(garden)
        self.imports = RowImports(self.bags, self.beds, self.diary)

    @reading
    def garden(self) -> GardenEntry:
        """The whole garden as typed, as a garden file would tell it."""
        about = self._gardens.get(self.key).value.about
        bags = [kept.value for kept in self.bags.all()]
        beds = [kept.value for kept in self.beds.all()]
        return replace(
            about,
            bags=tuple(replace(one, place=f"bags[{at}]") for at, one in enumerate(bags, 1)),
            beds=tuple(replace(one, place=f"beds[{at}]") for at, one in enumerate(beds, 1)),
        )

    @writing
    def keep_mix(self, mix: MixEntry, bags: Sequence[BagEntry], token: str) -> Kept[MixEntry]:
        """Keep a mix with bags that come with it; a token that came before keeps nothing new."""
        for number, bag in enumerate(bags):
            self.bags.add(bag, f"{token} bag {number}")
        return self.mixes.add(mix, token)


class RowDrafts:
    """What was typed and not saved yet."""

    @reading
    def get(self, form: str) -> Mapping[str, str]:
        """The fields of a form as typed; nothing where there is no draft."""
        row = models.Draft.objects.filter(form=form).first()
        return row.fields if row else {}

    @writing
    def keep(self, form: str, fields: Mapping[str, str]) -> None:
        """Keep what is typed."""
        models.Draft.objects.update_or_create(form=form, defaults={"fields": dict(fields)})

    @writing
    def drop(self, form: str) -> None:
        """Forget a draft."""
        models.Draft.objects.filter(form=form).delete()

    @writing
    def keep_few(self, start: str, most: int) -> None:
        """Forget all but the newest of the drafts whose keys start so."""
        rows = models.Draft.objects.filter(form__startswith=start).order_by("-kept_at", "-pk")
        old = list(rows.values_list("pk", flat=True)[most:])
        models.Draft.objects.filter(pk__in=old).delete()


class RowStore:
    """Everything that is kept on this machine; `read_only` where it can only be looked at."""

    def __init__(self, *, read_only: bool = False) -> None:
        self.read_only = read_only
        self.gardens: RowDrawer[GardenSettings] = RowDrawer(GardenMapper())
        self.drafts = RowDrafts()
        self.jobs = RowJobs()

    @reading
    def shelf(self, garden: int) -> RowShelf:
        """The shelf of one garden."""
        self.gardens.get(garden)
        return RowShelf(garden, self.gardens)

    @writing
    def put_in(self, entry: GardenEntry, *, is_sample: bool = False) -> int:
        """A whole garden, all of it or nothing; answers its key."""
        about = replace(entry, bags=(), beds=(), faults=(), lines={})
        garden = self.gardens.add(GardenSettings(about=about, is_sample=is_sample)).key
        shelf = RowShelf(garden, self.gardens)
        for bag in entry.bags:
            shelf.bags.add(bag)
        for bed in entry.beds:
            shelf.beds.add(bed)
        return garden

    @writing
    def put_in_whole(self, whole: WholeGarden) -> int:
        """A garden with all that was kept of it, or nothing; answers its key."""
        key = self.put_in(whole.garden, is_sample=whole.is_sample)
        kept = self.gardens.get(key)
        self.gardens.change(key, kept.version, replace(kept.value, answers=whole.answers))
        shelf = RowShelf(key, self.gardens)
        put_away = [shelf.bags.add(bag) for bag in whole.put_away]
        for mix in whole.mixes:
            shelf.mixes.add(mix)
        for bag in put_away:
            shelf.bags.remove(bag.key, bag.version)
        for season in whole.seasons:
            shelf.seasons.add(season)
        shelf.diary.bring_in(whole.diary)
        return key

    @reading
    def seen(self) -> frozenset[str]:
        """Keys of the notices that were shown and put away."""
        return frozenset(models.SeenNotice.objects.values_list("notice", flat=True))

    @writing
    def put_away(self, notice: str) -> None:
        """Remember that a notice was seen."""
        models.SeenNotice.objects.get_or_create(notice=notice)
