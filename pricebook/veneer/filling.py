"""Many randomised edge-to-edge packings at once, one row of an array each.

Every row takes its blocks in its own order. A block goes to the free rectangle
that its row's rule likes best; the rest of the rectangle is cut in two, across
first or along first, again by the row's rule. When nothing holds the block the row
opens a sheet, or skips the block when it may not open another.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Pattern

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_NEVER = 1e18


@dataclass(frozen=True, slots=True, kw_only=True)
class Orders:
    """What each row packs, and how.

    Parameters
    ----------
    block, form : array of int, rows x steps
        Which block, in which of its forms, comes at each step; -1 is nothing.
    opens : array of int, rows x steps
        Which stock the row opens when the block fits nowhere; -1 is none.
    weights : array of float, rows x 4
        How the row scores a free rectangle: the shorter rest, the longer rest,
        the area, and the age of the sheet; the least score wins.
    rule : array of int, rows
        How the rest is cut: 0 along first when the rest along is the shorter, 1
        the other way, 2 and 3 the same by the free rectangle's own sides, 4 the
        largest rest, 5 the most even rests.
    sheets : int
        How many sheets a row may open.
    stages : int or None
        How often the direction of the cuts may change, plus one; a last trim is
        free. None is any number. With a number the rule says which direction
        comes first: along for odd rules, across for even ones.
    """

    block: Array
    form: Array
    opens: Array
    weights: Array
    rule: Array
    sheets: int
    stages: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Packings:
    """What became of the rows: where each step's block lies.

    Parameters
    ----------
    sheet : array of int, rows x steps
        On which of the row's sheets; -1 when left out.
    along, across : array of int, rows x steps
        Offsets.
    stock : array of int, rows x sheets
        Which stock each sheet of the row is; -1 when never opened.
    """

    orders: Orders
    sheet: Array
    along: Array
    across: Array
    stock: Array

    def pattern(self, row: int, sheet: int) -> Pattern:
        """Return one sheet of one row."""
        steps = (self.sheet[row] == sheet).nonzero()[0]
        blocks = tuple(
            (
                int(self.orders.block[row, step]),
                int(self.orders.form[row, step]),
                int(self.along[row, step]),
                int(self.across[row, step]),
            )
            for step in steps
        )
        return Pattern(int(self.stock[row, sheet]), blocks)


def pack(orders: Orders, sizes: Array, stocks: Array) -> Packings:
    """Carry out all rows.

    Parameters
    ----------
    orders : Orders
        What each row packs.
    sizes : array of int, blocks x forms x 2
        Sizes (along, across) of the blocks.
    stocks : array of int, stocks x 2
        Sizes of the sheets.

    Returns
    -------
    Packings
        Nothing overlaps and everything can be cut from edge to edge.
    """
    import numpy as np

    rows, steps = orders.block.shape
    slots = min(steps + orders.sheets, steps * 2) + 1
    free = np.zeros((6, rows, slots), dtype=np.float32)
    used = np.zeros(rows, dtype=np.int64)
    opened = np.zeros(rows, dtype=np.int64)
    stock = np.full((rows, orders.sheets), -1, dtype=np.int64)
    where = np.full((3, rows, steps), -1, dtype=np.int64)
    every = np.arange(rows)
    for step in range(steps):
        block = orders.block[:, step]
        size = sizes[block, orders.form[:, step]].astype(np.float32)
        size[block < 0] = _NEVER
        width = int(used.max()) + 1
        slot, fits = _choose(free[:, :, :width], size, orders.weights)
        kind = orders.opens[:, step]
        new = ~fits & (kind >= 0) & (opened < orders.sheets)
        new &= (stocks[kind] >= size).all(axis=1)
        if new.any():
            slot = np.where(new, used, slot)
            fresh = every[new]
            stock[fresh, opened[fresh]] = kind[fresh]
            _open(free, fresh, used[fresh], stocks[kind[fresh]], opened[fresh])
            opened[fresh] += 1
            used[fresh] += 1
        done = every[fits | new]
        if not done.size:
            continue
        taken = free[:, done, slot[done]]
        where[:, done, step] = taken[[4, 2, 3]]
        first = _across_first(taken, size[done].T, orders.rule[done], orders.stages)
        _divide(free, done, slot[done], used, size[done].T, first)
        if orders.stages is not None:
            _next_stage(free, done, slot[done], used, first, orders.stages)
        used[done] += 1
    return Packings(
        orders=orders, sheet=where[0], along=where[1], across=where[2], stock=stock
    )


def _open(free: Array, rows: Array, slots: Array, sizes: Array, sheets: Array) -> None:
    """Make a whole sheet the free place of a slot, in each of some rows."""
    free[:2, rows, slots] = sizes.T
    free[2:4, rows, slots] = 0
    free[4, rows, slots] = sheets
    free[5, rows, slots] = 0


def _choose(free: Array, size: Array, weights: Array) -> tuple[Array, Array]:
    import numpy as np

    rest_along = free[0] - size[:, :1]
    rest_across = free[1] - size[:, 1:]
    shorter = np.minimum(rest_along, rest_across)
    score = weights[:, :1] * shorter
    score += weights[:, 1:2] * np.maximum(rest_along, rest_across)
    score += weights[:, 2:3] * (free[0] * free[1])
    score += weights[:, 3:] * free[4]
    score[shorter < 0] = _NEVER
    slot: Array = score.argmin(axis=1)
    least: Array = score[np.arange(len(slot)), slot]
    fits: Array = least < _NEVER
    return slot, fits


def _across_first(taken: Array, size: Array, rule: Array, stages: int | None) -> Array:
    """Return whether the rest is cut across first, row by row."""
    import numpy as np

    if stages is not None:
        even: Array = (taken[5] + rule) % 2 == 0
        return even
    along, across = taken[0], taken[1]
    rest_along, rest_across = along - size[0], across - size[1]
    first: Array = np.choose(
        rule,
        (
            rest_along >= rest_across,
            rest_along < rest_across,
            along >= across,
            along < across,
            rest_along * across >= rest_across * along,
            rest_along * across < rest_across * along,
        ),
    )
    return first


def _divide(
    free: Array, done: Array, slot: Array, used: Array, size: Array, first: Array
) -> None:
    """Cut the rest of the taken rectangles in two, across or along first."""
    import numpy as np

    along, across, at_along, at_across, sheet, level = free[:, done, slot]
    extra = used[done]
    free[0, done, extra] = np.where(first, size[0], along)
    free[1, done, extra] = across - size[1]
    free[2, done, extra] = at_along
    free[3, done, extra] = at_across + size[1]
    free[4, done, extra] = sheet
    free[5, done, extra] = level
    free[0, done, slot] = along - size[0]
    free[1, done, slot] = np.where(first, across, size[1])
    free[2, done, slot] = at_along + size[0]


def _next_stage(
    free: Array, done: Array, slot: Array, used: Array, first: Array, stages: int
) -> None:
    """Note the stage of the side rests, and drop those that come too late."""
    import numpy as np

    side = np.where(first, used[done], slot)
    free[5, done, side] += 1
    late = free[5, done, side] >= stages
    free[0, done[late], side[late]] = 0
