"""All that is kept of a garden comes back from a JSON file, and from the store, as it was."""

from hypothesis import HealthCheck, given, settings

from halfpail.application.gather_garden import gather_garden
from halfpail.application.shared_pieces import SharedMix, SharedPlan, share_mix, share_plan
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.garden_json.files import GardenJson
from halfpail.storage.plain_data import to_plain
from halfpail.wiring import services
from tests.properties.whole_gardens import whole_gardens

FILES = GardenJson()


@given(whole_gardens())
@settings(max_examples=200)
def test_json_reads_back(whole):
    data = FILES.write(whole)
    again = FILES.read(data)
    assert again == whole
    # Orders and words that an equality does not look at.
    assert to_plain(again) == to_plain(whole)
    assert list(map(repr, again.mixes)) == list(map(repr, whole.mixes))
    assert FILES.write(again) == data


@given(whole_gardens())
@settings(max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_store_gives_the_whole_garden_back(tmp_path_factory, whole):
    store = services().open_store(tmp_path_factory.getbasetemp() / "whole")
    key = store.put_in_whole(whole)
    assert gather_garden(store.gardens.get(key).value, store.shelf(key)) == whole


@given(whole_gardens())
@settings(max_examples=40)
def test_what_is_handed_on_reads_back(whole):
    for mix in whole.mixes:
        shared = share_mix(mix, whole.garden)
        assert isinstance(shared, SharedMix)
        assert FILES.read(FILES.write(shared)) == shared
    for season in whole.seasons:
        plan = share_plan(season)
        assert isinstance(plan, SharedPlan)
        assert FILES.read(FILES.write(plan)) == plan


def test_the_sample_garden_keeps_its_words_in_json():
    whole = WholeGarden(garden=without_text(services().read_sample_garden()))
    again = FILES.read(FILES.write(whole))
    assert to_plain(again) == to_plain(whole)
    assert again.garden.bags[0].typed["weight"] == "25 lb"
