"""Chooses the method by the size of the problem, and keeps the best plan found."""

from __future__ import annotations

from pricebook.errors import LayoutError
from pricebook.veneer.bounds import area_bound, round_up_to_price
from pricebook.veneer.cover import cheapest_cover
from pricebook.veneer.filling import pack
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.pool import Pool, cost_of, trim
from pricebook.veneer.seeds import sizes_of, starting_orders, stocks_of

_ROWS = 240
_NODES = 200


def solve(problem: Problem) -> tuple[list[Pattern], int]:
    """Lay out all blocks at the least cost that the methods find.

    Parameters
    ----------
    problem : Problem
        Blocks that each fit some sheet.

    Returns
    -------
    (list of Pattern, int)
        The sheets, and the cost that no plan undercuts. [cents]

    Raises
    ------
    LayoutError
        If the sheets are limited and no plan was found that holds every block.
    """
    bound = round_up_to_price(area_bound(problem), problem)
    pool = Pool(problem)
    packings = pack(
        starting_orders(problem, _ROWS, 1), sizes_of(problem), stocks_of(problem)
    )
    pool.harvest(packings)
    best: list[Pattern] | None = None
    for row in range(_ROWS):
        plan = [
            packings.pattern(row, sheet)
            for sheet in range(int((packings.stock[row] >= 0).sum()))
        ]
        trimmed = trim(plan, problem)
        if trimmed and (
            best is None or _worth(trimmed, problem) < _worth(best, problem)
        ):
            best = trimmed
    if best is None or cost_of(best, problem) > bound:
        chosen, _ = cheapest_cover(list(pool.patterns.values()), problem, _NODES)
        trimmed = trim(chosen or [], problem)
        if trimmed and (
            best is None or _worth(trimmed, problem) < _worth(best, problem)
        ):
            best = trimmed
    if best is None:
        raise LayoutError(
            "no plan was found that cuts all parts from the sheets there are; allow "
            "more sheets."
        )
    return best, bound


def _worth(plan: list[Pattern], problem: Problem) -> tuple[int, int]:
    return cost_of(plan, problem), len(plan)
