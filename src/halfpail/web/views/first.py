"""The first answer: a question in the address, so that it can be kept and sent on."""

from django.http import HttpResponse
from django.shortcuts import render

from halfpail.application.answer_first import answer_first
from halfpail.web.forms.first import FirstForm
from halfpail.web.home import GardenRequest
from halfpail.web.pages.first import FirstPage, first_sheet
from halfpail.web.start_garden import has_room

UNPROCESSABLE = 422


def answer(request: GardenRequest) -> HttpResponse:
    """The form, and below it the answer once it can be given."""
    form = FirstForm(request.GET, request.look)
    asked = form.asked()
    sheet = first_sheet(answer_first(asked.question), asked) if asked else None
    waiting = bool(request.htmx) and form.be_patient()
    can_keep = has_room(request)
    page = FirstPage(form=form, sheet=sheet, waiting=waiting, can_keep=can_keep)
    refused = page.faulty and not request.htmx
    return render(
        request, "halfpail/first.html", {"page": page}, status=UNPROCESSABLE if refused else 200
    )
