"""Column generation: the relaxation, the best new sheets, and the bound they prove."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from pricebook.veneer.bounds import round_up_to_price
from pricebook.veneer.boxes import grid
from pricebook.veneer.cover import matrix
from pricebook.veneer.knapsack import Knapsack, pairs_in
from pricebook.veneer.master import Values, bound_from, relax
from pricebook.veneer.model import Block, Problem, Stock
from pricebook.veneer.pool import Pool

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_LARGEST_TABLE = 1_500_000
"""Pairs of boxes in a table; above that the table is built on a coarser grid."""

_LARGEST_GRID = 1_200
_COARSE = 96


@dataclass(slots=True)
class Proof:
    """What column generation established.

    Parameters
    ----------
    bound : int
        The cost that no plan undercuts. [cents]
    values : Values
        The values of blocks behind it.
    table : Knapsack
        The table that it was read from.
    exact : bool
        Whether the table's sheets can be cut as they are, or were found on a
        coarser grid on which blocks look smaller.
    """

    bound: int
    values: Values
    table: Knapsack
    exact: bool


def table_for(problem: Problem) -> tuple[Knapsack, bool]:
    """Return a table of boxes, coarser than the problem when it is too fine.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.

    Returns
    -------
    (Knapsack, bool)
        The table, and whether its patterns can be cut as they are. On a coarser
        grid blocks and sheets are rounded down, which loses no plan.
    """
    lengths = grid(problem, 0, _LARGEST_GRID)
    widths = grid(problem, 1, _LARGEST_GRID)
    if lengths and widths and pairs_in(lengths, widths) <= _LARGEST_TABLE:
        return Knapsack(problem, lengths, widths), True
    tall = max(1, max(kind.along for kind in problem.stocks) // _COARSE)
    wide = max(1, max(kind.across for kind in problem.stocks) // _COARSE)
    return _coarse_table(problem, tall, wide), False


def _coarse_table(problem: Problem, tall: int, wide: int) -> Knapsack:
    blocks = tuple(
        Block(
            forms=tuple((max(1, a // tall), max(1, c // wide)) for a, c in block.forms),
            count=block.count,
            members=(),
        )
        for block in problem.blocks
    )
    stocks = tuple(
        Stock(
            along=max(1, kind.along // tall),
            across=max(1, kind.across // wide),
            price=kind.price,
            most=kind.most,
        )
        for kind in problem.stocks
    )
    coarse = replace(problem, blocks=blocks, stocks=stocks)
    lengths = list(range(1, max(kind.along for kind in stocks) + 1))
    widths = list(range(1, max(kind.across for kind in stocks) + 1))
    return Knapsack(coarse, lengths, widths)


def generate(
    pool: Pool,
    table: Knapsack,
    exact: bool,
    rounds: int,
    enough: Callable[[int], bool],
) -> Proof | None:
    """Price new sheets until none improves the relaxation, or it proves enough.

    Parameters
    ----------
    pool : Pool
        Where sheets are taken from, and added to when the table is exact.
    table : Knapsack
        The table.
    exact : bool
        Whether its sheets can be cut.
    rounds : int
        How often at the most.
    enough : callable
        Whether a bound is good enough to stop.

    Returns
    -------
    Proof or None
        The best bound met; None when nothing covers all blocks.
    """
    problem = table.problem
    own = Pool(problem)
    own.patterns = pool.patterns if exact else dict(pool.patterns)
    best: Proof | None = None
    for _ in range(rounds):
        held, stock_of = matrix(list(own.patterns.values()), problem)
        values = relax(held, stock_of, problem)
        if values is None:
            return best
        table.fill(values.blocks)
        kinds = range(len(problem.stocks))
        bound = bound_from(values, [table.worth(kind) for kind in kinds], problem)
        if best is None or bound > best.bound:
            best = Proof(bound, values, table, exact)
        before = len(own.patterns)
        own.add(_new_sheets(table, values, problem))
        if len(own.patterns) == before or enough(best.bound):
            break
    if best is not None:
        best.bound = round_up_to_price(best.bound, problem)
    return best


def _new_sheets(table: Knapsack, values: Values, problem: Problem) -> Any:
    return [
        table.pattern(kind, values.blocks)
        for kind, stock in enumerate(problem.stocks)
        if stock.most != 0 and table.worth(kind) > 0
    ]


def lean(pool: Pool, values: Sequence[int], most: int) -> list[int]:
    """Return the places in the pool of the patterns nearest to their price."""
    import numpy as np

    from pricebook.veneer.master import SCALE

    held, stock_of = matrix(list(pool.patterns.values()), pool.problem)
    prices = np.array([kind.price for kind in pool.problem.stocks])
    missed = prices[stock_of] / prices.max() * SCALE - np.array(values) @ held
    return [int(place) for place in np.argsort(missed, kind="stable")[:most]]
