"""Files of the garden are had, opened, looked at, and kept only when one says so."""

import json
from dataclasses import replace
from datetime import date
from io import BytesIO
from zipfile import ZipFile

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from python_calamine import CalamineWorkbook

from halfpail.application.gather_garden import gather_kept
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.shared_pieces import share_mix, share_plan
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.domain.diary import Noted
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.season import Feeding, SeasonPlan
from halfpail.wiring import services
from tests.properties.test_json_files import plan_of
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled

ON = date(2027, 5, 1)
KINDS = {
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "zip": "application/zip",
    "json": "application/json",
    "toml": "application/toml; charset=utf-8",
}


@pytest.fixture
def full(sample):
    """The sample garden with a mix, a plan and a line of the diary."""
    garden = sample.shelf.garden()
    sample.shelf.mixes.add(MixEntry(name="=Pail", scoops={garden.bags[0].name: 2}, note="mine"))
    sample.shelf.seasons.add(season(garden))
    sample.shelf.diary.record(Noted(on=ON, note="rain"))
    return sample


def season(garden) -> SeasonEntry:
    """A plan that says what it costs wrongly, as one from elsewhere may."""
    return SeasonEntry(
        name="Plan <b>", made_on=ON, plan=small_plan(garden), garden=garden, note="mine"
    )


def small_plan(garden) -> SeasonPlan:
    """One bag that may go alone, a little of it, bought for a sum that is not its price."""
    bag = next(bag.name for bag in garden.bags if bag.straight_ok)
    bed = next(bed.name for bed in garden.beds if bed.straight_ok)
    feeding = Feeding(plot=bed, of=bag, measures=1)
    return replace(plan_of(garden), stirs=(), feedings=(feeding,), purchases={})


def upload(browser, content: bytes):
    told = {"file": SimpleUploadedFile("any.json", content)}
    return browser.send("/garden/import", told)


def token_of(response) -> str:
    (box,) = read(response).all("input", name="token")
    return box.attributes["value"]


def keep(browser, content: bytes):
    """Look at a file and keep it, with a double tap."""
    token = token_of(upload(browser, content))
    first = browser.send("/garden/import/confirm", {"token": token})
    second = browser.send("/garden/import/confirm", {"token": token})
    assert (first.status_code, first["Location"]) == (303, second["Location"])
    return first


@pytest.mark.parametrize("ending", KINDS)
def test_every_kind_is_saved_and_never_shown(full, ending):
    response = full.client.get(f"/files/garden.{ending}")
    assert response.status_code == 200
    assert response["Content-Type"] == KINDS[ending]
    assert response["Content-Disposition"] == f'attachment; filename="garden.{ending}"'
    assert response["X-Content-Type-Options"] == "nosniff"
    assert full.client.post(f"/files/garden.{ending}").status_code in (403, 405)


def test_what_is_saved_is_what_is_kept(full):
    sheets = full.client.get("/files/garden.xlsx").content
    assert "Plan feedings" in CalamineWorkbook.from_filelike(BytesIO(sheets)).sheet_names
    assert b"'=Pail" in ZipFile(BytesIO(full.client.get("/files/garden.zip").content)).read(
        "mixes.csv"
    )
    whole = services().json_files.read(full.client.get("/files/garden.json").content)
    assert whole == gather_kept(full.store)


@pytest.mark.parametrize("address", ["/files/garden.exe", "/files/garden.", "/files/garden.JSON"])
def test_other_kinds_there_are_not(full, address):
    assert full.client.get(address).status_code == 404


def test_without_a_garden_only_the_way_in_is_offered(sender):
    page = sender.page("/files")
    assert "There is no garden here yet" in page.text
    assert not [one for one in page.all("a") if "/files/" in one.attributes["href"]]
    assert sender.client.get("/files/garden.json")["Location"] == "/garden"


def test_a_whole_garden_comes_back_by_its_json(full):
    data = full.client.get("/files/garden.json").content
    before = gather_kept(full.store)
    full.shelf.diary.record(Noted(on=ON, note="later"))
    response = upload(full, data)
    assert "1 mix" in read(response).text and "1 line of the diary" in read(response).text
    assert keep(full, data)["Location"] == "/bags"
    assert gather_kept(full.store) == before
    assert len(full.store.gardens.all()) == 1 and len(full.store.gardens.bin()) == 1


@pytest.mark.parametrize("garden", ["sender", "empty"])
def test_it_opens_on_another_machine(garden, request):
    browser = request.getfixturevalue(garden)
    entry = without_text(services().read_sample_garden())
    whole = WholeGarden(garden=entry, diary=(Noted(on=ON, note="=1+1"),))
    keep(browser, services().json_files.write(whole))
    assert gather_kept(browser.store) == whole


def test_links_to_hand_on_are_where_the_mix_and_the_plan_are(full):
    (mix,), (plan,) = full.shelf.mixes.all(), full.shelf.seasons.all()
    for address, link in (
        ("/files", f"/files/mixes/{mix.key}"),
        ("/files", f"/files/plans/{plan.key}"),
        ("/mixes", f"/files/mixes/{mix.key}"),
        (f"/season/{plan.key}", f"/files/plans/{plan.key}"),
    ):
        assert link in [one.attributes["href"] for one in full.page(address).all("a")]
        content = full.client.get(link).content
        assert b"mine" not in content
        assert full.shelf.garden().name.encode() not in content
    assert full.client.get("/files/mixes/99").status_code == 404


