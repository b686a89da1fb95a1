"""The cheapest choice of patterns that covers every block."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.pool import counts_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]


def matrix(patterns: Sequence[Pattern], problem: Problem) -> tuple[Array, Array]:
    """Return blocks x patterns, and stocks x patterns, as counts."""
    import numpy as np

    held = np.array(
        [counts_of(pattern, len(problem.blocks)) for pattern in patterns],
        dtype=np.float64,
    ).T
    stock = np.zeros((len(problem.stocks), len(patterns)))
    stock[[pattern.stock for pattern in patterns], np.arange(len(patterns))] = 1
    return held, stock


def cheapest_cover(
    patterns: Sequence[Pattern], problem: Problem, nodes: int
) -> tuple[list[Pattern] | None, bool]:
    """Choose patterns that hold every block at the least price.

    Parameters
    ----------
    patterns : sequence of Pattern
        What there is to choose from.
    problem : Problem
        Counts, prices, limits.
    nodes : int
        Where the search stops; a count and not a time, so that every machine
        gives the same answer.

    Returns
    -------
    (list of Pattern or None, bool)
        The choice, with repeats, or None when none was found; and whether the
        solver finished. Its objective is not used: the caller prices the layout.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    held, stock = matrix(patterns, problem)
    price = np.array([problem.stocks[pattern.stock].price for pattern in patterns])
    needed = np.array([block.count for block in problem.blocks])
    constraints = [LinearConstraint(csr_array(held), needed, np.inf)]
    limited = [n for n, kind in enumerate(problem.stocks) if kind.most is not None]
    if limited:
        most = [problem.stocks[n].most or 0 for n in limited]
        rows = csr_array(stock[limited])
        constraints.append(LinearConstraint(rows, -np.inf, np.array(most)))
    upper = np.ceil(needed[:, None] / np.maximum(held, 1e-9)).clip(max=needed.max())
    upper = np.where(held > 0, upper, 0).max(axis=0)
    result = milp(
        price / price.max(),
        integrality=np.ones(len(patterns), dtype=np.int64),
        bounds=Bounds(0, upper),
        constraints=constraints,
        options={"node_limit": nodes},
    )
    if result.x is None:
        return None, result.status == 2
    times = np.rint(result.x).astype(int)
    chosen = [
        pattern for n, pattern in zip(times, patterns, strict=True) for _ in range(n)
    ]
    return chosen, result.status == 0
