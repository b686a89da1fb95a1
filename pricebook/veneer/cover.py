"""The cheapest choice of patterns that covers every block."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.pool import Pool

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]


def cheapest_cover(
    held: Array, stock_of: Array, problem: Problem, nodes: int
) -> tuple[list[int] | None, int]:
    """Choose patterns that hold every block at the least price.

    Parameters
    ----------
    held : array, blocks x patterns
        How many of each block a pattern holds.
    stock_of : array of int
        The stock of each pattern.
    problem : Problem
        Counts, prices, limits.
    nodes : int
        Where the search stops; a count and not a time, so that every machine
        gives the same answer.

    Returns
    -------
    (list of int or None, int)
        The patterns chosen, with repeats, or None when none was found; and the
        cost that no choice among these patterns undercuts. The solver's own
        objective is not used: the caller prices the layout.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    prices = np.array([kind.price for kind in problem.stocks])
    dearest = float(prices.max()) or 1.0
    needed = np.array([block.count for block in problem.blocks])
    constraints = [LinearConstraint(csr_array(held), needed, np.inf)]
    limited = [n for n, kind in enumerate(problem.stocks) if kind.most is not None]
    if limited:
        rows = csr_array((stock_of[None] == np.array(limited)[:, None]) * 1.0)
        most = np.array([problem.stocks[n].most for n in limited])
        constraints.append(LinearConstraint(rows, -np.inf, most))
    often = np.where(held > 0, np.ceil(needed[:, None] / np.maximum(held, 1)), 0)
    # with its presolve the solver writes to standard output past all switches
    result = milp(
        prices[stock_of] / dearest,
        integrality=np.ones(len(stock_of), dtype=np.int64),
        bounds=Bounds(0, often.max(axis=0)),
        constraints=constraints,
        options={
            "node_limit": nodes,
            "mip_rel_gap": 0.0,
            "disp": False,
            "presolve": False,
        },
    )
    if result.x is None:
        return None, 0
    times = np.rint(result.x).astype(int)
    chosen = [n for n, often_used in enumerate(times) for _ in range(often_used)]
    least = (result.mip_dual_bound or 0) * dearest
    return chosen, math.ceil(least * (1 - 1e-7) - 1e-6)


def chosen_from(pool: Pool, places: list[int], nodes: int) -> list[Pattern] | None:
    """Return the cheapest cover by some patterns of a pool, where one is found."""
    patterns = list(pool.patterns.values())
    held, stock_of = pool.matrix()
    chosen, _ = cheapest_cover(held[:, places], stock_of[places], pool.problem, nodes)
    return [patterns[places[n]] for n in chosen] if chosen else None
