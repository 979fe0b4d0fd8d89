"""The only place where ports meet adapters; each adapter is loaded when it is first asked for."""

from functools import cache, cached_property
from importlib.resources import files
from pathlib import Path

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.ports import SeasonEngine
from halfpail.blending.ports import Sieve, Solver
from halfpail.blending.search import Search


class Services:
    """What an entrance may ask for."""

    @cached_property
    def solver(self) -> Solver:
        """The everyday solver."""
        from halfpail.solvers.highs import Highs

        return Highs()

    @cached_property
    def product_solver(self) -> Solver:
        """The solver that also knows products of columns."""
        from halfpail.solvers.scip import Scip

        return Scip()

    @cached_property
    def sieve(self) -> Sieve:
        """Tries every recipe of a few bags."""
        from halfpail.solvers.sieve import EveryRecipe

        return EveryRecipe()

    @cached_property
    def search(self) -> Search:
        """The search for the best recipe: every recipe tried, or else the solver."""
        return Search(sieve=self.sieve, solver=self.solver)

    @cached_property
    def engine(self) -> SeasonEngine:
        """The engine for the season."""
        from halfpail.engine.planner import Planner

        return Planner(self.solver)

    def read_garden(self, path: Path) -> GardenEntry:
        """A garden file as typed, with the faults found in reading it.

        Raises:
            Refusal: nothing of it can be read.
        """
        from halfpail.garden_file.reader import read_file

        return read_file(path)

    def read_sample_garden(self) -> GardenEntry:
        """The sample garden, which is invented."""
        from halfpail.garden_file.reader import read_text

        return read_text(sample_garden_text())


def sample_garden_text() -> str:
    """The sample garden as a file to copy."""
    return files("halfpail.sample").joinpath("garden.toml").read_text(encoding="utf-8")


@cache
def services() -> Services:
    """The services of this process."""
    return Services()
