"""What is said when a page cannot be given: in one sentence, without a trace."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string

from halfpail.application.store_trouble import Conflict, DiskFull, Missing, NameTaken, StoreTrouble

BAD_REQUEST, FORBIDDEN, NOT_FOUND, CONFLICT, BROKEN, UNAVAILABLE = 400, 403, 404, 409, 500, 503
_STATUS: dict[type[StoreTrouble], int] = {
    Missing: NOT_FOUND,
    Conflict: CONFLICT,
    NameTaken: CONFLICT,
    DiskFull: 507,
}


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """The request makes no sense, or came under another machine's name."""
    return _said(BAD_REQUEST, "This cannot be answered", "Open Halfpail by its own address.")


def refused(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Another site's page asked for a change."""
    sentence = "Another page asked for this change. Nothing was changed."
    return _said(FORBIDDEN, "Refused", sentence)


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """The form has no token, or an old one."""
    sentence = "This form was too old. Nothing was changed; go back, load the page, send it again."
    return _said(FORBIDDEN, "Send it again", sentence)


def not_found(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """There is no such page."""
    return _said(NOT_FOUND, "There is no such page", "The address may be mistyped or old.")


def troubled(trouble: StoreTrouble) -> HttpResponse:
    """The store cannot do that now; what it holds is as it was."""
    (fault,) = trouble.faults
    return _said(
        _STATUS.get(type(trouble), UNAVAILABLE), "Not kept", f"{fault.sentence} {fault.remedy}"
    )


def broken(request: HttpRequest) -> HttpResponse:
    """A bug of ours."""
    sentence = "This is a bug in Halfpail, not a mistake of yours. The terminal shows where."
    return _said(BROKEN, "Something broke", sentence)


def _said(status: int, title: str, sentence: str) -> HttpResponse:
    """A page that asks for nothing: it must hold when nothing else does."""
    said: dict[str, Any] = {"title": title, "sentence": sentence}
    return HttpResponse(render_to_string("halfpail/fault.html", said), status=status)
