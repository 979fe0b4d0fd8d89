"""The table of contents: every address and the view that answers it."""

from django.urls import path

from halfpail.web import faults
from halfpail.web.views import first, look, mixes, recipe, sources

urlpatterns = [
    path("", first.answer, name="first"),
    path("mixes", mixes.chalked_sum, name="mixes"),
    path("mixes/recipe", recipe.find, name="recipe"),
    path("sources", sources.listed, name="sources"),
    path("look", look.change, name="look"),
]

handler400 = faults.bad_request
handler403 = faults.refused
handler404 = faults.not_found
handler500 = faults.broken
