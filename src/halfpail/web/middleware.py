"""What every request passes: who it is for, where it comes from, and what travels with it."""

from collections.abc import Callable
from typing import cast

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse

from halfpail.application.store_trouble import StoreTrouble
from halfpail.web.faults import refused, troubled
from halfpail.web.home import GardenRequest, find_home, look_at_home
from halfpail.web.pairing import pairing_of
from halfpail.wiring import services

SAFE = {"GET", "HEAD", "OPTIONS"}
SEE_OTHER = 303
OUR_OWN = {"same-origin", "none"}

Answer = Callable[[HttpRequest], HttpResponse]


class Equip:
    """Hang the services, the garden and the look on the request; tell trouble with the store."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer the request, equipped."""
        asked = cast(GardenRequest, request)
        asked.services = services()
        try:
            asked.home = find_home(asked.services.store)
        except StoreTrouble as trouble:
            return troubled(trouble)
        asked.look = look_at_home(request, asked.home)
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """What is said where a view could not do its work with the store."""
        return troubled(exception) if isinstance(exception, StoreTrouble) else None


def check_host(get_response: Answer) -> Answer:
    """Refuse a name that is not this machine's own before anything is looked up."""

    def answer(request: HttpRequest) -> HttpResponse:
        request.get_host()
        return get_response(request)

    return answer


def ask_for_code(get_response: Answer) -> Answer:
    """Show a device of the home network nothing of the garden before it was let in."""

    def answer(request: HttpRequest) -> HttpResponse:
        pairing = pairing_of(request)
        asking = reverse("pair")
        if pairing is None or request.path == asking or pairing.knows(request):
            return get_response(request)
        return HttpResponseRedirect(asking, status=SEE_OTHER)

    return answer


def refuse_other_sites(get_response: Answer) -> Answer:
    """Refuse a change that another site's page asks for; tokens are checked besides."""

    def answer(request: HttpRequest) -> HttpResponse:
        if request.method in SAFE or _from_us(request):
            return get_response(request)
        return refused(request)

    return answer


def _from_us(request: HttpRequest) -> bool:
    """By what the browser says of the asking page; a program that says nothing may ask."""
    fetched_from = request.headers.get("Sec-Fetch-Site")
    if fetched_from is not None:
        return fetched_from in OUR_OWN
    origin = request.headers.get("Origin")
    if origin is None:
        return True
    return origin.casefold() == f"{request.scheme}://{request.get_host()}".casefold()


def more_headers(get_response: Answer) -> Answer:
    """Headers that Django has no setting for."""

    def answer(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        response.setdefault("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
        response.setdefault("Cache-Control", "no-cache")
        return response

    return answer
