"""Published pooling problems through our engine; each figure's source stands in its file.

The optimum is the one each file carries under `optimum_sources`. It is compared with a relative
tolerance of 1e-6, since a solver's point may keep the products only within its own tolerance.
"""

from pathlib import Path
from typing import Any

import pytest

from benchmarks.pooling import pooling_of, read, solve
from halfpail.engine.pooling import Flows, Pooling

FOLDER = Path(__file__).parents[2] / "benchmarks" / "data" / "pooling"
PROBLEMS = {path.stem: read(path) for path in sorted(FOLDER.glob("*.json"))}


def test_all_six_files_are_here() -> None:
    assert len(PROBLEMS) == 6


@pytest.mark.parametrize("name", PROBLEMS)
def test_the_stated_optimum_is_found_and_proven(name: str) -> None:
    problem = PROBLEMS[name]
    assert problem["optimum_status"] == "VERIFIED"
    answer = solve(problem)
    assert answer.value == pytest.approx(problem["optimum"], rel=1e-6)
    assert answer.bound == pytest.approx(problem["optimum"], rel=1e-6)
    pooling = pooling_of(problem)
    assert cost(pooling, answer.flows) == pytest.approx(answer.value, rel=1e-9)
    assert worst_miss(pooling, answer.flows) < 1e-7


@pytest.mark.parametrize("name", PROBLEMS)
def test_the_published_flows_keep_every_row(name: str) -> None:
    """The example of each file, in our reading of its data, costs what the file says."""
    problem: dict[str, Any] = PROBLEMS[name]
    example = problem["example_solution"]
    flows: Flows = {tuple(way[:-1]): way[-1] for way in example["via_pool"] + example["direct"]}
    pooling = pooling_of(problem)
    assert worst_miss(pooling, flows) < 1e-5
    assert cost(pooling, flows) == pytest.approx(problem["optimum"], rel=1e-6)


def cost(pooling: Pooling, flows: Flows) -> float:
    """Bought less sold, counted from the flows alone."""
    price = {i.key: i.cost for i in pooling.inputs} | {j.key: j.price for j in pooling.outputs}
    return sum(amount * (price[way[0]] - price[way[-1]]) for way, amount in flows.items())


def worst_miss(pooling: Pooling, flows: Flows) -> float:
    """By how much the flows miss supplies, demands, capacities, qualities and one recipe a pool."""
    misses = [-min(flows.values())]
    for i in pooling.inputs:
        taken = sum(n for way, n in flows.items() if way[0] == i.key)
        misses += [taken - i.at_most, i.at_least - taken]
    quality = {i.key: i.quality for i in pooling.inputs}
    for j in pooling.outputs:
        arriving = {way: n for way, n in flows.items() if way[-1] == j.key}
        got = sum(arriving.values())
        misses += [got - j.at_most, j.at_least - got]
        for name, limit in j.quality_at_most.items():
            misses.append(sum(n * (quality[w[0]][name] - limit) for w, n in arriving.items()))
        for name, limit in j.quality_at_least.items():
            misses.append(sum(n * (limit - quality[w[0]][name]) for w, n in arriving.items()))
    for pool, capacity in pooling.pools.items():
        through = {way: n for way, n in flows.items() if len(way) == 3 and way[1] == pool}
        whole = sum(through.values())
        misses.append(whole - capacity)
        for (start, _, end), n in through.items():
            into = sum(m for way, m in through.items() if way[0] == start)
            out = sum(m for way, m in through.items() if way[2] == end)
            misses.append(abs(n * whole - into * out) / max(whole, 1.0))
    return max(misses)
