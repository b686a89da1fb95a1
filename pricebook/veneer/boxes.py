"""For every selection of blocks, the smallest boxes they can be cut from.

A box is either one block, or two boxes joined, one beyond the other along the grain
or side by side across it. For a selection S the table holds two staircases that say
the same: the least length along the grain for every width, and the least width for
every length. Joining along adds the first, joining across adds the second, so a
whole staircase is joined in one addition of arrays.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Block, Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

NEVER = 2**29
"""Larger than any size here; twice it is still a 32-bit number."""

_AT_A_TIME = 4_000_000
"""So many sums are made at once; more would only take memory."""


def reachable(sizes: list[tuple[int, int]], limit: int, most: int) -> list[int] | None:
    """Return every sum of sizes up to a limit.

    Parameters
    ----------
    sizes : list of (int, int)
        Size and how many there are.
    limit : int
        The largest sum wanted.
    most : int
        Give up beyond so many sums.

    Returns
    -------
    list of int or None
        The sums above 0, in order; None when there are too many.

    Examples
    --------
    >>> reachable([(3, 2), (5, 1)], 10, 99)
    [3, 5, 6, 8]
    """
    sums = {0}
    for size, count in sizes:
        step = sums
        for _ in range(min(count, limit // size)):
            step = {total + size for total in step if total + size <= limit} - sums
            if not step:
                break
            sums = sums | step
            if len(sums) > most:
                return None
    return sorted(sums - {0})


def grid(problem: Problem, axis: int, most: int) -> list[int] | None:
    """Return the sizes that boxes can have on one axis, or None if too many."""
    limit = max(
        (kind.along, kind.across)[axis] for kind in problem.stocks if kind.most != 0
    )
    sizes = [
        (form[axis], block.count) for block in problem.blocks for form in block.forms
    ]
    return reachable(sizes, limit, most)


@dataclass(slots=True)
class Selections:
    """Sub-multisets of the blocks, numbered in a mixed base.

    Parameters
    ----------
    counts : tuple of int
        How many of each block there are.
    """

    counts: tuple[int, ...]
    strides: tuple[int, ...] = ()
    total: int = 1

    def __post_init__(self) -> None:
        strides = []
        for count in self.counts:
            strides.append(self.total)
            self.total *= count + 1
        self.strides = tuple(strides)

    def digits(self, number: int) -> tuple[int, ...]:
        """Return how many of each block a selection holds."""
        return tuple(
            number // stride % (count + 1)
            for stride, count in zip(self.strides, self.counts, strict=True)
        )

    def parts_of(self, number: int) -> Array:
        """Return all selections inside one, in order; the n-th and n-th last add up."""
        import numpy as np

        inside = np.zeros(1, dtype=np.int64)
        for digit, stride in zip(self.digits(number), self.strides, strict=True):
            if digit:
                steps = np.arange(0, (digit + 1) * stride, stride)
                inside = (steps[:, None] + inside).ravel()
        return inside

    def sizes(self) -> tuple[Array, Array]:
        """Return of every selection how many units it has, and how many parts."""
        import numpy as np

        units = np.zeros(1, dtype=np.int64)
        inside = np.ones(1, dtype=np.int64)
        for count in self.counts:
            steps = np.arange(count + 1)
            units = (steps[:, None] + units).ravel()
            inside = ((steps + 1)[:, None] * inside).ravel()
        return units, inside

    def halves(self, numbers: Array) -> tuple[Array, Array]:
        """Return all pairs (selection, smaller part of it) of some selections."""
        import numpy as np

        whole, part = numbers, np.zeros_like(numbers)
        for count, stride in zip(self.counts, self.strides, strict=True):
            times = whole // stride % (count + 1) + 1
            first = np.repeat(np.cumsum(times) - times, times)
            step = np.arange(len(first)) - first
            whole, part = np.repeat(whole, times), np.repeat(part, times)
            part += step * stride
        good = (part > 0) & (2 * part <= whole)
        return whole[good], part[good]


@dataclass(slots=True)
class Boxes:
    """The staircases of all selections that fit some sheet.

    Parameters
    ----------
    selections : Selections
        The numbering.
    lengths, widths : array of int
        All lengths along and widths across that boxes can have.
    row : array of int, one a selection
        Its row in the tables, -1 when it fits no sheet.
    length : array of int, rows x widths
        The least length of a box that is so wide at the most.
    width : array of int, rows x lengths
        The least width of a box that is so long at the most.
    """

    selections: Selections
    lengths: Array
    widths: Array
    row: Array
    length: Array
    width: Array
    used: int = 0

    def keep(self, numbers: Array, length: Array, width: Array, caps: Array) -> None:
        """Merge both staircases of selections, and store those of which a box fits."""
        import numpy as np

        turned = _turned(width, self.lengths, self.widths)
        length = np.minimum(length, turned, out=turned)
        fits = (length <= caps).any(axis=1)
        length = length[fits]
        length[length > self.lengths[-1]] = NEVER
        rows = slice(self.used, self.used + len(length))
        self.row[numbers[fits]] = np.arange(rows.start, rows.stop)
        self.length[rows] = length
        self.width[rows] = _turned(length, self.widths, self.lengths)
        self.used = rows.stop


def _turned(stairs: Array, places: Array, levels: Array) -> Array:
    """Turn the least y for every x into the least x for every y, row by row."""
    import numpy as np

    rows, steps = stairs.shape
    level = np.searchsorted(levels, stairs)
    turned = np.full((rows, len(levels) + 1), NEVER, dtype=np.int32)
    # from the last place to the first: of places on one level the first remains
    row = np.repeat(np.arange(rows), steps)
    turned[row, level[:, ::-1].ravel()] = np.tile(places[::-1], rows)
    least: Array = np.minimum.accumulate(turned[:, :-1], axis=1)
    return least


def _joined(stairs: Array, one: Array, two: Array, starts: Array) -> Array:
    """Return for each selection the least of all sums of two rows."""
    import numpy as np

    sums = stairs.take(one, axis=0)
    sums += stairs.take(two, axis=0)
    least: Array = np.minimum.reduceat(sums, starts, axis=0)
    return np.minimum(least, NEVER, out=least)


def single(block: Block, boxes: Boxes) -> tuple[Array, Array]:
    """Return the staircases of one block."""
    import numpy as np

    length = np.full(len(boxes.widths), NEVER, dtype=np.int32)
    width = np.full(len(boxes.lengths), NEVER, dtype=np.int32)
    for along, across in block.forms:
        length = np.where(boxes.widths >= across, np.minimum(length, along), length)
        width = np.where(boxes.lengths >= along, np.minimum(width, across), width)
    return length, width


def build(problem: Problem, lengths: list[int], widths: list[int]) -> Boxes:
    """Fill the tables, smaller selections first.

    Parameters
    ----------
    problem : Problem
        The blocks and sheets.
    lengths, widths : list of int
        The grids along and across.

    Returns
    -------
    Boxes
        Exact: no box that can be cut is missing.
    """
    import numpy as np

    selections = Selections(tuple(block.count for block in problem.blocks))
    areas = np.zeros(1, dtype=np.int64)
    for block in problem.blocks:
        area = block.forms[0][0] * block.forms[0][1]
        steps = area * np.arange(block.count + 1)
        areas = (steps[:, None] + areas).ravel()
    kinds = [kind for kind in problem.stocks if kind.most != 0]
    wanted = np.nonzero(areas <= max(k.along * k.across for k in kinds))[0][1:]
    boxes = Boxes(
        selections,
        np.array(lengths, dtype=np.int32),
        np.array(widths, dtype=np.int32),
        np.full(selections.total, -1),
        np.empty((len(wanted), len(widths)), dtype=np.int32),
        np.empty((len(wanted), len(lengths)), dtype=np.int32),
    )
    caps = np.zeros(len(widths), dtype=np.int64)
    for kind in kinds:
        caps = np.where(boxes.widths <= kind.across, np.maximum(caps, kind.along), caps)
    ones = {
        stride: single(block, boxes)
        for stride, block in zip(selections.strides, problem.blocks, strict=True)
    }
    for number, (length, width) in ones.items():
        boxes.keep(np.array([number]), length[None], width[None], caps)
    for numbers in _layers(selections, wanted, len(lengths) + len(widths)):
        whole, part = selections.halves(numbers)
        one, two = boxes.row[part], boxes.row[whole - part]
        good = (one >= 0) & (two >= 0)
        if not good.any():
            continue
        whole, one, two = whole[good], one[good], two[good]
        starts = np.flatnonzero(np.diff(whole, prepend=-1))
        length = _joined(boxes.length, one, two, starts)
        width = _joined(boxes.width, one, two, starts)
        boxes.keep(whole[starts], length, width, caps)
    return boxes


def _layers(selections: Selections, wanted: Array, cells: int) -> Iterator[Array]:
    """Yield selections of more than one unit, smaller ones first, a handful at once."""
    import numpy as np

    units, inside = (sizes[wanted] for sizes in selections.sizes())
    order = np.argsort(units, kind="stable")
    order = order[units[order] > 1]
    wanted, units = wanted[order], units[order]
    work = np.cumsum(inside[order] * cells)
    begin = 0
    while begin < len(wanted):
        done = work[begin - 1] if begin else 0
        end = int(np.searchsorted(work, done + _AT_A_TIME, side="right"))
        end = min(end, int(np.searchsorted(units, units[begin], side="right")))
        end = max(end, begin + 1)
        yield wanted[begin:end]
        begin = end
