"""The chalked sum as a page: scoops in rows, taps without a script, one more scoop of each."""

from urllib.parse import quote_plus

import pytest

from halfpail.web.find_bench import sample_bench
from tests.web.asking import BLOOD, STARTER, first, mix
from tests.web.reading_pages import read

BAGS = [bag.key for bag in sample_bench().bags]
BLOOD_ROW = BAGS.index("Blood meal") + 1

TWO = mix(Blood_meal=2, Bone_meal=1)


def scoops(page) -> dict[str, str]:
    boxes = [one for one in page.all("input") if one.attributes["name"].startswith("scoops of")]
    return {one.attributes["name"][10:]: one.attributes["value"] for one in boxes}


def test_without_a_scoop_every_bag_of_the_sample_is_offered(client):
    page = read(client.get("/mixes"))
    assert "No bag has a scoop yet" in page.text
    assert "sample garden, which is invented" in page.text
    assert len(page.all("button", name="more")) == len(BAGS)
    assert "Ground limestone" not in page.text  # the sample keeps it out of the pail


def test_the_sum_is_chalked_row_by_row(client):
    """20.32 oz of 12-0-0 and 14.70 oz of 3-15-0 by hand: 287.94 / 35.02 = 8.2."""
    page = read(client.get(TWO + "&wish=5-3-3"))
    assert page.by_id(f"sum-{BLOOD_ROW}-1").text == "20.32"
    assert page.by_id(f"sum-{BLOOD_ROW}-2").text == "20.32 x 12 = 243.84"
    foot = page.by_id("sum-foot").text.split()
    assert foot[:3] == ["total", "3", "35.02"]
    assert "8.2" in foot and "6.2" in foot
    assert foot[-4:] == ["wish", "5", "3", "3"]


def test_a_tap_is_a_button_that_works_alone(client):
    more = read(client.get(f"{TWO}&more=Blood+meal"))
    less = read(client.get(f"{TWO}&less=Bone+meal"))
    assert scoops(more) == {"Blood meal": "3", "Bone meal": "1"}
    assert scoops(less) == {"Blood meal": "2", "Bone meal": "0"}
    assert "12-0-0 by weight" in less.text


def test_a_tap_loaded_twice_counts_once(client):
    address = f"{TWO}&more=Blood+meal"
    assert scoops(read(client.get(address))) == scoops(read(client.get(address)))


@pytest.mark.parametrize(
    ("typed", "step", "left"), [("0", "less", "0"), ("200", "more", "200"), ("", "more", "1")]
)
def test_a_tap_stays_in_its_range(client, typed, step, left):
    page = read(client.get(f"{mix(Blood_meal=typed)}&{step}=Blood+meal"))
    assert scoops(page)["Blood meal"] == left


def test_a_scoop_of_another_bag_gets_a_row(client):
    page = read(client.get(f"{TWO}&more={quote_plus('Sulfate of potash')}"))
    assert scoops(page)["Sulfate of potash"] == "1"


def test_each_bag_is_offered_once_more_with_what_it_would_do(client):
    page = read(client.get(TWO))
    words = [one.text for one in page.all("button") if one.text.startswith("one scoop")]
    assert len([one for one in words if "more" in one]) == len(BAGS)
    assert [one for one in words if "less" in one] == [
        "one scoop less of Blood meal",
        "one scoop less of Bone meal",
    ]


def test_notices_are_of_the_bags_in_the_mix(client):
    text = read(client.get(TWO)).by_id("mind").text
    assert "Dogs and cats" in text
    assert "Bulb and root blend" not in text
    assert (
        "Bulb and root blend: a usual weight"
        in read(client.get(mix(Bulb_and_root_blend=1))).by_id("mind").text
    )


def test_a_bag_that_is_not_there_is_left_aside(client):
    page = read(client.get(mix(Blood_meal=1, Unicorn_dust=5) + "&more=Unicorn+dust"))
    assert scoops(page) == {"Blood meal": "1"}


def test_typed_bags_take_the_place_of_the_sample(client):
    page = read(client.get("/mixes" + first(STARTER, BLOOD)[1:]))
    assert scoops(page) == {"3-4-4": "2", "blood meal": "1"}
    assert "invented" not in page.text


def test_typed_bags_come_along_with_every_tap(client):
    page = read(client.get("/mixes" + first(STARTER, BLOOD)[1:] + "&more=blood+meal"))
    hidden = {one.attributes["name"] for one in page.all("input", type="hidden")}
    assert {"1-grade", "1-price", "2-name", "units"} <= hidden
    assert scoops(page)["blood meal"] == "2"


def test_bags_that_cannot_be_read_are_mended_on_the_first_page(client):
    response = client.get("/mixes" + first({"grade": "nonsense"})[1:])
    assert response.status_code == 302
    assert "1-grade=nonsense" in response["Location"]


def test_what_follows_a_tap_is_on_the_page(client):
    page = read(client.get(TWO))
    (form,) = [one for one in page.all("form") if "hx-get" in one.attributes]
    ids = {one.attributes.get("id") for one in page.elements}
    live = {part[1:].partition(":")[0] for part in form.attributes["hx-select-oob"].split(",")}
    assert len(live) > 15 and live <= ids


def test_enter_works_the_sum_out_and_taps_nothing(client):
    """The first button of a form is what Enter presses."""
    page = read(client.get(TWO))
    inside = page.elements[page.elements.index(page.all("form")[0]) :]
    first_button = next(one for one in inside if one.tag == "button")
    assert "name" not in first_button.attributes
