"""Why no plan can meet the hard limits: quick tests first, then the least that must give."""

from fractions import Fraction
from math import inf

from halfpail.blending.ports import Solver
from halfpail.domain.season import Give, Limit, SeasonProblem, Unmet
from halfpail.engine.figures import Figures
from halfpail.engine.own_mixes import own_mixes

_TOO_LITTLE = 1e-6


def why_unmet(figures: Figures, solver: Solver, *, proven: bool, seconds: float) -> Unmet:
    """Name the limits in the way, and by how much they must give together."""
    gives = _missing_contents(figures) or _least_gives(figures, solver)
    if not proven:
        sentence = "No plan was found within the effort; none is proven impossible."
    elif gives:
        sentence = "No plan keeps every hard limit; these must give: " + "; ".join(
            give.reason for give in gives
        )
    elif figures.budget < inf:
        sentence = "No plan keeps every hard limit within the budget."
    else:
        sentence = "No plan with so few mixes in whole scoops keeps every hard limit."
    return Unmet(sentence=sentence, proven=proven, gives=gives, seconds=seconds)


def _hard_needs(problem: SeasonProblem) -> list[Limit]:
    return [
        limit
        for limit in problem.limits
        if limit.price_per_kg is None and limit.at_least is not None and limit.at_least > 0
    ]


def _missing_contents(figures: Figures) -> tuple[Give, ...]:
    """Needs for something that no bag on offer or in the shed holds."""
    problem = figures.problem
    held = {
        content
        for bag in problem.ingredients
        if bag.offered > 0 or bag.shed_kg > 0
        for content, share in bag.contents.items()
        if share > 0
    }
    return tuple(
        Give(
            limit=limit,
            by_kg=limit.at_least or Fraction(0),
            reason=f"no bag holds any {limit.content}, which {limit.plot} needs",
        )
        for limit in _hard_needs(problem)
        if limit.content not in held
    )


def _least_gives(figures: Figures, solver: Solver) -> tuple[Give, ...]:
    """The smallest loosening, in all, with which every bed a mix of its own would do."""
    model = own_mixes(figures, elastic=True)
    outcome = solver.solve(model.programme)
    if not outcome.point:
        return ()
    gives = []
    for (plot, number), column in sorted(model.misses.items()):
        side = figures.sides[plot][number]
        by_kg = outcome.point[column] * side.scale
        if outcome.point[column] > _TOO_LITTLE:
            way = "can be given too little" if side.sign < 0 else "would be given too much"
            gives.append(
                Give(
                    limit=side.limit,
                    by_kg=Fraction(by_kg).limit_denominator(10**6),
                    reason=f"{side.limit.plot} {way} {side.limit.content}, by {by_kg:.3g} kg",
                )
            )
    return tuple(gives)
