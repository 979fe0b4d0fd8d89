"""Who says so: every publication, and what the marks mean."""

from django.http import HttpResponse
from django.shortcuts import render

from halfpail.web.home import GardenRequest
from halfpail.web.pages.sources import sources_page


def listed(request: GardenRequest) -> HttpResponse:
    """The bibliography with an anchor for each publication and each mark."""
    return render(request, "halfpail/sources.html", {"page": sources_page()})
