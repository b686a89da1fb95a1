"""Problems whose answers say something about another: coarser, or of one sheet size."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from pricebook.veneer.columns import best_unit, coarser
from pricebook.veneer.exact import plan_if_affordable
from pricebook.veneer.model import NoRoomError, Pattern, Problem
from pricebook.veneer.pool import cost_of

_UNITS = (4, 16, 64)


def bound_in_coarser_units(problem: Problem, affordable: int) -> int:
    """Return the least cost with all sizes rounded down, where it can be proven.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    affordable : int
        How many sums the exact method may make.

    Returns
    -------
    int
        No plan of the problem costs less; 0 where that takes too long. [cents]
    """
    for unit in _UNITS:
        rounded = coarser(problem, unit, unit)
        blocks = tuple(block for block in rounded.blocks if block.count)
        if not blocks:
            continue
        try:
            plan = plan_if_affordable(replace(rounded, blocks=blocks), affordable)
        except NoRoomError:
            return 0
        if plan is not None:
            return cost_of(plan, rounded)
    return 0


def plan_in_larger_units(
    problem: Problem, plan_of: Callable[[Problem], Sequence[Pattern] | None]
) -> list[Pattern] | None:
    """Return a plan of the problem with blocks rounded up and sheets rounded down.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    plan_of : callable
        Finds a plan of the rounded problem.

    Returns
    -------
    list of Pattern or None
        None when a block no longer fits any sheet, or no plan is found.
    """
    tall, wide = (best_unit(problem, axis, up=True) for axis in (0, 1))
    blocks = tuple(
        replace(
            block, forms=tuple((-(-a // tall), -(-c // wide)) for a, c in block.forms)
        )
        for block in problem.blocks
    )
    stocks = tuple(
        replace(kind, along=kind.along // tall, across=kind.across // wide)
        for kind in problem.stocks
    )
    found = replace(problem, blocks=blocks, stocks=stocks)
    fit = all(
        any(
            a <= kind.along and c <= kind.across and kind.most != 0
            for a, c in block.forms
            for kind in stocks
        )
        for block in blocks
    )
    plan = plan_of(found) if fit else None
    return (
        None
        if plan is None
        else [
            Pattern(
                one.stock,
                tuple((n, form, a * tall, c * wide) for n, form, a, c in one.blocks),
            )
            for one in plan
        ]
    )


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
