"""The chalked sum: scoops in the address, every number of the mix on the page."""

from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse

from halfpail.application.sum_mix import sum_mix
from halfpail.web.find_bench import bench_of
from halfpail.web.forms.mix import MixForm
from halfpail.web.middleware import GardenRequest
from halfpail.web.pages.mixes import mix_page

UNPROCESSABLE = 422


def chalked_sum(request: GardenRequest) -> HttpResponse:
    """The sum of the scoops, and what one scoop more or less would do."""
    bench = bench_of(request)
    if bench is None:
        return HttpResponseRedirect(f"{reverse('first')}?{request.GET.urlencode()}")
    form = MixForm(request.GET, bench, request.look)
    question = form.question()
    page = mix_page(form, sum_mix(question) if question else None, question)
    refused = form.faulty and not request.htmx
    return render(
        request, "halfpail/mixes.html", {"page": page}, status=UNPROCESSABLE if refused else 200
    )
