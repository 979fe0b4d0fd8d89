"""What the page of found recipes shows: named choices, other bags, or what is in the way."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.chalk_sum import ChalkedSum
from halfpail.application.explain_recipe import recipe_working, wish_words
from halfpail.application.recipe_answer import Choice, NoRecipe, RecipeAnswer
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.application.word_recipe import (
    choices_table,
    named_choices,
    nearest_words,
    repair_words,
    thinned,
)
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.recipe import GradeTarget, RecipeWish
from halfpail.findings import Notice, loudest_first
from halfpail.quantities.rounding import shortest
from halfpail.web.bench import Bench
from halfpail.web.forms.recipe import RecipeForm
from halfpail.web.look import Look
from halfpail.working import Working

MOST_OF_CURVE = 12
NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceRow:
    """A recipe in words, and where its sum is chalked."""

    name: str
    cells: tuple[str, ...]
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceTable:
    """Recipes beside each other."""

    headings: tuple[str, ...]
    rows: tuple[ChoiceRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSheet:
    """The recipes found, the best one chalked."""

    wished: str
    proven: str
    chalked: ChalkedSum
    address: str
    named: ChoiceTable
    others: ChoiceTable | None
    curve: ChoiceTable | None
    notices: tuple[Notice, ...]
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class NoneSheet:
    """Why there is no recipe, and what would help, each with where its sum is chalked."""

    proven: str
    in_the_way: tuple[str, ...]
    hints: tuple[str, ...]
    repairs: tuple[tuple[str, str], ...]
    nearest: str
    nearest_address: str
    notices: tuple[Notice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipePage:
    """The form, and what was found, or how many recipes are still being tried."""

    bench: Bench
    form: RecipeForm
    tried: str = ""
    found: FoundSheet | None = None
    none: NoneSheet | None = None

    @property
    def more_open(self) -> bool:
        """Whether something is filled in among what may stay blank."""
        return any(field.value() for field in self.form if field.name != "purpose")


def found_sheet(answer: RecipeAnswer, bench: Bench, look: Look) -> FoundSheet:
    """The answer as the page shows it."""
    wished = _percent(answer.wish)
    summed = sum_mix(
        MixQuestion(
            parts=answer.best.mix.parts,
            scoop_l=bench.tools.scoop_l,
            pail_l=bench.tools.pail_l,
            wish=wished,
            system=look.system,
            currency=look.currency,
        )
    )
    names, choices = zip(*named_choices(answer), strict=True)
    long_curve = len(answer.curve) > len(choices)
    curve = tuple(thinned(answer.curve, MOST_OF_CURVE)) if long_curve else ()
    return FoundSheet(
        wished=wish_words(answer),
        proven=answer.proven_by,
        chalked=summed.chalked,
        address=_address(answer.best, answer.wish, bench),
        named=_table(choices, answer.wish, bench, look, names),
        others=_table(answer.alternatives, answer.wish, bench, look)
        if answer.alternatives
        else None,
        curve=_table(curve, answer.wish, bench, look) if curve else None,
        notices=loudest_first(
            (*summed.notices, *answer.notices, *bench.notices_of(answer.best.mix.parts))
        ),
        working=(*recipe_working(answer), *summed.working),
    )


def none_sheet(answer: NoRecipe, bench: Bench, look: Look) -> NoneSheet:
    """What is in the way as the page shows it."""
    nearest = answer.nearest
    return NoneSheet(
        proven=answer.proven_by,
        in_the_way=answer.in_the_way,
        hints=answer.hints,
        repairs=tuple(
            (
                repair_words(repair, look.currency, look.system),
                _address(repair.choice, repair.wish, bench),
            )
            for repair in answer.repairs
        ),
        nearest=nearest_words(answer),
        nearest_address=_address(nearest, answer.wish, bench) if nearest else "",
        notices=loudest_first(answer.notices),
    )


def _table(
    choices: Iterable[Choice], wish: RecipeWish, bench: Bench, look: Look, names: Iterable[str] = ()
) -> ChoiceTable:
    chosen = tuple(choices)
    told = choices_table(chosen, wish, look.currency, look.system)
    titles = (*names, *("",) * len(chosen))
    return ChoiceTable(
        headings=told.headings,
        rows=tuple(
            ChoiceRow(name=name, cells=row, address=_address(choice, wish, bench))
            for name, row, choice in zip(titles, told.rows, chosen, strict=False)
        ),
    )


def _percent(wish: RecipeWish) -> dict[Nutrient, Fraction] | None:
    target = wish.target
    if not isinstance(target, GradeTarget):
        return None
    return {Nutrient(name): number for name, number in target.percent.items()} or None


def _address(choice: Choice, wish: RecipeWish, bench: Bench) -> str:
    """Where the sum of a recipe is chalked, a wished grade below it."""
    percent = _percent(wish) or {}
    written = "-".join(shortest(percent.get(n, NONE), 2) for n in PRIMARY) if percent else ""
    return bench.mix_address(choice.mix.parts, written)
