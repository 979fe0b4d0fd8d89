"""Changing units, money and the light or dark face."""

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from halfpail.web.forms.look import LookForm
from halfpail.web.look import A_YEAR_SECONDS

SEE_OTHER = 303


@require_POST
def change(request: HttpRequest) -> HttpResponse:
    """Keep what was chosen, and go back to the page it was chosen on."""
    form = LookForm(request.POST)
    response = HttpResponseRedirect(_back(request), status=SEE_OTHER)
    if form.is_valid():
        for name, value in form.cleaned_data.items():
            if value:
                response.set_cookie(
                    name, value, max_age=A_YEAR_SECONDS, samesite="Lax", httponly=True
                )
    return response


def _back(request: HttpRequest) -> str:
    """The page the form stood on, where it is one of ours."""
    asked = request.POST.get("next", "")
    ours = url_has_allowed_host_and_scheme(asked, allowed_hosts=None)
    return asked if ours and asked.startswith("/") else reverse("first")
