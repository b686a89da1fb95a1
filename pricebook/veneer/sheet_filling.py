"""Fills a set of sheets with all blocks, or proves that it is too small.

Blocks go on the sheets one by one, those with the fewest places first; a sheet that
cannot hold what lies on it ends that branch, and what was learnt of it is kept for all
others (S. Martello & D. Vigo, Management Science 44 (1998); J.-F. Côté, M. Haouari &
M. Iori, INFORMS Journal on Computing 33 (2021)).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pricebook.veneer.columns import Worths
from pricebook.veneer.holding import Holding, UndecidedError
from pricebook.veneer.model import Problem

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

SheetSet = tuple[int, ...]
"""How many sheets of each stock."""

_VALUES = 24
"""So many ways to value the blocks are compared at each step."""


@dataclass(slots=True)
class _Sheets:
    """Sheets with what lies on them, what may be added, and what may not be."""

    on: list[Array]
    allowed: list[Array]
    barred: Array
    left: Array


class Filling:
    """Fills sets of sheets, and remembers what no sheet holds.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.

    Attributes
    ----------
    steps : int
        How many steps to make for all sets together; a count and not a time, so
        that every machine gives the same answer.
    """

    def __init__(self, problem: Problem) -> None:
        import numpy as np

        self.problem = problem
        self.steps = 0
        self.holdings = [Holding(problem, n) for n in range(len(problem.stocks))]
        self.areas = np.array([b.forms[0][0] * b.forms[0][1] for b in problem.blocks])
        self.counts = np.array([block.count for block in problem.blocks])
        self.values: Array = self.areas[None]
        sizes = [kind.along * kind.across for kind in problem.stocks]
        self.capacity: Array = np.array([sizes])

    def value(self, worths: Sequence[Worths]) -> None:
        """Take values of the blocks to compare sheets by, beside their areas."""
        import numpy as np

        if worths:
            values, capacity = zip(*dict.fromkeys(worths), strict=True)
            self.values = np.vstack([self.areas, np.array(values)])
            self.capacity = np.vstack([self.capacity[:1], np.array(capacity)])

    def fill(self, sheets: SheetSet) -> list[tuple[int, tuple[int, ...]]] | None:
        """Return what lies on each sheet of a set, or None when it is too small.

        Parameters
        ----------
        sheets : tuple of int
            How many of each stock.

        Returns
        -------
        list of (int, tuple of int), or None
            For each sheet its stock and how many of each block.

        Raises
        ------
        UndecidedError
            If the steps do not suffice.
        """
        import numpy as np

        self.stocks = [n for n, count in enumerate(sheets) for _ in range(count)]
        self._choose_values()
        kinds = len(self.problem.blocks)
        empty = np.zeros(kinds, dtype=np.int64)
        allowed = [self.holdings[n].allowed(empty) for n in self.stocks]
        found = self._step(
            _Sheets(
                on=[empty] * len(self.stocks),
                allowed=[one for one in allowed if one is not None],
                barred=np.zeros((len(self.stocks), kinds), dtype=bool),
                left=self.counts,
            )
        )
        if found is None:
            return None
        return [
            (stock, tuple(map(int, one)))
            for stock, one in zip(self.stocks, found, strict=True)
        ]

    def _choose_values(self) -> None:
        """Keep the values by which this set of sheets is the scarcest, and areas."""
        import numpy as np

        capacity = self.capacity[:, self.stocks]
        spare = capacity.sum(axis=1) / np.maximum(self.values @ self.counts, 1)
        spare[0] = 0
        rows = np.argsort(spare, kind="stable")[:_VALUES]
        self.room_values = self.values[rows]
        self.room_capacity = capacity[rows].T

    def _step(self, sheets: _Sheets) -> list[Array] | None:
        """Place one more block on every sheet that may take it, in turn."""
        self.steps -= 1
        if self.steps < 0:
            raise UndecidedError
        if not sheets.left.any():
            full = zip(self.stocks, sheets.on, strict=True)
            whole = all(self._told(n, self.holdings[n].holds(one)) for n, one in full)
            return sheets.on if whole else None
        open_to = self._open(sheets)
        if open_to is None:
            return None
        block = self._scarcest(sheets, open_to)
        tried = set()
        for place in map(int, open_to[:, block].nonzero()[0]):
            on = sheets.on[place]
            alike = (self.stocks[place], on.tobytes(), sheets.barred[place].tobytes())
            if alike in tried:
                continue
            tried.add(alike)
            known = self._knowledge()
            found = self._with(sheets, place, block)
            if found is not None:
                return found
            sheets.barred[place, block] = True
            if self._knowledge() != known and not self._looked_at_again(sheets):
                return None
        return None

    def _with(self, sheets: _Sheets, place: int, block: int) -> list[Array] | None:
        """Place one block on one sheet, and go on."""
        stock = self.stocks[place]
        on = sheets.on[place].copy()
        on[block] += 1
        holding = self.holdings[stock]
        if not self._told(stock, holding.may_hold(on)):
            return None
        allowed = holding.allowed(on)
        if allowed is None:
            return None
        left = sheets.left.copy()
        left[block] -= 1
        return self._step(
            _Sheets(
                on=[*sheets.on[:place], on, *sheets.on[place + 1 :]],
                allowed=[
                    *sheets.allowed[:place], allowed, *sheets.allowed[place + 1 :]
                ],
                barred=sheets.barred.copy(),
                left=left,
            )
        )  # fmt: skip

    def _open(self, sheets: _Sheets) -> Array | None:
        """Return which sheet may take which block, or None when that is too little."""
        import numpy as np

        open_to: Array = np.array(sheets.allowed) & ~sheets.barred
        if not open_to[:, sheets.left > 0].any(axis=0).all():
            return None
        return open_to if self._room(sheets, open_to) else None

    def _room(self, sheets: _Sheets, open_to: Array) -> bool:
        """Compare what is left with the room on the sheets, by value and by shape."""
        import numpy as np

        values = self.room_values
        room = self.room_capacity - np.array(sheets.on) @ values.T
        wanted = (open_to * sheets.left) @ values.T
        if (np.minimum(room, wanted).sum(axis=0) < values @ sheets.left).any():
            return False
        for stock in set(self.stocks):
            same = [n for n, other in enumerate(self.stocks) if other == stock]
            others = [n for n, other in enumerate(self.stocks) if other != stock]
            only = sheets.left * ~open_to[others].any(axis=0)
            rows = self.holdings[stock].rows
            on = sum(sheets.on[n] for n in same)
            if (rows @ (only + on) > len(same) + 1e-9).any():
                return False
        return True

    def _scarcest(self, sheets: _Sheets, open_to: Array) -> int:
        """Return the block with the fewest places, the largest of those."""
        import numpy as np

        places = open_to.sum(axis=0)
        places[sheets.left == 0] = len(self.stocks) + 1
        return int(np.lexsort((-self.areas, places))[0])

    def _looked_at_again(self, sheets: _Sheets) -> bool:
        """Apply what was learnt meanwhile; False when a sheet holds too much."""
        for place, stock in enumerate(self.stocks):
            allowed = self.holdings[stock].allowed(sheets.on[place])
            if allowed is None:
                return False
            sheets.allowed[place] = allowed
        return True

    def _told(self, stock: int, answer: bool) -> bool:
        """Pass an answer on, and tell all smaller sheets what this one never holds."""
        holding = self.holdings[stock]
        if answer:
            return True
        for other in self.holdings:
            inside = other.kind.along <= holding.kind.along
            if inside and other.kind.across <= holding.kind.across:
                other.learn(holding.learnt)
        return False

    def _knowledge(self) -> int:
        return sum(len(holding.never) for holding in self.holdings)
