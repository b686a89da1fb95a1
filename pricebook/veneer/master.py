"""The linear relaxation over the patterns found, and the bound that follows from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

SCALE = 2**20
"""Values are whole numbers, the dearest sheet being worth this much."""


@dataclass(frozen=True, slots=True)
class Values:
    """What each block is worth, and what each limited stock is worth to have more of.

    Parameters
    ----------
    blocks : tuple of int
        In units of the dearest price / SCALE, rounded down.
    stocks : tuple of int
        The surcharge of a stock that runs out; 0 without a limit.
    choice : array of float
        How often the relaxation uses each pattern.
    """

    blocks: tuple[int, ...]
    stocks: tuple[int, ...]
    choice: Array


def relax(held: Array, stock_of: Array, problem: Problem) -> Values | None:
    """Solve the linear relaxation.

    Parameters
    ----------
    held : array, blocks x patterns
        How many of each block a pattern holds.
    stock_of : array of int
        The stock of each pattern.
    problem : Problem
        Counts, prices and limits.

    Returns
    -------
    Values or None
        None when the patterns cannot cover everything.
    """
    import numpy as np
    from scipy.optimize import linprog
    from scipy.sparse import csr_array, vstack

    dearest = max(kind.price for kind in problem.stocks) or 1
    price = np.array([kind.price for kind in problem.stocks])[stock_of] / dearest
    needed = np.array([block.count for block in problem.blocks])
    limited = [n for n, kind in enumerate(problem.stocks) if kind.most is not None]
    rows = [csr_array(-held)]
    right = [-needed.astype(float)]
    if limited:
        rows.append(csr_array((stock_of[None] == np.array(limited)[:, None]) * 1.0))
        right.append(np.array([problem.stocks[n].most for n in limited], dtype=float))
    left: Any = vstack(rows)
    result = linprog(price, A_ub=left, b_ub=np.concatenate(right), method="highs")
    if result.x is None:
        return None
    duals = np.maximum(-result.ineqlin.marginals, 0)
    blocks = (duals[: len(needed)] * SCALE).astype(int)
    stocks = [0] * len(problem.stocks)
    for place, number in enumerate(limited):
        stocks[number] = ceil(duals[len(needed) + place] * SCALE)
    return Values(tuple(map(int, blocks)), tuple(stocks), result.x)


def bound_from(values: Values, worths: Sequence[int], problem: Problem) -> int:
    """Return the cost that no plan undercuts, from values that no sheet exceeds.

    Parameters
    ----------
    values : Values
        What blocks and stocks are worth.
    worths : sequence of int
        The value of the best sheet of each stock.
    problem : Problem
        Counts, prices and limits.

    Returns
    -------
    int
        The bound. [cents]

    Notes
    -----
    Scaled down until no sheet is worth more than its price, the values are a
    feasible dual solution (Farley, Operations Research 38 (1990)). All in exact
    fractions: no tolerance of a solver enters.
    """
    dearest = max(kind.price for kind in problem.stocks) or 1
    unit = Fraction(dearest, SCALE)
    share = Fraction(1)
    for kind, worth, extra in zip(problem.stocks, worths, values.stocks, strict=True):
        if worth and kind.most != 0:
            share = min(share, (kind.price + extra * unit) / (worth * unit))
    total = sum(
        value * block.count
        for value, block in zip(values.blocks, problem.blocks, strict=True)
    )
    paid = sum(
        extra * (kind.most or 0)
        for kind, extra in zip(problem.stocks, values.stocks, strict=True)
    )
    return max(0, ceil((share * total - paid) * unit))
