"""The pages in the order of the navigation, and what every page has around it."""

from typing import Any

from django.http import HttpRequest

from halfpail.quantities.units import System
from halfpail.web.look import Theme
from halfpail.web.pairing import pairing_of

# Address name and title: First answer, Next, Bags, Beds, Mixes, Season, Diary, Paper, Files,
# Sources, Settings.
PAGES = (
    ("first", "First answer"),
    ("next", "Next"),
    ("bags", "Bags"),
    ("beds", "Beds"),
    ("mixes", "Mixes"),
    ("season", "Season"),
    ("diary", "Diary"),
    ("paper", "Paper"),
    ("files", "Files"),
    ("sources", "Sources"),
    ("settings", "Settings"),
)


def around_the_page(request: HttpRequest) -> dict[str, Any]:
    """The navigation, the look, and the choices of look, for every template."""
    found = request.resolver_match
    return {
        "pages": PAGES,
        "here": "" if found is None else found.url_name,
        "from_home_network": pairing_of(request) is not None,
        "look": getattr(request, "look", None),
        "systems": tuple(System),
        "themes": tuple(Theme),
    }
