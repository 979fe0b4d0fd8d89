"""Published pooling problems through our engine: python benchmarks/pooling.py FILE...

For each file: its name, the value found, the optimum it states, the proven bound, the seconds, and
beside them the value and seconds of SCIP alone on the same PQ form, whose point is not made exact.
"""

import json
import sys
from collections.abc import Mapping, Sequence
from math import inf
from pathlib import Path
from typing import Any

from halfpail.engine.pooling import Input, Output, Pooling, PoolingAnswer, by_shares, solve_pooling
from halfpail.solvers.highs import Highs
from halfpail.solvers.scip import Scip


def read(path: Path) -> dict[str, Any]:
    """One problem file of the shared schema."""
    content: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return content


def pooling_of(problem: Mapping[str, Any]) -> Pooling:
    """The file's inputs, pools, outputs and arcs."""

    def most(value: float | None) -> float:
        return inf if value is None else value

    return Pooling(
        inputs=tuple(
            Input(
                key=i["id"],
                cost=i["unit_cost"],
                quality=i["quality"],
                at_least=i.get("available_min") or 0.0,
                at_most=most(i.get("available_max")),
            )
            for i in problem["inputs"]
        ),
        pools={pool["id"]: most(pool.get("capacity")) for pool in problem["pools"]},
        outputs=tuple(
            Output(
                key=j["id"],
                price=j["unit_price"],
                at_least=j.get("demand_min") or 0.0,
                at_most=most(j.get("demand_max")),
                quality_at_least=j.get("quality_min") or {},
                quality_at_most=j.get("quality_max") or {},
            )
            for j in problem["outputs"]
        ),
        arcs={(arc["from"], arc["to"]): most(arc.get("max")) for arc in problem["arcs"]},
    )


def solve(problem: Mapping[str, Any]) -> PoolingAnswer:
    """The answer of our engine, proven by SCIP and made exact by HiGHS."""
    return solve_pooling(pooling_of(problem), Scip(), Highs())


def main(files: Sequence[str]) -> None:
    """Print a line for each file; without one, for those that come with the project."""
    print(
        f"{'name':<20}{'found':>16}{'optimum':>16}{'bound':>16}{'seconds':>9}"
        f"{'SCIP alone':>16}{'seconds':>9}"
    )
    published = sorted((Path(__file__).parent / "data" / "pooling").glob("*.json"))
    for file in [Path(file) for file in files] or published:
        problem = read(file)
        answer = solve(problem)
        alone = Scip().solve(by_shares(pooling_of(problem))[0])
        print(
            f"{problem['name']:<20}{answer.value:>16.6f}{problem['optimum']:>16.6f}"
            f"{answer.bound:>16.6f}{answer.seconds:>9.2f}{alone.value:>16.6f}{alone.seconds:>9.2f}"
        )


if __name__ == "__main__":
    main(sys.argv[1:])