def test_the_calendar_is_that_of_the_plan_one_follows(full):
    (plan,) = full.shelf.seasons.all()
    address = f"/paper/plans/{plan.key}/season.ics"
    for climate, is_offered in (
        (WarmthQuestion(frost=FrostDates(last=date(2027, 5, 10), first=date(2027, 10, 1))), True),
        (WarmthQuestion(steady_c=20.0), False),
        (None, False),
    ):
        kept = full.shelf.seasons.get(plan.key)
        dated = replace(kept.value, garden=replace(kept.value.garden, climate=climate))
        full.shelf.seasons.change(plan.key, kept.version, dated)
        links = [one.attributes["href"] for one in full.page("/files").all("a")]
        assert (address in links) == is_offered


def test_a_mix_whose_bag_is_gone_is_not_offered(full):
    bag = full.shelf.bags.all()[0]
    full.shelf.bags.remove(bag.key, bag.version)
    page = full.page("/files")
    assert not [one for one in page.all("a") if "/files/mixes/" in one.attributes["href"]]


def test_a_mix_is_kept_with_the_bags_it_brings(full):
    garden = full.shelf.garden()
    blood = next(bag for bag in garden.bags if bag.name == "Blood meal")
    strange = replace(garden.bags[0], name="Odd meal")
    other = replace(garden.bags[1], name=garden.bags[0].name)
    theirs = replace(garden, bags=(blood, strange, other))
    mix = MixEntry(name="=pail", scoops={blood.name: 1, strange.name: 2, other.name: 3})
    data = services().json_files.write(share_mix(mix, theirs))
    text = read(upload(full, data)).text
    assert "in your garden" in text and "new to your garden" in text
    assert f"yours has another label, so it is called {other.name} (2)" in text
    assert "so this one is called =pail (2)" in text
    assert len(full.shelf.bags.all()) == len(garden.bags)
    keep(full, data)
    kept = full.shelf.mixes.all()[-1].value
    assert kept.name == "=pail (2)"
    assert kept.scoops == {blood.name: 1, strange.name: 2, f"{other.name} (2)": 3}
    assert len(full.shelf.bags.all()) == len(garden.bags) + 2
    assert len(full.shelf.mixes.all()) == 2
    assert full.page("/mixes")


def test_a_bag_weighed_by_another_scoop_is_weighed_by_ones_own(full):
    garden = full.shelf.garden()
    bag = replace(garden.bags[0], name="Odd meal")
    theirs = replace(
        garden, bags=(bag,), tools=replace(garden.tools, scoop_l=2 * garden.tools.scoop_l)
    )
    shared = share_mix(MixEntry(name="m", scoops={bag.name: 1}), theirs)
    keep(full, services().json_files.write(shared))
    assert full.shelf.bags.all()[-1].value.scoop_weighs_kg == bag.scoop_weighs_kg / 2


def test_labels_of_another_country_are_not_misread(full):
    shared = share_mix(MixEntry(name="m", scoops={"Blood meal": 1}), full.shelf.garden())
    shared = replace(shared, elemental_labels=True)
    page = read(upload(full, services().json_files.write(shared)))
    assert "misread" in page.text
    assert page.all("input", name="token") == []


def test_a_plan_is_kept_beside_ones_own_and_not_followed(full):
    data = services().json_files.write(share_plan(season(full.shelf.garden())))
    page = read(upload(full, data))
    assert "Plan <b>" in page.text and inline(page) == []
    response = keep(full, data)
    _, second = full.shelf.seasons.all()
    assert (second.value.name, second.value.chosen) == ("Plan <b> (2)", False)
    assert response["Location"] == f"/season/{second.key}"
    assert full.client.get(response["Location"]).status_code == 200


def test_without_a_garden_a_mix_can_be_looked_at(sender):
    garden = without_text(services().read_sample_garden())
    shared = share_mix(MixEntry(name="m", scoops={garden.bags[0].name: 1}), garden)
    page = read(upload(sender, services().json_files.write(shared)))
    assert "Start a garden first" in page.text and page.all("input", name="token") == []


def test_a_plan_that_breaks_a_limit_of_today_is_told(full):
    garden = full.shelf.garden()
    plan = small_plan(garden)
    too_much = replace(plan, feedings=tuple(replace(f, measures=90_000) for f in plan.feedings))
    shared = share_plan(replace(season(garden), plan=too_much))
    response = upload(full, services().json_files.write(shared))
    page = read(response)
    assert response.status_code == 422 and "may be given" in page.by_id("told").text
    assert page.all("input", name="token") == []


def test_a_broken_file_is_told_and_nothing_is_kept(full):
    before = gather_kept(full.store)
    whole = json.loads(full.client.get("/files/garden.json").content)
    whole["garden"]["bags"][1]["price"] = "twelve"
    for content in (json.dumps(whole).encode(), b'{"halfpail": "garden", "version": 9}', b"{"):
        response = upload(full, content)
        assert response.status_code == 422
        page = read(response)
        assert page.title.startswith("Error: ") and len(page.by_id("told").text) > 60
    assert gather_kept(full.store) == before


def test_the_page_is_whole(full):
    page = full.page("/files")
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []
