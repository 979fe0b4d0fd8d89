"""The garden that pages work on: its settings, its shelf, and the store both lie in."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import wraps
from typing import Concatenate, ParamSpec

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django_htmx.middleware import HtmxDetails

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import GardenSettings, Kept
from halfpail.application.shelf_ports import Shelf, Store
from halfpail.quantities.units import System
from halfpail.web.look import Look, look_of
from halfpail.wiring import Services

P = ParamSpec("P")


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """One garden; of several the one that came last."""

    kept: Kept[GardenSettings]
    shelf: Shelf
    store: Store

    @property
    def about(self) -> GardenEntry:
        """The garden without its bags and beds."""
        return self.kept.value.about

    @property
    def is_sample(self) -> bool:
        """Whether it is the sample, which is invented."""
        return self.kept.value.is_sample

    def put_aside(self) -> None:
        """Move the garden to the bin with all that is in it."""
        self.store.gardens.remove(self.kept.key, self.kept.version)


class GardenRequest(HttpRequest):
    """A request that knows the services, its garden, how its pages should look, and who asks."""

    services: Services
    home: Home | None
    look: Look
    htmx: HtmxDetails


def find_home(store: Store | None) -> Home | None:
    """The garden of a store; None where there is none yet."""
    gardens = store.gardens.all() if store else ()
    if store is None or not gardens:
        return None
    return Home(kept=gardens[-1], shelf=store.shelf(gardens[-1].key), store=store)


def look_at_home(request: HttpRequest, home: Home | None) -> Look:
    """What the browser asks for; what it leaves open, and the money, are the garden's own."""
    look = look_of(request)
    if home is None:
        return look
    liked = home.about.preferences
    chosen = request.COOKIES.get("units", "") in tuple(System)
    system = look.system if chosen else liked.units
    return replace(look, system=system, currency=liked.currency)


def at_home(
    view: Callable[Concatenate[GardenRequest, P], HttpResponse],
) -> Callable[Concatenate[GardenRequest, P], HttpResponse]:
    """A view that needs a garden; where there is none one is offered first."""

    @wraps(view)
    def answer(request: GardenRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if request.home is None:
            return redirect("garden")
        return view(request, *args, **kwargs)

    return answer
