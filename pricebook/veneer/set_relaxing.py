"""One set of sheets: what share of all blocks it holds, and what it leaves over."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pricebook.veneer.master import SCALE
from pricebook.veneer.model import Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_MOST_SHARE = 2.0


def held_share(
    held: Array, stock_of: Array, counts: Array, sheets: tuple[int, ...]
) -> tuple[float, tuple[int, ...], Array]:
    """Return the largest share of every block that patterns on a set hold.

    Parameters
    ----------
    held : array, blocks x patterns
        How many of each block a pattern holds.
    stock_of : array of int
        The stock of each pattern.
    counts : array of int
        How many of each block are needed.
    sheets : tuple of int
        How many sheets of each stock, patterns in fractions.

    Returns
    -------
    (float, tuple of int, array of float)
        The share, 1 when all blocks are just held [-], values of the blocks by
        which these sheets are scarce, and how often each pattern is used.
    """
    import numpy as np
    from scipy.optimize import linprog
    from scipy.sparse import csr_array, hstack, vstack

    needed = np.array(counts, dtype=float)[:, None]
    blocks = hstack([csr_array(-held), csr_array(needed)])
    stocks = csr_array((stock_of[None] == np.arange(len(sheets))[:, None]) * 1.0)
    rows: Any = vstack(
        [blocks, hstack([stocks, csr_array((len(sheets), 1), dtype=float)])]
    )
    patterns = len(stock_of)
    result = linprog(
        np.append(np.zeros(patterns), -1.0),
        A_ub=rows,
        b_ub=np.append(np.zeros(len(needed)), np.array(sheets, dtype=float)),
        bounds=[(0, None)] * patterns + [(0, _MOST_SHARE)],
        method="highs",
    )
    if result.x is None:
        return 0.0, tuple(SCALE for _ in counts), np.zeros(patterns)
    prices = np.maximum(-result.ineqlin.marginals[: len(needed)], 0)
    scaled = prices / max(float(prices.max()), 1e-12) * SCALE
    return float(result.x[-1]), tuple(map(int, scaled)), result.x[:-1]


def least_short(
    held: Array,
    stock_of: Array,
    problem: Problem,
    sheets: tuple[int, ...],
    nodes: int,
) -> tuple[list[int] | None, bool]:
    """Choose patterns for a set of sheets that leave as little over as can be.

    Parameters
    ----------
    held, stock_of, problem, sheets
        As for `held_share`; here patterns are used whole.
    nodes : int
        Where the search stops.

    Returns
    -------
    (list of int or None, bool)
        The patterns with repeats, None when none were found; and whether every
        choice among these patterns is proven to leave something over.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array, eye_array, hstack

    needed = np.array([block.count for block in problem.blocks])
    blocks, patterns = held.shape
    stocks = csr_array((stock_of[None] == np.arange(len(sheets))[:, None]) * 1.0)
    none = csr_array((len(sheets), blocks), dtype=float)
    most = np.append(np.array(sheets)[stock_of], needed)
    # with its presolve the solver writes to standard output past all switches
    result = milp(
        np.append(np.zeros(patterns), np.ones(blocks)),
        integrality=np.ones(patterns + blocks),
        bounds=Bounds(0, most),
        constraints=[
            LinearConstraint(
                hstack([csr_array(held), eye_array(blocks)]), needed, np.inf
            ),
            LinearConstraint(hstack([stocks, none]), -np.inf, np.array(sheets)),
        ],
        options={
            "node_limit": nodes,
            "mip_rel_gap": 0.0,
            "disp": False,
            "presolve": False,
        },
    )
    always = (result.mip_dual_bound or 0.0) > 0.5
    if result.x is None:
        return None, False
    times = np.rint(result.x[:patterns]).astype(int)
    return [n for n, often in enumerate(times) for _ in range(often)], always
