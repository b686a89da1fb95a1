"""For every selection of blocks, the smallest boxes they can be cut from.

A box is either one block, or two boxes joined, one beyond the other along the grain
or side by side across it. For a selection S the table holds two staircases that say
the same: the least length along the grain for every width, and the least width for
every length. Joining along adds the first, joining across adds the second, so a
whole staircase is joined in one addition of arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Block, Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

NEVER = 2**29
"""Larger than any size here; twice it is still a 32-bit number."""


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

    def pairs(self, number: int) -> tuple[Array, Array]:
        """Return the rows of all pairs of selections that make up one."""
        inside = self.selections.parts_of(number)
        half = inside[1 : (len(inside) + 1) // 2]
        one, two = self.row[half], self.row[number - half]
        good = (one >= 0) & (two >= 0)
        return one[good], two[good]

    def keep(self, number: int, length: Array, width: Array, caps: Array) -> None:
        """Merge both staircases of a selection, and store them if any box fits."""
        length = _least(length, _turned(width, self.lengths, self.widths))
        if not (length <= caps).any():
            return
        length[length > self.lengths[-1]] = NEVER
        self.row[number] = self.used
        self.length[self.used] = length
        self.width[self.used] = _turned(length, self.widths, self.lengths)
        self.used += 1


def _least(one: Array, two: Array) -> Array:
    import numpy as np

    least: Array = np.minimum(one, two)
    return least


def _turned(stairs: Array, places: Array, levels: Array) -> Array:
    """Turn the least y for every x into the least x for every y."""
    import numpy as np

    falling = len(places) - np.searchsorted(stairs[::-1], levels, side="right")
    padded = np.append(places, np.int32(NEVER))
    turned: Array = padded[falling]
    return turned


def _joined(stairs: Array, one: Array, two: Array) -> Array:
    """Return the least of all sums of two rows."""
    import numpy as np

    sums = stairs.take(one, axis=0)
    sums += stairs.take(two, axis=0)
    least: Array = np.minimum(sums.min(axis=0), NEVER)
    return least


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
    for number in map(int, wanted):
        if number in ones:
            boxes.keep(number, *ones[number], caps)
            continue
        one, two = boxes.pairs(number)
        if len(one):
            length = _joined(boxes.length, one, two)
            width = _joined(boxes.width, one, two)
            boxes.keep(number, length, width, caps)
    return boxes
