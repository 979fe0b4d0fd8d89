"""The table of contents: every address and the view that answers it."""

from django.urls import path

from halfpail.web import faults
from halfpail.web.views import (
    bags,
    beds,
    first,
    garden,
    garden_files,
    kept_season,
    look,
    mixes,
    recipe,
    season,
    settings,
    sources,
    to_do,
)

urlpatterns = [
    path("", first.answer, name="first"),
    path("keep", garden.keep_first, name="keep first"),
    path("next", to_do.upcoming, name="next"),
    path("next/date-again", to_do.date_again, name="date again"),
    path("garden", garden.begin, name="garden"),
    path("garden/start", garden.start, name="start garden"),
    path("garden/remove-sample", garden.remove_sample, name="remove sample"),
    path("bags", bags.listed, name="bags"),
    path("bags/new", bags.new, name="new bag"),
    path("bags/new/forget", bags.forget, name="forget new bag"),
    path("bags/<int:key>", bags.change, name="bag"),
    path("bags/<int:key>/remove", bags.remove, name="remove bag"),
    path("bags/<int:key>/put-back", bags.put_back, name="put back bag"),
    path("bags/<int:key>/forget", bags.forget, name="forget bag"),
    path("beds", beds.listed, name="beds"),
    path("beds/new", beds.new, name="new bed"),
    path("beds/new/forget", beds.forget, name="forget new bed"),
    path("beds/<int:key>", beds.change, name="bed"),
    path("beds/<int:key>/remove", beds.remove, name="remove bed"),
    path("beds/<int:key>/put-back", beds.put_back, name="put back bed"),
    path("beds/<int:key>/forget", beds.forget, name="forget bed"),
    path("mixes", mixes.chalked_sum, name="mixes"),
    path("mixes/keep", mixes.keep, name="keep mix"),
    path("mixes/<int:key>/remove", mixes.remove, name="remove mix"),
    path("mixes/<int:key>/put-back", mixes.put_back, name="put back mix"),
    path("mixes/recipe", recipe.find, name="recipe"),
    path("season", season.season, name="season"),
    path("season/plan", season.plan, name="plan season"),
    path("season/jobs/<int:key>/stop", season.stop, name="stop season"),
    path("season/jobs/<int:key>/again", season.again, name="again season"),
    path("season/jobs/<int:key>/keep", season.keep, name="keep season"),
    path("season/compare", kept_season.compare, name="compare seasons"),
    path("season/<int:key>", kept_season.kept, name="kept season"),
    path("season/<int:key>/follow", kept_season.follow, name="follow season"),
    path("season/<int:key>/remove", kept_season.remove, name="remove season"),
    path("season/<int:key>/put-back", kept_season.put_back, name="put back season"),
    path("settings", settings.change, name="settings"),
    path("settings/<int:key>", settings.change, name="setting"),
    path("settings/<int:key>/forget", settings.forget, name="forget setting"),
    path("settings/backup", settings.back_up, name="back up"),
    path("settings/restore", settings.restore, name="restore"),
    path("settings/gardens/<int:key>/put-back", settings.put_back, name="put back garden"),
    path("settings/garden.toml", garden_files.write, name="garden file"),
    path("garden/import", garden_files.bring_in, name="import"),
    path("garden/import/confirm", garden_files.confirm, name="confirm import"),
    path("sources", sources.listed, name="sources"),
    path("look", look.change, name="look"),
]

handler400 = faults.bad_request
handler403 = faults.refused
handler404 = faults.not_found
handler500 = faults.broken
