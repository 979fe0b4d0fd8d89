"""The working of a need, from the crop to the last credit, to be repeated by hand."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.need_question import PlannedCrop
from halfpail.application.read_classes import ClassReading, SoilReading
from halfpail.application.work_out_need import WorkedNeed
from halfpail.domain.bed import NeedRange
from halfpail.domain.exchange import Exchange
from halfpail.domain.matter import Nutrient, from_element
from halfpail.domain.need import expected_test
from halfpail.domain.removal import nitrogen_share
from halfpail.domain.soil_test import Element
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_rate
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.reference.harvests import food_composition
from halfpail.reference.needs import movement
from halfpail.working import Step, Working

# More digits than a scale can tell, so that a sum can be repeated.
_PLACES = 3


def need_working(worked: WorkedNeed) -> Working:
    """Every step from the crops to the ranges, in the order one would do it on paper."""
    return tuple(_steps(worked))


def _steps(worked: WorkedNeed) -> Iterator[Step]:
    units = worked.question.system
    yield from _nitrogen_steps(worked, units)
    for planned in worked.crops:
        yield _removal_step(planned, units)
    if worked.soil:
        yield from _soil_steps(worked.soil)
    for need in worked.needs[1:]:
        yield Step(
            reason=f"{need.nutrient}: what the bed should get",
            sum=range_text(need, units),
            citation=need.citation,
        )
    yield from _account_steps(worked, units)


def range_text(need: NeedRange, units: System) -> str:
    """A range in words."""
    sides = (("least", need.least), ("aim", need.aim), ("most", need.most))
    text = ", ".join(f"{name} {show_rate(side, units)}" for name, side in sides)
    stop = need.cap > need.most and need.nutrient == "P2O5"
    return f"{text}, stop {show_rate(need.cap, units)}" if stop else text


def _nitrogen_steps(worked: WorkedNeed, units: System) -> Iterator[Step]:
    for planned in worked.crops:
        plan = planned.plan
        share = "" if plan.share == 1 else f" on {shortest(100 * plan.share, 0)} % of the bed"
        turn = "" if plan.succession == 1 else f", crop {plan.succession} of the season"
        yield Step(
            reason=f"{planned.name}{share}{turn}: a crop of the {planned.group.key} group",
            citation=planned.crop.citation if planned.crop else None,
        )
    yield Step(
        reason="Usable N of the bed before anything is taken off",
        sum=range_text(worked.nitrogen_before, units),
        citation=worked.nitrogen_before.citation,
    )
    for credit in worked.credits:
        yield Step(
            reason=f"N that need not be given: {credit.name}",
            sum=f"{credit.sum} = {show_rate(credit.rate_kg_per_m2, units)}",
            citation=credit.citation,
        )
    if worked.credits:
        yield Step(
            reason="Usable N that is left to give; the label N of meals and manures is more",
            sum=range_text(worked.needs[0], units),
        )


def _removal_step(planned: PlannedCrop, units: System) -> Step:
    food = food_composition().get(planned.key)
    if food is None or planned.yield_kg_per_m2 is None:
        return Step(
            reason=f"{planned.name}: no food table, so what a bed loses in a year is taken",
            sum=f"P2O5 {show_rate(planned.removed.p2o5, units)}",
            citation=planned.citation,
        )
    shares = (
        ("N", nitrogen_share(food), planned.removed.n),
        ("P2O5", from_element(Nutrient.P2O5, food.phosphorus_share), planned.removed.p2o5),
        ("K2O", from_element(Nutrient.K2O, food.potassium_share), planned.removed.k2o),
    )
    harvest = show_rate(planned.yield_kg_per_m2, units)
    return Step(
        reason=f"{planned.name}: what a harvest of {food.part} takes",
        sum="\n".join(
            f"{harvest} x {shortest(100 * share, _PLACES)} % {name} = {show_rate(taken, units)}"
            for name, share, taken in shares
        ),
        citation=planned.citation,
    )


def _soil_steps(soil: SoilReading) -> Iterator[Step]:
    for reading in soil.classes:
        if reading.conversion:
            line = reading.conversion
            plus = shortest(line.plus_mg_per_kg, _PLACES)
            yield Step(
                reason=f"{reading.figure.element}: from {line.of} to {line.to}",
                sum=(
                    f"{shortest(line.times, _PLACES)} x {figure_text(reading)} + {plus} = "
                    f"{shortest(reading.read_as.value, 1)} ppm"
                ),
                citation=line.citation,
            )
        if reading.table and reading.step:
            yield Step(
                reason=(
                    f"{reading.figure.element} by {reading.read_as.extractant}, in the table of "
                    f"{reading.table.region}"
                ),
                sum=f"{figure_text(reading)}: {class_text(reading)}",
                citation=reading.step.citation,
            )
    if soil.exchange:
        yield _exchange_step(soil.exchange)


def figure_text(reading: ClassReading) -> str:
    """A figure with its unit."""
    figure = reading.figure
    unit = "ppm" if figure.scale.value == "mg/kg" else figure.scale.value
    return f"{shortest(figure.value, 1)} {unit}"


def class_text(reading: ClassReading) -> str:
    """A class, with the table's own word where that is another."""
    if reading.step is None:
        return "no table"
    own, printed = str(reading.step.soil_class), reading.step.printed
    return own if own == printed else f"{own} (there: {printed})"


def _exchange_step(found: Exchange) -> Step:
    parts = [f"{element} {shortest(meq, 2)}" for element, meq in found.bases.items()]
    share = shortest(100 * found.base_saturation_share, 0)
    return Step(
        reason=f"CEC by the sum of bases and acidity, as {found.method.name} works it",
        sum=(
            f"acidity {shortest(found.acidity, 2)} + {' + '.join(parts)} = "
            f"{shortest(found.cec, 2)} meq per 100 g; bases {share} %"
        ),
        citation=found.method.citation,
    )


def _account_steps(worked: WorkedNeed, units: System) -> Iterator[Step]:
    moved, stop = movement("P2O5"), default("p2o5_surplus_stop")
    for line in worked.account:
        year = line.year
        yield Step(
            reason=f"Phosphorus account, {year.year}: all P2O5 given less what harvests took",
            sum=(
                f"{show_rate(year.given_kg_per_m2, units)} - "
                f"{show_rate(year.removed_kg_per_m2, units)}; running surplus "
                f"{show_rate(line.surplus_kg_per_m2, units)}"
            ),
        )
    yield Step(
        reason="The most P2O5 this year: what the harvest takes and the room left to the stop",
        sum=(
            f"{show_rate(worked.removed.p2o5, units)} + {show_rate(stop.value, units)} - "
            f"{show_rate(worked.surplus_kg_per_m2, units)} = "
            f"{show_rate(worked.stop_kg_per_m2, units)}"
        ),
        citation=stop.citation,
    )
    expected = soil_p_next_year(worked, Fraction(0))
    if expected is not None:
        yield Step(
            reason="The soil test of P to be expected next year, if nothing is given",
            sum=f"{shortest(expected, 1)} ppm",
            citation=moved.citation,
        )


def soil_p_next_year(worked: WorkedNeed, given_kg_per_m2: Fraction) -> Fraction | None:
    """The test of phosphorus to be expected next year [mg/kg]; None where it was not tested."""
    reading = worked.soil.of(Element.P) if worked.soil else None
    if reading is None or reading.short_mg_per_kg is None:
        return None
    before = worked.account[-1].expected_mg_per_kg if worked.account else None
    start = reading.figure.value if before is None else before
    return expected_test(start, given_kg_per_m2 - worked.removed.p2o5, movement("P2O5"))
