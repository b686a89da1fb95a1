"""Fills a set of sheets one after another, hundreds of ways side by side.

After each sheet the ways are kept whose rest has the most room on the sheets still
there. How much room there is, is read from known values of the blocks: what the
sheets can hold of them at the most, against what is left. For the best rest of each
step such values are worked out anew, so that the search learns what is scarce.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pricebook.veneer.columns import Worths, worths_of
from pricebook.veneer.exact import arranged
from pricebook.veneer.knapsack import Knapsack
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.set_relaxing import held_share
from pricebook.veneer.useful_sheets import Useful

if TYPE_CHECKING:
    from numpy.random import Generator
    from numpy.typing import NDArray

    Array = NDArray[Any]

_AT_ONCE = 25_000
_VALUES = 60
_LEARNT = 2
_LAST = 10
_CHOICES = 800
_MOST_CELLS = 4_000_000


class BroadFilling:
    """One set of sheets to fill.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    table : Knapsack
        Of the problem, perhaps on a coarser grid; is filled for values.
    useful : Useful
        Sheets to choose from.
    sheets : tuple of int
        How many sheets of each stock.
    worths : list of (tuple of int, tuple of int)
        Values of the blocks, and what a sheet of each stock can hold of them at the
        most; grows.
    """

    def __init__(
        self,
        problem: Problem,
        table: Knapsack,
        useful: Useful,
        sheets: tuple[int, ...],
        worths: list[Worths],
    ) -> None:
        import numpy as np

        self.table, self.useful, self.known = table, useful, worths
        self.problem = problem
        self.needed = np.array([block.count for block in problem.blocks], dtype=float)
        sizes = [-kind.along * kind.across for kind in problem.stocks]
        order = np.argsort(sizes, kind="stable")
        self.stocks = [int(n) for n in order for _ in range(sheets[n])]
        values = np.array([one for one, _ in worths], dtype=float)
        each = np.array([one for _, one in worths], dtype=float)
        spare = each @ np.array(sheets) / np.maximum(values @ self.needed, 1)
        tight = np.argsort(spare, kind="stable")[:_VALUES]
        self.values, self.worths = values[tight], each[tight]

    def fill(self, breadth: int, shake: float, rng: Generator) -> list[Pattern] | None:
        """Go through the sheets once.

        Parameters
        ----------
        breadth : int
            How many ways are kept.
        shake : float
            How far chance changes which ways are liked. [share of all room]
        rng : Generator
            Where the chance comes from.

        Returns
        -------
        list of Pattern or None
            Together they hold all blocks; None when no way led to the end.
        """
        import numpy as np

        cells = min(_CHOICES, len(self.useful.held)) * len(self.needed)
        breadth = min(breadth, max(20, _MOST_CELLS // max(1, cells)))
        rest, steps = self.needed[None], []
        for number, stock in enumerate(self.stocks[:-1]):
            places = np.nonzero(self.useful.stock_of[:_CHOICES] == stock)[0]
            grown, score = self._grown(rest, places, number + 1)
            liked = score + rng.uniform(0, shake, len(score)) * (score >= 0)
            order = np.argsort(-liked, kind="stable")[: 4 * breadth]
            order = order[score[order] >= 0]
            _, first = np.unique(grown[order], axis=0, return_index=True)
            order = order[np.sort(first)]
            order = order[self._learnt(grown[order], liked[order], number + 1)]
            end = number + 2 == len(self.stocks)
            kept = order if end else order[:breadth]
            if not len(kept):
                return None
            steps.append((kept // len(places), places[kept % len(places)]))
            rest = grown[kept]
        way, last = self._last(rest)
        if last is None:
            return None
        chosen = []
        for parents, sheet in reversed(steps):
            chosen.append(int(sheet[way]))
            way = int(parents[way])
        return [*map(self.useful.pattern, chosen[::-1]), last]

    def _room(self, begin: int) -> Array:
        """Return what the sheets from one on can hold of each of the values."""
        room: Array = self.worths[:, self.stocks[begin:]].sum(axis=1)
        return room

    def _grown(self, rest: Array, places: Array, begin: int) -> tuple[Array, Array]:
        """Return what each way leaves with each sheet, and the share of room spare."""
        import numpy as np

        room, whole = self._room(begin), np.maximum(self._room(0), 1)
        held = self.useful.held[places].astype(float)
        grown, scores = [rest[:0]], [rest[:0, 0]]
        step = max(1, _AT_ONCE // max(1, len(places)))
        for one in range(0, len(rest), step):
            left = np.maximum(rest[one : one + step, None] - held, 0)
            rows = left.reshape(-1, rest.shape[1])
            grown.append(rows)
            # whole numbers below 2**53: exact in any order of adding
            scores.append(((room - rows @ self.values.T) / whole).min(axis=1))
        return np.concatenate(grown), np.concatenate(scores)

    def _learnt(self, rest: Array, liked: Array, begin: int) -> Array:
        """Work values out for the best rest, and sort the rests by them too."""
        import numpy as np

        stocks = self.stocks[begin:]
        sheets = tuple(stocks.count(n) for n in range(len(self.problem.stocks)))
        for _ in range(_LEARNT):
            if not len(rest) or (best := int(liked.argmax())) < 0 or liked[best] < 0:
                break
            values = held_share(
                self.useful.held.T, self.useful.stock_of, rest[best], sheets
            )[1]
            self.table.fill(values)
            worths = worths_of(self.table, values)
            self.known.append(worths)
            self.values = np.vstack([self.values, np.array(worths[0], dtype=float)])
            self.worths = np.vstack([self.worths, np.array(worths[1], dtype=float)])
            room, whole = self._room(begin)[-1], max(self._room(0)[-1], 1)
            liked = np.minimum(liked, (room - rest @ self.values[-1]) / whole)
        order = np.argsort(-liked, kind="stable")
        return order[liked[order] >= 0]

    def _last(self, rest: Array) -> tuple[int, Pattern | None]:
        """Return a way whose rest fits the last sheet."""
        import numpy as np

        places = np.nonzero(self.useful.stock_of == self.stocks[-1])[0]
        held = self.useful.held[places]
        for way, left in enumerate(rest):
            inside = np.nonzero((held >= left).all(axis=1))[0]
            if len(inside):
                return way, self.useful.pattern(int(places[inside[0]]))
        for way, left in enumerate(rest[:_LAST]):
            counts = tuple(map(int, left))
            pattern = arranged(self.problem, self.stocks[-1], counts)
            if pattern is not None:
                return way, pattern
        return -1, None
