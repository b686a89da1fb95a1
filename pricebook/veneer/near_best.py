"""Every sheet that is worth nearly as much as the best: what a cheaper plan must use.

If values of the blocks are a feasible dual solution with bound B, then a plan that
costs no more than B + g uses only sheets whose value misses their price by g at the
most. All of those are listed here, so that a search among them proves something.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from pricebook.veneer.knapsack import Knapsack

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]
    Found = dict[int, int]
    """Value of each selection; a selection is a number with a digit a block."""

BITS = 9
"""A digit goes up to 255 copies of a block on one sheet; the ninth bit tells more."""

MOST_COPIES = 255
"""No sheet listed holds more of a block."""


class TooManyError(Exception):
    """There are more such sheets than are worth listing."""


class NearBest:
    """Lists selections by the box they are cut from.

    Parameters
    ----------
    table : Knapsack
        Filled for the values.
    values : sequence of int
        The values of the blocks.
    misses : sequence of int
        By how much the best sheet of each stock misses its price.
    slack : int
        By how much a sheet may miss its price.
    most : int
        Give up beyond so many selections in all.
    """

    def __init__(
        self,
        table: Knapsack,
        values: Sequence[int],
        misses: Sequence[int],
        slack: int,
        most: int,
    ) -> None:
        self.table, self.values, self.left = table, values, most
        self.best = table.table.tolist()
        counts = [min(block.count, MOST_COPIES) for block in table.problem.blocks]
        self.lift = sum(
            (MOST_COPIES - count) << (BITS * n) for n, count in enumerate(counts)
        )
        self.beyond = sum(1 << (BITS * n + BITS - 1) for n in range(len(counts)))
        self.allowed = (slack - _losses(table, misses)).tolist()
        self.known: dict[tuple[int, int], Found] = {}
        self.bases: dict[tuple[int, int], list[int]] = {}
        for block, corners in enumerate(table.corner):
            for corner in corners:
                self.bases.setdefault(corner, []).append(block)

    def of(self, i: int, j: int) -> Found:
        """Return the selections of a box that some listed sheet may use.

        None holds more of a block than are needed.
        """
        if (i, j) in self.known:
            return self.known[i, j]
        least = self.best[i][j] - self.allowed[i][j]
        found: Found = {0: 0} if least <= 0 else {}
        for block in self.bases.get((i, j), ()):
            needed = self.table.problem.blocks[block].count
            if self.values[block] >= least and self.values[block] and needed:
                found[1 << (BITS * block)] = self.values[block]
        smaller = ((i - 1, j), (i, j - 1))
        for a, b in smaller:
            if a >= 0 and b >= 0 and self.best[a][b] >= least:
                found |= {n: v for n, v in self.of(a, b).items() if v >= least}
        for one, two in self._pairs(i, j):
            self._join(one, two, least, found)
        self.left -= len(found)
        if self.left < 0:
            raise TooManyError
        self.known[i, j] = found
        return found

    def arranged(
        self, i: int, j: int, selection: int, along: int = 0, across: int = 0
    ) -> list[tuple[int, int, int, int]]:
        """Lay a listed selection of a box out: (block, form, offsets) of each part."""
        if not selection:
            return []
        for block in self.bases.get((i, j), ()):
            if selection == 1 << (BITS * block):
                form = self.table.corner[block].index((i, j))
                return [(block, form, along, across)]
        for a, b in ((i - 1, j), (i, j - 1)):
            if a >= 0 and b >= 0 and selection in self.known.get((a, b), {}):
                return self.arranged(a, b, selection, along, across)
        one, two, first = self._halves(i, j, selection)
        rest = selection - first
        if one[0] < i:
            shifted = along + self.table.lengths[one[0]], across
        else:
            shifted = along, across + self.table.widths[one[1]]
        return [
            *self.arranged(*one, first, along, across),
            *self.arranged(*two, rest, *shifted),
        ]

    def _halves(
        self, i: int, j: int, selection: int
    ) -> tuple[tuple[int, int], tuple[int, int], int]:
        """Return two boxes, and what of a selection the first of them holds."""
        for one, two in self._pairs(i, j):
            others = self.known.get(two, {})
            for first in self.known.get(one, {}):
                if selection - first in others:
                    return one, two, first
        raise AssertionError("a listed selection has no pair that makes it")

    def _pairs(self, i: int, j: int) -> list[tuple[tuple[int, int], tuple[int, int]]]:
        """Return the pairs of boxes that one cut makes of a box."""
        pairs = [((a, j), (b, j)) for a, b in self.table.down[i]]
        return pairs + [((i, a), (i, b)) for a, b in self.table.right[j]]

    def _join(
        self, one: tuple[int, int], two: tuple[int, int], least: int, found: Found
    ) -> None:
        best = self.best[two[0]][two[1]]
        if self.best[one[0]][one[1]] + best < least:
            return
        others = self.of(*two).items()
        for first, value in self.of(*one).items():
            if value + best < least:
                continue
            for second, more in others:
                both = first + second
                if value + more >= least and not (both + self.lift) & self.beyond:
                    found[both] = value + more


def counts_in(selection: int, blocks: int) -> tuple[int, ...]:
    """Return how many of each block a selection holds."""
    digit = 2**BITS - 1
    return tuple(selection >> (BITS * n) & digit for n in range(blocks))


def _losses(table: Knapsack, misses: Sequence[int]) -> Array:
    """Return for each box what a sheet misses at the least that is cut through it."""
    import numpy as np

    tall, wide = table.shape
    loss = np.full(tall * wide + 1, np.iinfo(np.int64).max // 4)
    for kind, miss in zip(table.problem.stocks, misses, strict=True):
        i, j = table.place(kind.along, kind.across)
        if kind.most != 0 and i >= 0 and j >= 0:
            loss[i * wide + j] = min(miss, loss[i * wide + j])
    flat = np.append(table.table.ravel(), 0)
    for wave in reversed(table.waves):
        cell = np.repeat(wave.cells, np.diff(np.append(wave.starts, len(wave.one))))
        through = loss[cell] + flat[cell] - flat[wave.one] - flat[wave.two]
        np.minimum.at(loss, wave.one, through)
        np.minimum.at(loss, wave.two, through)
    result: Array = loss[:-1].reshape(table.shape)
    return result
