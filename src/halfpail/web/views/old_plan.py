"""A kept plan that no longer does: said on a page of its own, instead of the plan."""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec

from django.http import HttpResponse
from django.shortcuts import render

from halfpail.web.home import GardenRequest
from halfpail.web.told_season import NoLonger

P = ParamSpec("P")


def while_it_does(
    view: Callable[Concatenate[GardenRequest, P], HttpResponse],
) -> Callable[Concatenate[GardenRequest, P], HttpResponse]:
    """A view of a kept plan; where the plan breaks a limit of today that is said instead."""

    @wraps(view)
    def answer(request: GardenRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        try:
            return view(request, *args, **kwargs)
        except NoLonger as broken:
            because = [fault.sentence for fault in broken.faults]
            return render(request, "halfpail/old_plan.html", {"because": because})

    return answer
