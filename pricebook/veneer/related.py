"""Problems whose answers say something about another: coarser, or of one sheet size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pricebook.veneer.columns import coarser
from pricebook.veneer.model import Problem

_UNITS = (4, 16, 64)


def in_coarser_units(problem: Problem) -> Iterator[Problem]:
    """Yield the problem with all sizes rounded down: the least cost is a bound.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.

    Yields
    ------
    Problem
        In coarser and coarser units, without the blocks that vanish.
    """
    for unit in _UNITS:
        rounded = coarser(problem, unit, unit)
        blocks = tuple(block for block in rounded.blocks if block.count)
        if blocks:
            yield replace(rounded, blocks=blocks)


def of_one_size(problem: Problem) -> Iterator[tuple[int, Problem]]:
    """Yield the problem with each size of sheet alone that holds every block.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.

    Yields
    ------
    (int, Problem)
        Which stock, and the problem with it alone; nothing where there is only one.
    """
    kinds = [n for n, kind in enumerate(problem.stocks) if kind.most != 0]
    for number in kinds if len(kinds) > 1 else ():
        stock = problem.stocks[number]
        if all(
            any(a <= stock.along and c <= stock.across for a, c in block.forms)
            for block in problem.blocks
        ):
            yield number, replace(problem, stocks=(stock,))
