"""Finding a recipe: a wish in the address, named choices on the page."""

from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse

from halfpail.application.recipe_answer import NoRecipe
from halfpail.findings import Refusal
from halfpail.web.bench import Bench
from halfpail.web.find_bench import bench_of
from halfpail.web.forms.fields import said
from halfpail.web.forms.recipe import RecipeForm
from halfpail.web.home import GardenRequest
from halfpail.web.long_recipes import long_recipes
from halfpail.web.pages.recipe import RecipePage, found_sheet, none_sheet

UNPROCESSABLE = 422
ASKED = ("purpose", "grade", "ratio", "within", "scoops", "bags")


def find(request: GardenRequest) -> HttpResponse:
    """The form, and below it the recipes for a wish, or why there is none."""
    bench = bench_of(request)
    if bench is None:
        return HttpResponseRedirect(f"{reverse('first')}?{request.GET.urlencode()}")
    form = RecipeForm(request.GET if set(ASKED) & set(request.GET) else None, bench)
    page = _page(request, form, bench)
    status = UNPROCESSABLE if form.faulty else 200
    return render(request, "halfpail/recipe.html", {"page": page}, status=status)


def _page(request: GardenRequest, form: RecipeForm, bench: Bench) -> RecipePage:
    if not form.is_valid():
        return RecipePage(bench=bench, form=form)
    try:
        answer = long_recipes.ask(form.wish(), request.services)
    except Refusal as refusal:
        form.add_error("purpose", [said(fault) for fault in refusal.faults])
        return RecipePage(bench=bench, form=form)
    if isinstance(answer, int):
        return RecipePage(bench=bench, form=form, tried=f"{answer:,}")
    if isinstance(answer, NoRecipe):
        return RecipePage(bench=bench, form=form, none=none_sheet(answer, bench, request.look))
    return RecipePage(bench=bench, form=form, found=found_sheet(answer, bench, request.look))
