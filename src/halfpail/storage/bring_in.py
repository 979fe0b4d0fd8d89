"""What a file brings, kept whole or not at all, and taken back as long as nobody changed it since.

What was brought is remembered under the token of the import, in a row of its own, so that a double
tap brings nothing twice and one button takes all of it back, also after days.
"""

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any, TypeVar

from django.db.models import QuerySet

from halfpail.application.brought_in import BagTrace, BedTrace, Brought, Change, Changes
from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.application.store_trouble import Missing, NameTaken
from halfpail.storage import models
from halfpail.storage.diary_book import RowDiary
from halfpail.storage.drawers import RowDrawer
from halfpail.storage.plain_data import from_plain, to_plain
from halfpail.storage.work import reading, writing

T = TypeVar("T", BagEntry, BedEntry)
_TOLD = "told"
# How many imports can be taken back; the oldest are forgotten.
MOST_REMEMBERED = 20


class RowImports:
    """The imports of one garden."""

    def __init__(
        self, bags: RowDrawer[BagEntry], beds: RowDrawer[BedEntry], diary: RowDiary
    ) -> None:
        self.bags = bags
        self.beds = beds
        self.diary = diary

    @reading
    def get(self, token: str) -> Brought | None:
        """What was brought under a token; None where nothing was."""
        row = self._rows().filter(form=self._form(token)).first()
        return _brought(row) if row else None

    @reading
    def latest(self) -> tuple[Brought, ...]:
        """What was brought lately, the newest first."""
        return tuple(map(_brought, self._rows().order_by("-pk")))

    @writing
    def bring(self, changes: Changes, token: str, file: str = "") -> Brought:
        """Keep everything; a token that came before answers what it brought then."""
        if before := self.get(token):
            return before
        brought = Brought(
            file=file,
            token=token,
            bags=tuple(BagTrace(**_kept(self.bags, one)) for one in changes.bags),
            beds=tuple(BedTrace(**_kept(self.beds, one)) for one in changes.beds),
            lines=self._written(changes),
        )
        self._remember(token, brought)
        forgotten = self._rows().order_by("-pk").values_list("pk", flat=True)[MOST_REMEMBERED:]
        models.Draft.objects.filter(pk__in=list(forgotten)).delete()
        return brought

    @writing
    def take_back(self, token: str) -> Brought:
        """Put everything back as it was; what was changed since stays, and is named."""
        brought = self.get(token)
        if brought is None:
            raise Missing
        if brought.taken_back:
            return brought
        lines = self._lines().filter(pk__in=brought.lines, removed_at=None)
        models.StockMove.objects.filter(line__in=lines).delete()
        for key in lines.values_list("pk", flat=True):
            self.diary.undo(key)
        beds = ((one.key, one.version, one.before) for one in brought.beds)
        bags = ((one.key, one.version, one.before) for one in brought.bags)
        left = (*_back(self.beds, beds), *_back(self.bags, bags))
        done = replace(brought, taken_back=True, left=left)
        self._remember(token, done)
        return done

    def _written(self, changes: Changes) -> tuple[int, ...]:
        """The keys of the lines; the shed stays as it is, for the lines tell of the past."""
        if not changes.events:
            return ()
        last = self._lines().order_by("-pk").values_list("pk", flat=True).first() or 0
        self.diary.bring_in(changes.events)
        return tuple(self._lines().filter(pk__gt=last).values_list("pk", flat=True))

    def _lines(self) -> QuerySet[models.DiaryLine]:
        return models.DiaryLine.objects.filter(garden_id=self.diary.garden)

    def _rows(self) -> QuerySet[models.Draft]:
        return models.Draft.objects.filter(form__startswith=self._form(""))

    def _form(self, token: str) -> str:
        return f"brought in {self.diary.garden} {token}"

    def _remember(self, token: str, brought: Brought) -> None:
        told = json.dumps(to_plain(brought))
        models.Draft.objects.update_or_create(
            form=self._form(token), defaults={"fields": {_TOLD: told}}
        )


def _brought(row: models.Draft) -> Brought:
    return from_plain(Brought, json.loads(row.fields[_TOLD]))


def _kept(drawer: RowDrawer[T], change: Change[T]) -> dict[str, Any]:
    """Keep one value, if the version that was seen still stands there; the trace of it."""
    if change.seen is None:
        kept = drawer.add(change.value)
        return {"key": kept.key, "version": kept.version}
    seen = change.seen
    kept = drawer.change(seen.key, seen.version, change.value)
    return {"key": kept.key, "version": kept.version, "before": seen.value}


def _back(drawer: RowDrawer[T], traces: Iterable[tuple[int, int, T | None]]) -> Iterator[str]:
    """Put the values back that stood there; answers the names of those changed since."""
    for key, version, before in traces:
        try:
            now = drawer.get(key)
        except Missing:
            continue
        if now.version != version:
            yield now.value.name
        elif before is None:
            drawer.remove(key, version)
        else:
            try:
                drawer.change(key, version, before)
            except NameTaken:
                yield now.value.name
