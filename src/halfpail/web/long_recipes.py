"""Searches for a recipe that take longer than a page may: begun beside it, found when asked again.

Each wish is worked out once and kept while it is among the latest; a server that ends forgets them,
and the page that asks again begins anew.
"""

from concurrent.futures import Future, ThreadPoolExecutor
from threading import Lock

from halfpail.application.find_recipe import find_recipe, recipes_to_try
from halfpail.application.recipe_answer import NoRecipe, RecipeAnswer
from halfpail.domain.recipe import RecipeWish
from halfpail.wiring import Services

AT_ONCE = 1_500_000
"""Recipes that are tried before the page is sent: about a tenth of a second."""
MOST_KEPT = 16

Found = RecipeAnswer | NoRecipe


class LongRecipes:
    """The latest searches, one worked on at a time."""

    def __init__(self) -> None:
        self.workers = ThreadPoolExecutor(max_workers=1, thread_name_prefix="recipe")
        self.lock = Lock()
        self.begun: list[tuple[RecipeWish, Future[Found]]] = []

    def ask(self, wish: RecipeWish, bench: Services) -> Found | int:
        """The answer, or how many recipes are being tried for it.

        Raises:
            Refusal: the wish contradicts itself, or leaves no bag.
        """
        many = recipes_to_try(wish, bench.search)
        if many <= AT_ONCE:
            return find_recipe(wish, bench.search)
        found = self._begun(wish, bench)
        return found.result() if found.done() else many

    def _begun(self, wish: RecipeWish, bench: Services) -> "Future[Found]":
        """The search for a wish, begun if it was not; those asked for long ago are dropped."""
        with self.lock:
            same = next((found for asked, found in self.begun if asked == wish), None)
            found = same or self.workers.submit(find_recipe, wish, bench.search)
            self.begun = [one for one in self.begun if one[1] is not found]
            self.begun.append((wish, found))
            for _, old in self.begun[:-MOST_KEPT]:
                old.cancel()
            self.begun = self.begun[-MOST_KEPT:]
        return found


long_recipes = LongRecipes()
