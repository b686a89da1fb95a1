"""The least cost of one piece in two stages of cuts, proven.

A sheet is cut right across into strips, and each strip into blocks side by side; or
first along, and then across. A last trim is free. So a strip holds blocks whose widths
sum to the sheet's at the most, and is as long as its longest block.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from pricebook.veneer.boxes import Selections
from pricebook.veneer.model import Pattern, Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_SELECTIONS = 20_000
_PAIRS = 20_000_000
_NEVER = 2**60


class Strips:
    """For every selection, the least length of strips that hold it.

    Parameters
    ----------
    problem : Problem
        Blocks of fixed grain.
    chosen : Selections
        Of these blocks.
    axis : int
        0 when the first cuts run across the grain, 1 when they run along it.
    size, width : int
        The sheet's size on that axis, and the other way: how wide a strip is.
    """

    def __init__(
        self, problem: Problem, chosen: Selections, axis: int, size: int, width: int
    ) -> None:
        import numpy as np

        self.problem, self.chosen, self.axis = problem, chosen, axis
        used, longest, area = np.zeros((3, 1), dtype=np.int64)
        for block in problem.blocks:
            steps = np.arange(block.count + 1)[:, None]
            length, across = block.forms[0][axis], block.forms[0][1 - axis]
            used = (steps * across + used).ravel()
            area = (steps * across * length + area).ravel()
            longest = np.maximum((steps > 0) * length, longest).ravel()
        self.one = np.where(used <= width, longest, _NEVER)
        self.length = split_at_least(chosen, self.one, area <= size * width)

    def strips(self, number: int) -> Iterator[int]:
        """Yield the strips of a selection, each as a selection."""
        yield from parts_at_least(self.chosen, self.one, self.length, number)

    def blocks(self, number: int) -> list[tuple[int, int, int, int]]:
        """Lay a selection out: (block, form, offset along, offset across)."""
        found, reach = [], 0
        for strip in self.strips(number):
            beside = 0
            for block, count in enumerate(self.chosen.digits(strip)):
                for _ in range(count):
                    at = (reach, beside) if self.axis == 0 else (beside, reach)
                    found.append((block, 0, *at))
                    beside += self.problem.blocks[block].forms[0][1 - self.axis]
            reach += int(self.one[strip])
        return found


def split_at_least(
    chosen: Selections, price: Array, wanted: Array | bool = True
) -> Array:
    """Return for every selection the least sum of prices of parts that make it up.

    Those not wanted keep their price; no part of one wanted may be among them.
    """
    import numpy as np

    least = price.copy()
    least[0] = 0
    units, _ = chosen.sizes()
    for level in range(2, int(units.max()) + 1):
        whole, part = chosen.halves(np.nonzero((units == level) & wanted)[0])
        np.minimum.at(least, whole, least[part] + least[whole - part])
    return np.minimum(least, _NEVER)


def parts_at_least(
    chosen: Selections, price: Array, least: Array, number: int
) -> Iterator[int]:
    """Yield the parts behind the least sum of a selection."""
    waiting = [number]
    while waiting:
        one = waiting.pop()
        if price[one] == least[one]:
            yield one
            continue
        inside = chosen.parts_of(one)[1:-1]
        sums = least[inside] + least[one - inside]
        part = int(inside[sums.argmin()])
        waiting += [one - part, part]


def two_stage_plan(problem: Problem) -> list[Pattern] | None:
    """Return the plan of least cost, and of the fewest sheets among those.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.

    Returns
    -------
    list of Pattern or None
        None where it would take long, a grain is free or sheets are limited, and for
        any other number of stages.
    """
    import numpy as np

    chosen = Selections(tuple(block.count for block in problem.blocks))
    limited = any(kind.most for kind in problem.stocks)
    free = any(len(block.forms) > 1 for block in problem.blocks)
    if problem.stages != 2 or limited or free:
        return None
    if chosen.total > _SELECTIONS or _pairs(problem) > _PAIRS:
        return None
    price = np.full(chosen.total, _NEVER)
    laid = np.full(chosen.total, -1)
    ways: list[tuple[int, Strips]] = []
    for number, kind in enumerate(problem.stocks):
        for axis, size in enumerate((kind.along, kind.across)):
            if kind.most == 0:
                continue
            other = kind.along + kind.across - size
            strips = Strips(problem, chosen, axis, size, other)
            # a sheet counts as a small part of a cent: the fewest of equal cost
            own = kind.price * chosen.total + 1
            cheaper = (strips.length <= size) & (own < price)
            price[cheaper], laid[cheaper] = own, len(ways)
            ways.append((number, strips))
    least = split_at_least(chosen, price)
    if least[-1] >= _NEVER:
        return None
    return [
        Pattern(ways[laid[part]][0], tuple(ways[laid[part]][1].blocks(part)))
        for part in parts_at_least(chosen, price, least, chosen.total - 1)
    ]


def _pairs(problem: Problem) -> int:
    pairs = 1
    for block in problem.blocks:
        pairs *= (block.count + 1) * (block.count + 2) // 2
    return pairs
