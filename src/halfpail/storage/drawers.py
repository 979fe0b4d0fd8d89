"""Drawers: values of one kind, kept as rows with a version and a bin."""

from typing import Any, Generic, TypeVar

from django.db.models import F, QuerySet
from django.utils import timezone

from halfpail.application.kept import Kept, MixEntry
from halfpail.application.store_trouble import Conflict, Missing, NameTaken
from halfpail.storage import models
from halfpail.storage.mapping import Mapper, MixMapper
from halfpail.storage.work import reading, writing

T = TypeVar("T")


class RowDrawer(Generic[T]):
    """The rows of one mapper; those of one garden where `garden` is given."""

    def __init__(self, mapper: Mapper[T], garden: int | None = None) -> None:
        self.mapper = mapper
        self.within: dict[str, Any] = {} if garden is None else {"garden_id": garden}

    def rows(self) -> QuerySet[Any]:
        """All the rows, with what the mapper needs of others."""
        return self.mapper.model._default_manager.filter(**self.within).order_by("pk")

    def kept(self, row: Any) -> Kept[T]:
        """The value of a row with its key and version."""
        return Kept(key=row.pk, version=row.version, value=self.mapper.from_row(row))

    @reading
    def all(self) -> tuple[Kept[T], ...]:
        """Everything that is not in the bin."""
        return tuple(self.kept(row) for row in self.rows().filter(removed_at=None))

    @reading
    def bin(self) -> tuple[Kept[T], ...]:
        """Everything that was removed, the latest first."""
        removed = self.rows().exclude(removed_at=None).order_by("-removed_at", "-pk")
        return tuple(self.kept(row) for row in removed)

    @reading
    def get(self, key: int) -> Kept[T]:
        """One of them."""
        return self.kept(self._row(key))

    @writing
    def add(self, value: T, token: str = "") -> Kept[T]:
        """Keep a new one; a token that came before answers what it kept then."""
        before = self.rows().filter(token=token).first() if token else None
        if before is not None:
            return self.kept(before)
        columns = self.mapper.to_row(value)
        self._check_name(columns)
        row = self.mapper.model._default_manager.create(
            token=token or None, **self.within, **columns
        )
        self.keep_parts(row, value)
        return self.get(row.pk)

    @writing
    def change(self, key: int, version: int, value: T) -> Kept[T]:
        """Put a value in the place of the one that was seen."""
        self._check_seen(key, version)
        columns = self.mapper.to_row(value)
        self._check_name(columns, but=key)
        self._update(key, version, **columns)
        self.keep_parts(self._row(key), value)
        return self.get(key)

    @writing
    def remove(self, key: int, version: int) -> None:
        """Move it to the bin."""
        self._check_seen(key, version)
        self._update(key, version, removed_at=timezone.now())

    @writing
    def put_back(self, key: int) -> Kept[T]:
        """Take it out of the bin again; where it lies in no bin nothing changes."""
        row = self.rows().filter(pk=key).first()
        if row is None:
            raise Missing
        if row.removed_at is not None:
            self._check_name({"name_key": getattr(row, "name_key", None)}, but=key)
            self.rows().filter(pk=key).update(removed_at=None, version=F("version") + 1)
        return self.get(key)

    def keep_parts(self, row: Any, value: T) -> None:
        """Keep what stands in rows of its own."""

    def _row(self, key: int) -> Any:
        row = self.rows().filter(pk=key, removed_at=None).first()
        if row is None:
            raise Missing
        return row

    def _check_seen(self, key: int, version: int) -> None:
        """Of several windows that saw one version, the first to write leaves another behind."""
        now = self.get(key)
        if now.version != version:
            raise Conflict(theirs=now)

    def _update(self, key: int, version: int, **columns: Any) -> None:
        self.rows().filter(pk=key, version=version).update(version=version + 1, **columns)

    def _check_name(self, columns: dict[str, Any], but: int | None = None) -> None:
        if not columns.get("name_key"):
            return
        same = self.rows().filter(name_key=columns["name_key"], removed_at=None).exclude(pk=but)
        if same.exists():
            raise NameTaken(place="name", read=columns.get("name", ""))


class MixDrawer(RowDrawer[MixEntry]):
    """Mixes with their scoops."""

    def __init__(self, garden: int) -> None:
        super().__init__(MixMapper(), garden)

    def rows(self) -> QuerySet[Any]:
        """Mixes with their scoops and the bags of these."""
        return super().rows().prefetch_related("parts__bag")

    def keep_parts(self, row: models.Mix, value: MixEntry) -> None:
        """Keep the scoops in the order they were given."""
        bags = bags_by_name(self.within["garden_id"])
        strangers = [name for name in value.scoops if name not in bags]
        if strangers:
            raise Missing(place="bag", read=strangers[0])
        row.parts.all().delete()
        models.MixScoops.objects.bulk_create(
            models.MixScoops(mix=row, bag=bags[name], scoops=scoops)
            for name, scoops in value.scoops.items()
        )


def bags_by_name(garden: int) -> dict[str, models.Bag]:
    """The bags of a garden by name; those in the bin too, unless another took their name."""
    rows = models.Bag.objects.filter(garden_id=garden).order_by(
        F("removed_at").asc(nulls_last=True)
    )
    return {row.name: row for row in rows}
