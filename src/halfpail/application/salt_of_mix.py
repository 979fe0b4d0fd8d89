"""How salty a mix is, and how little of it may lie with seed, as steps of its working."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, part_mass_kg
from halfpail.domain.salt_index import along_row_kg_per_m, mixture_index, most_with_seed_kg_per_m
from halfpail.domain.stock import Bag
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.showing import show_mass
from halfpail.quantities.units import System, size_of
from halfpail.reference.salt_index import SaltIndex, salt_indices, seed_rows
from halfpail.working import Step

UREA = "urea"
_ROW_M = {System.US: (100 * size_of("ft"), "100 ft"), System.METRIC: (Fraction(30), "30 m")}


def salt_index_of(mix: Mix) -> Fraction | None:
    """Salt index of a mix [index], sodium nitrate being 100; None where a bag's is not known."""
    return mixture_index(
        (part_mass_kg(part, mix.scoop_l) / mix.mass_kg, found.value if found else None)
        for part in mix.parts
        for found in (_index(part.bag),)
    )


def with_seed_kg_per_m(mix: Mix) -> Fraction | None:
    """The most of a mix with seed on a metre of row [kg/m], on the soil that stands least.

    None where it holds neither N nor K2O; nought where it holds urea.
    """
    if any(UREA in key for part in mix.parts for key in part.bag.materials):
        return Fraction(0)
    least = min(along_row_kg_per_m(row.most_kg_per_m2, row.row_space_m) for row in seed_rows())
    share = mix.analysis.of(Nutrient.N) + mix.analysis.of(Nutrient.K2O)
    return most_with_seed_kg_per_m(least, share)


def salt_steps(mix: Mix, system: System) -> Iterator[Step]:
    """The salt index with its sum, or which bag's is not known; then what may lie with seed."""
    unknown = [part.bag.name for part in mix.parts if _index(part.bag) is None]
    index = salt_index_of(mix)
    if index is None:
        names = ", ".join(unknown)
        yield Step(reason=f"Salt index: not known, as nobody lists one for {names}.")
    else:
        terms = " + ".join(
            f"{shortest(100 * part_mass_kg(part, mix.scoop_l) / mix.mass_kg, 1)}% x "
            f"{shortest(found.value, 1)}"
            for part in mix.parts
            if (found := _index(part.bag))
        )
        yield Step(
            reason="Salt index, the mean by weight; sodium nitrate is 100. It compares foods and "
            "gives no dose.",
            sum=f"{terms} = {decimal(index, 1)}",
            citation=next(found for part in mix.parts if (found := _index(part.bag))).citation,
        )
    yield _seed_step(mix, system)


def _seed_step(mix: Mix, system: System) -> Step:
    cited = seed_rows()[0].citation
    most, (row_m, row) = with_seed_kg_per_m(mix), _ROW_M[system]
    if most is None:
        return Step(reason="It holds neither nitrogen nor potash that would harm seed.")
    if not most:
        return Step(reason="None of it may touch seed: it holds urea.", citation=cited)
    return Step(
        reason="The most of it that may lie with seed, on sandy soil, by its N and K2O; none with "
        "beans and other tender seed.",
        sum=f"{show_mass(most * row_m, system)} on {row} of row",
        citation=cited,
    )


def _index(bag: Bag) -> SaltIndex | None:
    """The index of a bag that is one material of the table."""
    return salt_indices().get(bag.materials[0]) if len(bag.materials) == 1 else None
