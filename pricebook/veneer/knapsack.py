"""The most valuable sheet of any number of stages: one table for all sheet sizes.

For every box (along, across) the table holds the value of the best way to cut it
from edge to edge, each block as often as one likes (Gilmore & Gomory, Operations
Research 14 (1966), with boxes only at sums of block sizes). Leaving the counts out
can only raise the value, so the table gives bounds; patterns with too many copies
are trimmed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Pattern, Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]


def _sums(grid: Sequence[int]) -> list[list[tuple[int, int]]]:
    """Return for each place of a grid the pairs of places that add up to it."""
    where = {size: place for place, size in enumerate(grid)}
    pairs: list[list[tuple[int, int]]] = []
    for place, size in enumerate(grid):
        pairs.append(
            [
                (one, where[size - grid[one]])
                for one in range(place)
                if 2 * grid[one] <= size and size - grid[one] in where
            ]
        )
    return pairs


def pairs_in(lengths: Sequence[int], widths: Sequence[int]) -> int:
    """Return how many pairs of boxes a table compares at the most."""
    tall, wide = len(lengths), len(widths)
    return tall * wide * (tall + wide) // 4


@dataclass(slots=True)
class _Wave:
    """The boxes of one diagonal, and the pairs of smaller boxes that make them."""

    cells: Array
    one: Array
    two: Array
    starts: Array


class Knapsack:
    """A table for one problem, to be filled for many values.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets; counts are not used.
    lengths, widths : sequence of int
        The sizes along and across that boxes can have.
    """

    def __init__(
        self, problem: Problem, lengths: Sequence[int], widths: Sequence[int]
    ) -> None:
        import numpy as np

        self.problem = problem
        self.lengths, self.widths = list(lengths), list(widths)
        self.down, self.right = _sums(self.lengths), _sums(self.widths)
        self.shape = (len(self.lengths), len(self.widths))
        self.waves = [self._wave(number) for number in range(1, sum(self.shape) - 1)]
        self.corner: list[list[tuple[int, int]]] = [
            [self.place(*form) for form in block.forms] for block in problem.blocks
        ]
        self.table = np.zeros(self.shape, dtype=np.int64)
        self.base = np.full(self.shape, -1, dtype=np.int64)

    def place(self, along: int, across: int) -> tuple[int, int]:
        """Return the largest box of the table inside a rectangle."""
        from bisect import bisect_right

        return bisect_right(self.lengths, along) - 1, bisect_right(
            self.widths, across
        ) - 1

    def _wave(self, diagonal: int) -> _Wave:
        import numpy as np

        tall, wide = self.shape
        one: list[int] = []
        two: list[int] = []
        starts: list[int] = []
        cells: list[int] = []
        for i in range(max(0, diagonal - wide + 1), min(tall, diagonal + 1)):
            j = diagonal - i
            cells.append(i * wide + j)
            starts.append(len(one))
            one += [a * wide + j for a, _ in self.down[i]]
            two += [b * wide + j for _, b in self.down[i]]
            one += [i * wide + a for a, _ in self.right[j]]
            two += [i * wide + b for _, b in self.right[j]]
            # a box is worth at least what the next smaller ones are worth; the
            # last cell of the flat table is nothing
            one += [(i - 1) * wide + j] if i else []
            one += [i * wide + j - 1] if j else []
            two += [tall * wide] * ((i > 0) + (j > 0))
        return _Wave(
            *(np.array(part, dtype=np.int64) for part in (cells, one, two, starts))
        )

    def fill(self, values: Sequence[int]) -> None:
        """Work the table out for a value of each block."""
        import numpy as np

        tall, wide = self.shape
        flat = np.zeros(tall * wide + 1, dtype=np.int64)
        table = flat[:-1].reshape(self.shape)
        self.base[:] = -1
        for block in sorted(range(len(values)), key=lambda n: values[n]):
            for i, j in self.corner[block]:
                if i >= 0 and j >= 0 and values[block] > table[i, j]:
                    table[i, j] = values[block]
                    self.base[i, j] = block
        for wave in self.waves:
            best = np.maximum.reduceat(flat[wave.one] + flat[wave.two], wave.starts)
            flat[wave.cells] = np.maximum(best, flat[wave.cells])
        self.table = table

    def worth(self, stock: int) -> int:
        """Return the value of the best sheet of one stock."""
        kind = self.problem.stocks[stock]
        i, j = self.place(kind.along, kind.across)
        return int(self.table[i, j]) if i >= 0 and j >= 0 else 0

    def pattern(self, stock: int, values: Sequence[int]) -> Pattern:
        """Return the best sheet of one stock."""
        kind = self.problem.stocks[stock]
        found: list[tuple[int, int, int, int]] = []
        waiting = [(*self.place(kind.along, kind.across), 0, 0)]
        while waiting:
            i, j, along, across = waiting.pop()
            if i < 0 or j < 0 or not self.table[i, j]:
                continue
            block = int(self.base[i, j])
            if block >= 0 and values[block] == self.table[i, j]:
                form = self.corner[block].index((i, j))
                found.append((block, form, along, across))
                continue
            waiting += self._split(i, j, along, across)
        return Pattern(stock, tuple(found))

    def _split(
        self, i: int, j: int, along: int, across: int
    ) -> list[tuple[int, int, int, int]]:
        value = self.table[i, j]
        if i and self.table[i - 1, j] == value:
            return [(i - 1, j, along, across)]
        if j and self.table[i, j - 1] == value:
            return [(i, j - 1, along, across)]
        for a, b in self.down[i]:
            if self.table[a, j] + self.table[b, j] == value:
                return [(a, j, along, across), (b, j, along + self.lengths[a], across)]
        for a, b in self.right[j]:
            if self.table[i, a] + self.table[i, b] == value:
                return [(i, a, along, across), (i, b, along, across + self.widths[a])]
        raise AssertionError("a box has no pair that makes it")
