"""How often the store is asked for a page does not depend on how much lies in it."""

from dataclasses import replace

from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.application.kept import MixEntry
from halfpail.domain.diary import Noted
from halfpail.web.clock import today
from tests.web.asking import mix

MORE, MOST = 12, 12
PAGES = (
    *("/", "/next", "/bags", "/bags/1", "/beds", "/beds/1", "/mixes", mix(Blood_meal=1)),
    *("/mixes/recipe", "/season", "/diary", "/diary/write/feeding", "/diary/write/batch"),
    *("/paper", "/files", "/spreadsheet", "/garden/import", "/settings", "/sources"),
)


def test_queries_do_not_grow_with_rows(sample):
    def queries() -> dict[str, int]:
        counts = {}
        for page in PAGES:
            sample.page(page)
            with CaptureQueriesContext(connection) as caught:
                sample.page(page)
            counts[page] = len(caught)
        return counts

    bag, bed = (drawer.get(1).value for drawer in (sample.shelf.bags, sample.shelf.beds))
    sample.shelf.mixes.add(MixEntry(name="Pail", scoops={bag.name: 1}))
    sample.shelf.diary.record(Noted(on=today(), note="Rain."))
    before = queries()
    for number in range(MORE):
        sample.shelf.bags.add(replace(bag, name=f"More {number}"))
        sample.shelf.beds.add(replace(bed, name=f"More {number}"))
        sample.shelf.mixes.add(MixEntry(name=f"Pail {number}", scoops={f"More {number}": 1}))
        sample.shelf.diary.record(Noted(on=today(), note="Rain.", bed=f"More {number}"))
    assert queries() == before
    assert max(before.values()) <= MOST, before
