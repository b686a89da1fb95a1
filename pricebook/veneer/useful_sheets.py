"""The sheets that a set of sheets can use at all and still hold every block."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from operator import mul
from typing import TYPE_CHECKING, Any

from pricebook.veneer.knapsack import Knapsack
from pricebook.veneer.model import Pattern
from pricebook.veneer.near_best import MOST_COPIES, NearBest, TooManyError, counts_in
from pricebook.veneer.pool import Pool

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_MOST_COMPARED = 12_000
_MOST_USED = 800
_SHARES = (0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 1.0)
"""How much of the room to spare one sheet may waste, tried in turn."""


@dataclass(frozen=True, slots=True)
class Useful:
    """Sheets for one set of sheets.

    Parameters
    ----------
    held : array, sheets x blocks
        How many of each block a sheet holds, none more than are needed.
    stock_of : array of int
        The stock of each.
    whole : bool
        Whether every sheet that the set can use is inside one of these.
    pattern : callable
        Lays one of them out.
    """

    held: Array
    stock_of: Array
    whole: bool
    pattern: Callable[[int], Pattern]


def useful_sheets(
    table: Knapsack,
    values: Sequence[int],
    sheets: Sequence[int],
    enough: int | None,
    most: int,
) -> tuple[Useful | None, int]:
    """List the sheets that waste little of what blocks are worth.

    Parameters
    ----------
    table : Knapsack
        Its sheets; is filled for the values.
    values : sequence of int
        Values of the blocks.
    sheets : sequence of int
        How many sheets of each stock.
    enough : int or None
        Stop at so many, those that waste the least first; None lists all.
    most : int
        Give up beyond so many selections of all boxes.

    Returns
    -------
    (Useful or None, int)
        None when there are too many even of those that waste next to nothing; and
        how many selections of all boxes were listed in all.

    Notes
    -----
    All sheets together may waste what they can hold beyond what the blocks are worth,
    so no sheet may waste more than that.
    """
    problem = table.problem
    smallest = min(a * c for block in problem.blocks for a, c in block.forms)
    largest = max(kind.along * kind.across for kind in problem.stocks)
    if largest > smallest * MOST_COPIES:
        return None, 0
    table.fill(values)
    worths = [table.worth(number) for number in range(len(problem.stocks))]
    counts = [block.count for block in problem.blocks]
    spare = sum(map(mul, sheets, worths)) - sum(map(mul, values, counts))
    barred = max(worths) + spare + 1
    misses = [0 if number else barred for number in sheets]
    best: _Listed | None = None
    spent = 0
    for share in _SHARES if enough else (1.0,):
        near = NearBest(table, values, misses, int(spare * share), most - spent)
        more = _listed(near, sheets, worths, int(spare * share))
        spent = most - near.left
        if more is None:
            break
        best = more
        if enough and len(best.waste) >= enough:
            break
    if best is None:
        return None, spent
    return best.outermost(best.slack == spare), spent


@dataclass(frozen=True, slots=True)
class _Listed:
    """Waste and selection of every sheet that wastes no more than the slack."""

    near: NearBest
    slack: int
    waste: dict[tuple[int, ...], tuple[int, int]]

    def outermost(self, whole: bool) -> Useful:
        """Leave out sheets inside others, and the most wasteful of too many."""
        import numpy as np

        order = sorted(self.waste, key=lambda key: (self.waste[key], key))
        whole = whole and len(order) <= _MOST_COMPARED
        rows = np.array(order if whole else order[: 2 * _MOST_USED], dtype=np.int64)
        rows = rows.reshape(-1, 1 + len(self.near.table.problem.blocks))
        rows = _outermost(rows)[: None if whole else _MOST_USED]
        return Useful(rows[:, 1:], rows[:, 0], whole, partial(self._pattern, rows))

    def _pattern(self, rows: Array, place: int) -> Pattern:
        stock, *counts = map(int, rows[place])
        table = self.near.table
        kind = table.problem.stocks[stock]
        corner = table.place(kind.along, kind.across)
        selection = self.waste[stock, *counts][1]
        return Pattern(stock, tuple(self.near.arranged(*corner, selection)))


def _listed(
    near: NearBest, sheets: Sequence[int], worths: Sequence[int], slack: int
) -> _Listed | None:
    """List the sheets that waste no more than the slack."""
    table, problem = near.table, near.table.problem
    waste: dict[tuple[int, ...], tuple[int, int]] = {}
    try:
        for number, kind in enumerate(problem.stocks):
            i, j = table.place(kind.along, kind.across)
            if not sheets[number] or i < 0 or j < 0:
                continue
            for one, value in near.of(i, j).items():
                if value >= worths[number] - slack:
                    key = (number, *counts_in(one, len(problem.blocks)))
                    waste[key] = worths[number] - value, one
    except (TooManyError, RecursionError):
        return None
    return _Listed(near, slack, waste)


def _outermost(rows: Array) -> Array:
    """Leave out rows that are nowhere above another one of the same stock."""
    import numpy as np

    kept: dict[int, Array] = {int(stock): rows[:0] for stock in rows[:, 0]}
    inside = np.zeros(len(rows), dtype=bool)
    for place in np.argsort(-rows[:, 1:].sum(axis=1), kind="stable"):
        row, stock = rows[place], int(rows[place, 0])
        inside[place] = (kept[stock] >= row).all(axis=1).any()
        if not inside[place]:
            kept[stock] = np.vstack([kept[stock], row])
    return rows[~inside]


def known_sheets(pool: Pool, values: Sequence[int], sheets: Sequence[int]) -> Useful:
    """Return the known sheets that are worth the most.

    Parameters
    ----------
    pool : Pool
        Known sheets.
    values : sequence of int
        Values of the blocks.
    sheets : sequence of int
        How many sheets of each stock.

    Returns
    -------
    Useful
        Of the stocks in the set.
    """
    import numpy as np

    patterns = list(pool.patterns.values())
    held, stock_of = pool.matrix()
    counts = np.array([block.count for block in pool.problem.blocks])
    capped = np.minimum(held.T, counts).astype(np.int64)
    worth = capped @ np.array(values)
    top = np.zeros(len(sheets))
    np.maximum.at(top, stock_of, worth)
    wanted = np.array(sheets)[stock_of] > 0
    order = np.argsort(top[stock_of] - worth, kind="stable")
    order = order[wanted[order]]
    rows = np.column_stack([stock_of, capped])[order]
    _, first = np.unique(rows, axis=0, return_index=True)
    places = order[np.sort(first)[:_MOST_USED]]
    return Useful(
        capped[places],
        stock_of[places],
        False,
        lambda place: patterns[int(places[place])],
    )
