"""All sheets with blocks on them that were found so far, each once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import TYPE_CHECKING, Any

from pricebook.veneer.model import Pattern, Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pricebook.veneer.filling import Packings

    Array = NDArray[Any]

Counts = tuple[int, ...]


@dataclass(slots=True)
class Pool:
    """Patterns by stock and by how many of each block they hold.

    Parameters
    ----------
    problem : Problem
        What the patterns are for.
    """

    problem: Problem
    patterns: dict[tuple[int, Counts], Pattern] = field(default_factory=dict)
    hashes: set[tuple[int, int]] = field(default_factory=set)
    table: tuple[Array, Array] | None = None

    def add(self, patterns: Iterable[Pattern]) -> None:
        """Add patterns that are not yet there."""
        for pattern in patterns:
            key = (pattern.stock, counts_of(pattern, len(self.problem.blocks)))
            self.patterns.setdefault(key, pattern)

    def matrix(self) -> tuple[Array, Array]:
        """Return how many of each block every pattern holds, and its stock."""
        import numpy as np

        known = 0 if self.table is None else len(self.table[1])
        if self.table is None or known < len(self.patterns):
            fresh = list(islice(self.patterns, known, None))
            held = np.array([counts for _, counts in fresh], dtype=np.float64)
            held = held.reshape(len(fresh), len(self.problem.blocks)).T
            stock = np.array([kind for kind, _ in fresh], dtype=np.int64)
            if self.table is not None:
                held = np.hstack([self.table[0], held])
                stock = np.concatenate([self.table[1], stock])
            self.table = held, stock
        return self.table

    def harvest(self, packings: Packings, rows: Iterable[int] | None = None) -> None:
        """Add every sheet of every packing, or of some rows."""
        import numpy as np

        count = len(self.problem.blocks)
        marks = np.random.default_rng(7).integers(1, 2**62, count, dtype=np.int64)
        block, sheet = packings.orders.block, packings.sheet
        row, step = np.nonzero(sheet >= 0)
        hashed = np.zeros(packings.stock.shape, dtype=np.int64)
        with np.errstate(over="ignore"):
            np.add.at(hashed, (row, sheet[row, step]), marks[block[row, step]])
        allowed = None if rows is None else set(rows)
        found = []
        for one, two in zip(*np.nonzero(packings.stock >= 0), strict=True):
            mark = (int(packings.stock[one, two]), int(hashed[one, two]))
            if mark in self.hashes or (allowed is not None and one not in allowed):
                continue
            self.hashes.add(mark)
            found.append(packings.pattern(int(one), int(two)))
        self.add(found)


def counts_of(pattern: Pattern, blocks: int) -> Counts:
    """Return how many of each block a pattern holds.

    Examples
    --------
    >>> counts_of(Pattern(0, ((1, 0, 0, 0), (1, 0, 5, 0))), 3)
    (0, 2, 0)
    """
    counts = [0] * blocks
    for block, *_ in pattern.blocks:
        counts[block] += 1
    return tuple(counts)


def cost_of(patterns: Sequence[Pattern], problem: Problem) -> int:
    """Return what the sheets of a plan cost together."""
    return sum(problem.stocks[pattern.stock].price for pattern in patterns)


def trim(patterns: Sequence[Pattern], problem: Problem) -> list[Pattern] | None:
    """Drop blocks beyond their number, and empty sheets.

    Returns
    -------
    list of Pattern, or None
        None when a block is missing or a stock is used too often.
    """
    left = [block.count for block in problem.blocks]
    most = [stock.most for stock in problem.stocks]
    kept: list[Pattern] = []
    for pattern in patterns:
        blocks = []
        for entry in pattern.blocks:
            if left[entry[0]] > 0:
                left[entry[0]] -= 1
                blocks.append(entry)
        if blocks:
            kept.append(Pattern(pattern.stock, tuple(blocks)))
            limit = most[pattern.stock]
            if limit is not None:
                most[pattern.stock] = limit - 1
    if any(left) or any(limit is not None and limit < 0 for limit in most):
        return None
    return kept
