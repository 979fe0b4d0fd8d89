"""The garden as files to save, and mixes and plans to hand on."""

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from halfpail.application.export_garden import ExportKind, export_garden
from halfpail.application.gather_garden import gather_garden
from halfpail.application.shared_pieces import SharedMix, SharedPlan, share_mix, share_plan
from halfpail.web.clock import today
from halfpail.web.downloads import download
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.files import files_page


@require_safe
def files(request: GardenRequest) -> HttpResponse:
    """Every file that can be had, and the ways in."""
    return render(request, "halfpail/files.html", {"page": files_page(request.home)})


@require_safe
@at_home
def garden_as(request: GardenRequest, ending: str) -> HttpResponse:
    """The whole garden as a file of one kind."""
    assert request.home
    if ending not in tuple(ExportKind):
        raise Http404
    whole = gather_garden(request.home.kept.value, request.home.shelf)
    content = export_garden(request.services, whole, ExportKind(ending), today())
    return download(content, f"garden.{ending}")


@require_safe
@at_home
def mix(request: GardenRequest, key: int) -> HttpResponse:
    """A kept mix to hand on."""
    assert request.home
    kept = request.home.shelf.mixes.get(key)
    return _handed_on(request, share_mix(kept.value, request.home.shelf.garden()), "mix")


@require_safe
@at_home
def plan(request: GardenRequest, key: int) -> HttpResponse:
    """A kept plan to hand on."""
    assert request.home
    kept = request.home.shelf.seasons.get(key)
    return _handed_on(request, share_plan(kept.value), "plan")


def _handed_on(request: GardenRequest, piece: SharedMix | SharedPlan, name: str) -> HttpResponse:
    return download(request.services.json_files.write(piece), f"{name}.json")
