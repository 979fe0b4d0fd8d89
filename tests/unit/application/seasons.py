"""Small seasons whose best plan can be found by hand, and engines that only take."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.application.ports import SeasonEffort
from halfpail.domain.bed import Content
from halfpail.domain.season import (
    Feeding,
    Ingredient,
    Limit,
    Plot,
    SeasonPlan,
    SeasonProblem,
    Stir,
    Unmet,
)


def a_bag(key: str, n: str, p: str, price: int = 8, **more: object) -> Ingredient:
    """Five kilograms, a scoop of one; N and P2O5 in kg/kg."""
    figures: dict[str, object] = {
        "scoop_kg": Fraction(1),
        "bag_kg": Fraction(5),
        "offered": 3,
        **more,
    }
    return Ingredient(
        key=key,
        contents={Content.N_LABEL: Fraction(n), Content.P2O5: Fraction(p)},
        price=Fraction(price),
        **figures,  # type: ignore[arg-type]  # any field may be given
    )


def at_least(plot: str, kg: str, content: Content = Content.N_LABEL, price: str = "") -> Limit:
    """A need, hard unless it has a price."""
    weight = Fraction(price) if price else None
    return Limit(plot=plot, content=content, at_least=Fraction(kg), price_per_kg=weight)


def at_most(plot: str, kg: str, content: Content = Content.P2O5, price: str = "") -> Limit:
    """A most, hard unless it has a price."""
    weight = Fraction(price) if price else None
    return Limit(plot=plot, content=content, at_most=Fraction(kg), price_per_kg=weight)


def a_season(bags: list[Ingredient], limits: list[Limit], **more: object) -> SeasonProblem:
    """One mix of at most six scoops and three bags; a bed for each that a limit names."""
    figures: dict[str, object] = {"mixes": 1, "most_scoops": 6, "most_bags": 3, **more}
    return SeasonProblem(
        ingredients=tuple(bags),
        plots=tuple(Plot(key=key) for key in sorted({limit.plot for limit in limits})),
        limits=tuple(limits),
        **figures,  # type: ignore[arg-type]  # any field may be given
    )


def a_plan_of(
    value: str, bound: str | None = None, key: str = "meal", mixes: int = 1
) -> SeasonPlan:
    """A plan by its value alone, for what only compares."""
    return SeasonPlan(
        stirs=(Stir(scoops={key: 1}, rounds=1),) * mixes,
        feedings=(Feeding(plot="east", of=0, measures=1),),
        purchases={},
        money=Fraction(value),
        missed=Fraction(0),
        bound=Fraction(value if bound is None else bound),
        proven_by="hand",
    )


@dataclass
class TakingByMixes:
    """An engine that takes the plans given to it, by the number of mixes asked for."""

    plans: Mapping[int, SeasonPlan | Unmet]
    asked: list[SeasonProblem] = field(default_factory=list)

    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort | None = None
    ) -> SeasonPlan | Unmet:
        """The plan for so many mixes."""
        self.asked.append(problem)
        return self.plans[problem.mixes]
