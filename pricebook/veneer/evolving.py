"""Orders of packing that improve from one generation to the next."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pricebook.veneer.filling import Orders, Packings, pack
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.pool import Pool, cost_of, trim
from pricebook.veneer.seeds import rules, sizes_of, starting_orders, stocks_of

if TYPE_CHECKING:
    from numpy.random import Generator
    from numpy.typing import NDArray

    Array = NDArray[Any]

_KEPT_SHARE = 0.15


def fitness(packings: Packings, problem: Problem) -> Array:
    """Return how good each row is: its cost, then how unevenly its sheets are filled.

    A plan with some full sheets and a nearly empty one is closer to losing a sheet
    than one with all sheets nine tenths full.
    """
    import numpy as np

    sizes, stocks = sizes_of(problem)[:, 0], stocks_of(problem)
    area = (sizes[:, 0] * sizes[:, 1]).astype(float)
    whole = (stocks[:, 0] * stocks[:, 1]).astype(float)
    price = np.array([float(kind.price) for kind in problem.stocks])
    price /= max(price.max(), 1.0)
    opened = packings.stock >= 0
    filled = np.zeros(packings.stock.shape)
    row, step = np.nonzero(packings.sheet >= 0)
    block = packings.orders.block[row, step]
    np.add.at(filled, (row, packings.sheet[row, step]), area[block])
    paid = np.where(opened, price[packings.stock], 0)
    share = np.where(opened, filled / whole[packings.stock], 0)
    cost = paid.sum(axis=1)
    missing = (packings.sheet < 0) & (packings.orders.block >= 0)
    even = (paid * share**2).sum(axis=1) / np.maximum(cost, 1e-9)
    result: Array = cost - 0.5 * even + missing.sum(axis=1) * 1e6
    return result


def evolve(
    problem: Problem, pool: Pool, rows: int, generations: int, bound: int, seed: int
) -> list[Pattern] | None:
    """Breed packings of all blocks, and keep every good sheet met.

    Parameters
    ----------
    problem : Problem
        What to pack.
    pool : Pool
        Receives the sheets of the best packings.
    rows, generations : int
        How many packings in a generation, and how many generations.
    bound : int
        Stop when a plan costs no more. [cents]
    seed : int
        Same seed, same plan.

    Returns
    -------
    list of Pattern or None
        The best plan, or None when none holds every block within the limits.
    """
    import numpy as np

    rng = np.random.default_rng(seed)
    sizes, stocks = sizes_of(problem), stocks_of(problem)
    orders = starting_orders(problem, rows, seed)
    best: list[Pattern] | None = None
    parents: tuple[Array, Orders] | None = None
    for generation in range(generations):
        packings = pack(orders, sizes, stocks)
        score = fitness(packings, problem)
        chosen = np.argsort(score, kind="stable")
        pool.harvest(packings, None if generation == 0 else map(int, chosen[:20]))
        best = _better(best, packings, chosen[:5], problem)
        if best is not None and cost_of(best, problem) <= bound:
            break
        if generation + 1 < generations:
            parents = _survivors(
                parents, score, orders, max(2, int(rows * _KEPT_SHARE))
            )
            orders = _children(parents[1], rows, rng)
    return best


def _better(
    best: list[Pattern] | None, packings: Packings, rows: Array, problem: Problem
) -> list[Pattern] | None:
    for row in rows:
        sheets = int((packings.stock[row] >= 0).sum())
        plan = trim([packings.pattern(int(row), n) for n in range(sheets)], problem)
        if plan and (best is None or worth(plan, problem) < worth(best, problem)):
            best = plan
    return best


def worth(plan: list[Pattern], problem: Problem) -> tuple[int, int]:
    """Return what plans are compared by: cost, then how many sheets."""
    return cost_of(plan, problem), len(plan)


def _taken(orders: Orders, rows: Array) -> Orders:
    return replace(
        orders,
        block=orders.block[rows],
        form=orders.form[rows],
        opens=orders.opens[rows],
        weights=orders.weights[rows],
        rule=orders.rule[rows],
    )


def _joined(one: Orders, two: Orders) -> Orders:
    import numpy as np

    return replace(
        one,
        block=np.concatenate([one.block, two.block]),
        form=np.concatenate([one.form, two.form]),
        opens=np.concatenate([one.opens, two.opens]),
        weights=np.concatenate([one.weights, two.weights]),
        rule=np.concatenate([one.rule, two.rule]),
    )


def _survivors(
    parents: tuple[Array, Orders] | None, score: Array, orders: Orders, kept: int
) -> tuple[Array, Orders]:
    """Keep the best, no two alike."""
    import numpy as np

    if parents is not None:
        score = np.concatenate([parents[0], score])
        orders = _joined(parents[1], orders)
    chosen = np.argsort(score, kind="stable")
    first = np.unique(np.round(score[chosen], 9), return_index=True)[1]
    chosen = chosen[np.sort(first)][:kept]
    return score[chosen], _taken(orders, chosen)


def _children(parents: Orders, rows: int, rng: Generator) -> Orders:
    """Shift some blocks of each order, and change some rules."""
    import numpy as np

    child = _taken(parents, np.arange(rows) % len(parents.rule))
    steps = child.block.shape[1]
    reach = 3 * rng.choice([0.5, 1, 2, 4], (rows, 1))
    moved = rng.random((rows, steps)) < rng.choice([0.05, 0.15, 0.5], (rows, 1))
    place = np.arange(steps)[None] + rng.normal(0, 1, (rows, steps)) * reach * moved
    order = np.argsort(place, axis=1, kind="stable")
    fresh = rng.random(rows) < 0.15
    child.weights[fresh] = rules(int(fresh.sum()), rng)
    fresh = rng.random(rows) < 0.15
    child.rule[fresh] = rng.integers(0, 6, int(fresh.sum()))
    return replace(
        child,
        block=np.take_along_axis(child.block, order, axis=1),
        form=np.take_along_axis(child.form, order, axis=1),
        opens=np.take_along_axis(child.opens, order, axis=1),
    )
