"""Starting orders for the randomised packings: large blocks first, shaken a little."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pricebook.veneer.filling import Orders
from pricebook.veneer.model import Problem

if TYPE_CHECKING:
    from numpy.random import Generator
    from numpy.typing import NDArray

    Array = NDArray[Any]


def sizes_of(problem: Problem) -> Array:
    """Return the sizes of all blocks, blocks x forms x 2; a missing form repeats."""
    import numpy as np

    most = max(len(block.forms) for block in problem.blocks)
    return np.array(
        [(block.forms + block.forms[:1] * most)[:most] for block in problem.blocks],
        dtype=np.int64,
    )


def stocks_of(problem: Problem) -> Array:
    """Return the sizes of all sheets, stocks x 2."""
    import numpy as np

    return np.array(
        [(stock.along, stock.across) for stock in problem.stocks], dtype=np.int64
    )


def starting_orders(problem: Problem, rows: int, seed: int) -> Orders:
    """Return orders in which each row packs all blocks.

    Parameters
    ----------
    problem : Problem
        What to pack.
    rows : int
        How many packings.
    seed : int
        Same seed, same orders.

    Returns
    -------
    Orders
        Row by row another sort key, amount of shaking, rule and stock.
    """
    import numpy as np

    rng = np.random.default_rng(seed)
    counts = [block.count for block in problem.blocks]
    unit = np.repeat(np.arange(len(counts)), counts)
    sizes = sizes_of(problem)
    forms = np.array([len(block.forms) for block in problem.blocks])[unit]
    form = (rng.random((rows, len(unit))) * forms).astype(np.int64)
    key = _keys(sizes[:, 0], stocks_of(problem))[np.arange(rows) % 5][:, unit]
    by_block = rng.normal(0, 1, (rows, len(counts)))[:, unit]
    by_unit = rng.normal(0, 1, (rows, len(unit)))
    noise = np.where(rng.random((rows, 1)) < 0.5, by_block, by_unit)
    shaken = key * np.exp(noise * (np.arange(rows) % 10 * 0.04)[:, None])
    order = np.argsort(-shaken, axis=1, kind="stable")
    block = unit[order]
    form = np.take_along_axis(form, order, axis=1)
    return Orders(
        block=block,
        form=form,
        opens=_opens(problem, block, form, sizes, rng),
        weights=rules(rows, rng),
        rule=rng.integers(0, 6, rows),
        sheets=len(unit),
        stages=problem.stages,
    )


def _keys(size: Array, stocks: Array) -> Array:
    import numpy as np

    share = size / stocks.max(axis=0)
    return np.array(
        [
            share[:, 0] * share[:, 1],
            share[:, 0],
            share[:, 1],
            share.sum(axis=1),
            share.max(axis=1),
        ]
    )


def rules(rows: int, rng: Generator) -> Array:
    """Return for each row how it scores a free rectangle."""
    import numpy as np

    weights = np.zeros((rows, 4))
    weights[np.arange(rows), rng.integers(0, 3, rows)] = 1
    weights[:, 3] = np.where(rng.random(rows) < 0.5, 0, 1e9)
    return weights


def _opens(
    problem: Problem, block: Array, form: Array, sizes: Array, rng: Generator
) -> Array:
    """Choose for each step the stock to open: one stock a row, or a mixture."""
    import numpy as np

    stocks = stocks_of(problem)
    rows, steps = block.shape
    size = sizes[block, form]
    fits = (stocks[None, None] >= size[:, :, None]).all(axis=3)
    fits &= np.array([stock.most != 0 for stock in problem.stocks])
    wish = rng.random((rows, steps, len(stocks)))
    favourite = np.arange(rows) % (len(stocks) + 1)
    chosen = favourite[:, None] == np.arange(len(stocks))[None]
    wish += 2 * chosen[:, None, :]
    wish[~fits] = -1
    return np.where(fits.any(axis=2), wish.argmax(axis=2), -1)
