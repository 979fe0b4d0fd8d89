"""The page of sources: every publication, every mark."""

from halfpail.reference.bibliography import bibliography
from halfpail.sources import Mark
from tests.web.reading_pages import read


def test_every_publication_is_listed_once(client):
    page = read(client.get("/sources"))
    listed = [one for one in page.all("li") if one.attributes.get("id", "").startswith("source-")]
    assert len(listed) == len(bibliography())
    for source in bibliography().values():
        assert source.title in page.text.replace("“", '"') or source.key in page.text


def test_every_mark_is_explained(client):
    page = read(client.get("/sources"))
    assert [one.text for one in page.all("dt")] == [mark.value for mark in Mark]
