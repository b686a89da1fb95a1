"""Column generation: the relaxation, the best new sheets, and the bound they prove."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from pricebook.veneer.boxes import grid
from pricebook.veneer.knapsack import Knapsack, pairs_in
from pricebook.veneer.master import SCALE, Values, bound_from
from pricebook.veneer.model import Block, Pattern, Problem, Stock
from pricebook.veneer.pool import Pool
from pricebook.veneer.relaxing import Relaxation

if TYPE_CHECKING:
    from numpy.random import Generator
    from numpy.typing import NDArray

    Array = NDArray[Any]

_LARGEST_TABLE = 1_500_000
"""Pairs of boxes in a table; above that the table is built on a coarser grid."""

_LARGEST_GRID = 1_200
_FINEST, _COARSEST = 128, 64
_NEAR = 3
"""So many more sheets are added at each step, for values near the right ones."""


Worths = tuple[tuple[int, ...], tuple[int, ...]]
"""Values of the blocks, and what a sheet of each stock can hold of them."""


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
    worths : tuple of (tuple of int, tuple of int)
        Values of the blocks, and what a sheet of each stock can hold of them at the
        most: sheets that hold less than all blocks are worth do not suffice.
    """

    bound: int
    values: Values
    table: Knapsack
    exact: bool
    worths: tuple[Worths, ...] = ()


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
    tall, wide = (best_unit(problem, axis, up=False) for axis in (0, 1))
    return _coarse_table(problem, tall, wide), False


def best_unit(problem: Problem, axis: int, *, up: bool) -> int:
    """Return the coarser unit that changes blocks, weighed by area, the least.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    axis : int
        0 along, 1 across.
    up : bool
        Whether blocks are rounded up; sheets are always rounded down.

    Returns
    -------
    int
        So large that a sheet has no more than a hundred and some. [old units]
    """
    sheets = [(kind.along, kind.across)[axis] for kind in problem.stocks]
    across = [(kind.across, kind.along)[axis] for kind in problem.stocks]
    largest = max(sheets)

    def share(unit: int) -> Fraction:
        area = sum(
            block.count * form[1 - axis] * ((form[axis] + up * (unit - 1)) // unit)
            for block in problem.blocks
            for form in block.forms[:1]
        )
        whole = sum(n // unit * w for n, w in zip(sheets, across, strict=True))
        return Fraction(area, max(1, whole))

    units = range(max(1, -(-largest // _FINEST)), max(1, largest // _COARSEST) + 1)
    return min(units, key=share) if up else max(units, key=share)


def coarser(problem: Problem, tall: int, wide: int) -> Problem:
    """Round everything down to larger units: every plan of the problem stays one.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    tall, wide : int
        The new unit along and across, in the old one.

    Returns
    -------
    Problem
        One whose least cost is a bound for the problem's.
    """
    blocks = tuple(
        Block(
            forms=tuple((max(1, a // tall), max(1, c // wide)) for a, c in block.forms),
            # what is smaller than a unit would grow: leave it out instead
            count=block.count * all(a >= tall and c >= wide for a, c in block.forms),
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
    return replace(problem, blocks=blocks, stocks=stocks)


def _coarse_table(problem: Problem, tall: int, wide: int) -> Knapsack:
    coarse = coarser(problem, tall, wide)
    stocks = coarse.stocks
    lengths = list(range(1, max(kind.along for kind in stocks) + 1))
    widths = list(range(1, max(kind.across for kind in stocks) + 1))
    return Knapsack(coarse, lengths, widths)


def generate(
    pool: Pool,
    table: Knapsack,
    exact: bool,
    rounds: int,
    enough: Callable[[int, int], bool],
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
        Whether to stop, given the bound and what the relaxation costs now: the
        bound can never rise above that.

    Returns
    -------
    Proof or None
        The best bound met; None when nothing covers all blocks.
    """
    import numpy as np

    problem = table.problem
    own = (
        pool
        if exact and problem.stages is None
        else Pool(problem, patterns=dict(pool.patterns))
    )
    relaxation = Relaxation(own)
    rng = np.random.default_rng(3)
    best: Proof | None = None
    worths: list[Worths] = []
    for _ in range(rounds):
        values = relaxation.solve()
        if values is None:
            return best
        table.fill(values.blocks)
        worths.append(worths_of(table, values.blocks))
        bound = bound_from(values, worths[-1][1], problem)
        if best is None or bound > best.bound:
            best = Proof(bound, values, table, exact)
        before = len(own.patterns)
        own.add(new_sheets(table, values.blocks, problem))
        for _ in range(_NEAR):
            near = shaken(values.blocks, rng)
            table.fill(near)
            worths.append(worths_of(table, near))
            own.add(new_sheets(table, near, problem))
        if len(own.patterns) == before or enough(best.bound, relaxation.cost):
            break
    return best and replace(best, worths=tuple(worths))


def worths_of(table: Knapsack, values: Sequence[int]) -> Worths:
    """Return values, and the best sheet of each stock for them."""
    counted = tuple(
        value * bool(block.count)
        for value, block in zip(values, table.problem.blocks, strict=True)
    )
    return counted, tuple(map(table.worth, range(len(table.problem.stocks))))


def shaken(values: Sequence[int], rng: Generator) -> tuple[int, ...]:
    """Change values a little: the best sheets for them soon become useful too."""
    return tuple(
        int(value * share)
        for value, share in zip(values, rng.uniform(0.9, 1.1, len(values)), strict=True)
    )


def new_sheets(
    table: Knapsack, values: Sequence[int], problem: Problem
) -> list[Pattern]:
    """Return the best sheet of each stock for the values a table is filled for."""
    return [
        table.pattern(kind, values)
        for kind, stock in enumerate(problem.stocks)
        if stock.most != 0 and table.worth(kind) > 0
    ]


def lean(pool: Pool, values: Sequence[int], most: int) -> list[int]:
    """Return the places in the pool of the patterns nearest to their price."""
    import numpy as np

    held, stock_of = pool.matrix()
    prices = np.array([kind.price for kind in pool.problem.stocks])
    missed = (
        prices[stock_of] / max(float(prices.max()), 1.0) * SCALE
        - np.array(values) @ held
    )
    return [int(place) for place in np.argsort(missed, kind="stable")[:most]]
