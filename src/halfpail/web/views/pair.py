"""Letting a device of the home network in."""

from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from halfpail.web.home import GardenRequest
from halfpail.web.pairing import COOKIE, Answer, pairing_of

SEE_OTHER, FORBIDDEN, UNPROCESSABLE = 303, 403, 422
WRONG = "That is not the code. Type the eight digits that the terminal shows now."


@require_http_methods(["GET", "HEAD", "POST"])
def pair(request: GardenRequest) -> HttpResponse:
    """Ask for the code; whoever has it gets a cookie that holds until the server ends."""
    pairing = pairing_of(request)
    if pairing is None or pairing.knows(request):
        return redirect("first")
    if request.method != "POST":
        # A code that comes with the address waits for a press of the button.
        return _asked(request, code=request.GET.get("code", ""), closed=pairing.is_closed)
    typed = request.POST.get("code", "")
    answer = pairing.attempt(typed)
    if answer is not Answer.RIGHT:
        return _asked(request, code=typed, closed=answer is Answer.CLOSED, error=WRONG)
    response = HttpResponseRedirect(reverse("first"), status=SEE_OTHER)
    response.set_cookie(COOKIE, pairing.cookie(), httponly=True, samesite="Lax")
    return response


def _asked(request: GardenRequest, *, code: str, closed: bool, error: str = "") -> HttpResponse:
    status = FORBIDDEN if closed else UNPROCESSABLE if error else 200
    shown = {"code": code[:40], "closed": closed, "error": "" if closed else error}
    return render(request, "halfpail/pair.html", shown, status=status)
