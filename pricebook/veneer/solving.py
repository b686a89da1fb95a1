"""From blocks and sheets to the best plan found, in the unit that it was asked in."""

from __future__ import annotations

import math
from collections.abc import Callable

from pricebook.errors import LayoutError
from pricebook.veneer.model import Block, NoRoomError, Pattern, Problem
from pricebook.veneer.reading import part_name
from pricebook.veneer.search import Progress, Search
from pricebook.veneer.whole_units import Reduced, reduce_units

Name = Callable[[Block], str]


class NoPlanError(LayoutError):
    """No plan was found that holds everything, though there may be one."""


def solve(
    problem: Problem, progress: Progress | None = None, name: Name = part_name
) -> tuple[list[Pattern], int]:
    """Lay out all blocks at the least cost that the methods find.

    Parameters
    ----------
    problem : Problem
        Blocks that each fit some sheet.
    progress : callable, optional
        Called as (done, total, words) on long work.
    name : callable
        What a block is called in a refusal.

    Returns
    -------
    (list of Pattern, int)
        The sheets, and the cost that no plan undercuts. [cents]

    Raises
    ------
    LayoutError
        If the sheets are limited and no plan was found that holds every block.
    """
    reduced = reduce_units(problem)
    search = Search(reduced.problem, progress)
    left_over: tuple[int, ...] = ()
    try:
        search.run()
    except NoRoomError as error:
        left_over = error.left_over
    if search.best is None:
        refusal = LayoutError if left_over else NoPlanError
        raise refusal(_refusal(problem, reduced, left_over, name))
    return reduced.restore(search.best), min(search.bound, search.cost)


def _refusal(
    problem: Problem, reduced: Reduced, left_over: tuple[int, ...], name: Name
) -> str:
    """Say what the sheets do not hold, as far as that is known."""
    small = left_over or (
        max(
            range(len(reduced.origin)),
            key=lambda n: math.prod(reduced.problem.blocks[n].forms[0]),
        ),
    )
    blocks = [problem.blocks[reduced.origin[n][0]] for n in small]
    names = ", ".join(map(name, blocks))
    if left_over:
        return (
            f"the sheets there are cannot hold everything: {names} would be left "
            "over; allow more sheets, or allow some to be bought."
        )
    return (
        "no plan was found that cuts everything from the sheets there are (the "
        f"largest is {names}); allow more sheets, or allow some to be bought."
    )
