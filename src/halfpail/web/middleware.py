"""What every request passes: who it is for, where it comes from, and what travels with it."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django_htmx.middleware import HtmxDetails

from halfpail.web.faults import refused
from halfpail.web.look import Look, look_of
from halfpail.wiring import Services, services

SAFE = {"GET", "HEAD", "OPTIONS"}
OUR_OWN = {"same-origin", "none"}

Answer = Callable[[HttpRequest], HttpResponse]


class GardenRequest(HttpRequest):
    """A request that knows the services, how its browser wants its pages, and who asks."""

    services: Services
    look: Look
    htmx: HtmxDetails


def equip(get_response: Answer) -> Answer:
    """Hang the services and the look on the request."""

    def answer(request: HttpRequest) -> HttpResponse:
        request.services = services()  # type: ignore[attr-defined]  # see GardenRequest
        request.look = look_of(request)  # type: ignore[attr-defined]  # see GardenRequest
        return get_response(request)

    return answer


def check_host(get_response: Answer) -> Answer:
    """Refuse a name that is not this machine's own before anything is looked up."""

    def answer(request: HttpRequest) -> HttpResponse:
        request.get_host()
        return get_response(request)

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
