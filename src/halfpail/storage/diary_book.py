"""The diary as rows: events with what they point to, and the stock they moved."""

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction

from django.db.models import F, QuerySet, TextField
from django.db.models.functions import Cast
from django.utils import timezone

from halfpail.application.kept import Kept
from halfpail.application.store_trouble import Missing
from halfpail.domain.diary import (
    Bought,
    Event,
    Fed,
    Harvested,
    Made,
    Noted,
    bag_moves_kg,
    stock_after_kg,
)
from halfpail.storage import models
from halfpail.storage.drawers import bags_by_name
from halfpail.storage.mapping import DiaryMapper
from halfpail.storage.work import reading, writing

_IN_SHED = "in_shed"
# Of what a line points to only the names are wanted; whole bags would be much to read for each.
_SHOWN = ("pk", "version", "kind", "text", "bed__name", "bag__name", "mix__name")


class RowDiary:
    """The diary of one garden."""

    def __init__(self, garden: int) -> None:
        self.garden = garden
        self.mapper = DiaryMapper()

    @reading
    def all(self, since: date | None = None) -> tuple[Kept[Event], ...]:
        """Every event that was not undone, from a day on, by date and then as written."""
        rows = self._rows().filter(removed_at=None).order_by("on", "pk")
        return self._kept(rows.filter(on__gte=since) if since else rows)

    @reading
    def undone(self) -> tuple[Kept[Event], ...]:
        """Events that were undone, the latest first."""
        undone = self._rows().exclude(removed_at=None)
        return self._kept(undone.order_by("-removed_at", "-pk"))

    @writing
    def record(self, event: Event, token: str = "") -> Kept[Event]:
        """Write an event down and move the stock; a token that came before moves nothing."""
        before = self._rows().filter(token=token).first() if token else None
        if before is not None:
            return self._one(before)
        row = models.DiaryLine.objects.create(
            garden_id=self.garden,
            token=token or None,
            **self.mapper.to_row(event),
            **self._pointers(event),
        )
        self._move_stock(row, event)
        return self._one(row)

    @writing
    def bring_in(self, events: Iterable[Event]) -> None:
        """Write down events of a file; the stock stays, since they moved it long ago.

        What they name need not be there any more. Undoing one later gives back what it names.
        """
        kinds: tuple[type[models.InGarden], ...] = (models.Bed, models.Bag, models.Mix)
        rows = {model: {row.name: row for row in self._live(model)} for model in kinds}
        for event in events:
            told = {name: rows[model].get(called) for name, model, called in _named_in(event)}
            line = models.DiaryLine.objects.create(
                garden_id=self.garden, **self.mapper.to_row(event), **told
            )
            models.StockMove.objects.bulk_create(
                models.StockMove(line=line, bag_id=bag.pk, mass_kg=str(mass_kg))
                for name, mass_kg in bag_moves_kg(event).items()
                if (bag := rows[models.Bag].get(name))
            )

    @writing
    def undo(self, key: int) -> None:
        """Mark an event as undone and give back what it really moved."""
        row = self._rows().filter(pk=key, removed_at=None).first()
        if row is None:
            raise Missing
        self._rows().filter(pk=key).update(removed_at=timezone.now(), version=F("version") + 1)
        for move in row.moves.select_related("bag"):
            _put_in_shed(move.bag, Fraction(move.bag.shed_kg) - Fraction(move.mass_kg))
        row.moves.all().delete()

    @writing
    def redo(self, key: int) -> Kept[Event]:
        """Write an undone event down again, against the stock as it is now."""
        row = self._rows().exclude(removed_at=None).filter(pk=key).first()
        if row is None:
            raise Missing
        self._rows().filter(pk=key).update(removed_at=None, version=F("version") + 1)
        self._move_stock(row, self._one(row).value)
        return self._one(row)

    def _rows(self) -> QuerySet[models.DiaryLine]:
        return models.DiaryLine.objects.filter(garden_id=self.garden)

    def _kept(self, rows: QuerySet[models.DiaryLine]) -> tuple[Kept[Event], ...]:
        told = rows.annotate(text=Cast("event", TextField())).values_list(*_SHOWN)
        return tuple(
            Kept(
                key=key,
                version=version,
                value=self.mapper.from_columns(kind, text, bed, bag or mix),
            )
            for key, version, kind, text, bed, bag, mix in told
        )

    def _one(self, row: models.DiaryLine) -> Kept[Event]:
        return self._kept(self._rows().filter(pk=row.pk))[0]

    def _pointers(self, event: Event) -> dict[str, models.InGarden | None]:
        """The rows an event names. A mix need not be a kept one; bags and beds must be known."""
        return {
            name: self._live(model).filter(name=called).first()
            if model is models.Mix
            else self._named(model, name, called)
            for name, model, called in _named_in(event)
        }

    def _named(self, model: type[models.InGarden], place: str, name: str) -> models.InGarden:
        row = self._live(model).filter(name=name).first()
        if row is None:
            raise Missing(place=place, read=name)
        return row

    def _live(self, model: type[models.InGarden]) -> QuerySet[models.InGarden]:
        return model._default_manager.filter(garden_id=self.garden, removed_at=None)

    def _move_stock(self, line: models.DiaryLine, event: Event) -> None:
        bags = bags_by_name(self.garden)
        shed_kg = {name: Fraction(bag.shed_kg) for name, bag in bags.items()}
        for name, after_kg in stock_after_kg(shed_kg, event).items():
            if name not in bags:
                raise Missing(place="bag", read=name)
            if moved_kg := after_kg - shed_kg[name]:
                _put_in_shed(bags[name], after_kg)
                line.moves.create(bag=bags[name], mass_kg=str(moved_kg))


def _named_in(event: Event) -> Iterator[tuple[str, type[models.InGarden], str]]:
    """What an event names: under which column, of which rows, by which name."""
    if isinstance(event, Fed | Harvested) or (isinstance(event, Noted) and event.bed):
        yield "bed", models.Bed, event.bed
    if isinstance(event, Bought):
        yield "bag", models.Bag, event.bag
    if isinstance(event, Fed) and event.straight:
        yield "bag", models.Bag, event.of
    elif isinstance(event, Fed | Made):
        yield "mix", models.Mix, event.of if isinstance(event, Fed) else event.mix


def _put_in_shed(bag: models.Bag, shed_kg: Fraction) -> None:
    """Set what lies in the shed; the words it was once typed in no longer hold."""
    typed = {key: text for key, text in bag.typed.items() if key != _IN_SHED}
    models.Bag.objects.filter(pk=bag.pk).update(
        shed_kg=str(max(Fraction(0), shed_kg)), typed=typed, version=F("version") + 1
    )
