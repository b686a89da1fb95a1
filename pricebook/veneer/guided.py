"""Randomised sheets guided by what the blocks are worth to the relaxation."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from pricebook.veneer.filling import Orders
from pricebook.veneer.model import Problem
from pricebook.veneer.seeds import rules, sizes_of

if TYPE_CHECKING:
    from numpy.random import Generator
    from numpy.typing import NDArray

    Array = NDArray[Any]

_COPIES = 12
"""More copies of one block than this are rarely cut from one sheet."""


def guided_orders(
    problem: Problem, values: Sequence[int], rows: int, rng: Generator
) -> Orders:
    """Return orders in which each row fills one sheet with valuable blocks.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    values : sequence of int
        What each block is worth.
    rows : int
        How many sheets to fill.
    rng : Generator
        Where the chance comes from.

    Returns
    -------
    Orders
        Dense and large blocks early, shaken; some kinds of block left out.
    """
    import numpy as np

    counts = np.array([block.count for block in problem.blocks])
    unit = np.repeat(np.arange(len(counts)), np.minimum(counts, _COPIES))
    sizes = sizes_of(problem)
    area = (sizes[:, 0, 0] * sizes[:, 0, 1]).astype(float)
    worth = np.maximum(np.array(values, dtype=float), 1)
    lean = rng.uniform(0, 1, (rows, 1))
    key = np.log(worth)[None] - lean * np.log(area)[None]
    spread = rng.choice([0.05, 0.15, 0.3, 0.6, 1.0], (rows, 1))
    by_block = rng.normal(0, 1, (rows, len(counts)))[:, unit]
    by_unit = rng.normal(0, 1, (rows, len(unit)))
    single = rng.random((rows, 1)) < 0.5
    shaken = key[:, unit] + spread * np.where(single, by_unit, by_block)
    left_out = rng.random((rows, len(counts))) < rng.choice([0, 0.1, 0.3], (rows, 1))
    shaken[left_out[:, unit]] = -np.inf
    order = np.argsort(-shaken, axis=1, kind="stable")
    block = unit[order]
    block[np.take_along_axis(left_out[:, unit], order, axis=1)] = -1
    forms = np.array([len(block.forms) for block in problem.blocks])[block]
    kinds = [n for n, kind in enumerate(problem.stocks) if kind.most != 0]
    stock = np.array(kinds)[np.arange(rows) % len(kinds)]
    return Orders(
        block=block,
        form=(rng.random(block.shape) * forms).astype(np.int64),
        opens=np.repeat(stock[:, None], len(unit), axis=1),
        weights=rules(rows, rng),
        rule=rng.integers(0, 6, rows),
        sheets=1,
        stages=problem.stages,
    )


def best_rows(
    block: Array, sheet: Array, stock: Array, values: Sequence[int], prices: Array
) -> Array:
    """Return the rows whose sheet is worth the most beyond its price, best first."""
    import numpy as np

    worth = np.array(values, dtype=float)[block] * (sheet >= 0)
    gain = worth.sum(axis=1) - prices[stock]
    return np.argsort(-gain, kind="stable")
