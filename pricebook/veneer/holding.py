"""What is known of one size of sheet: which selections it holds, and which never."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations_with_replacement, product
from typing import TYPE_CHECKING, Any

from pricebook.veneer.bounds import stretched
from pricebook.veneer.boxes import Boxes, build
from pricebook.veneer.exact import predicted_work
from pricebook.veneer.model import Block, Problem, Stock

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_FEW = 4
"""Selections of fewer blocks are judged by their pairs and areas alone at first."""

_EARLY = 6_000_000
_ONE_SHEET = 60_000_000
"""More sums than these are too much for a selection that is growing, or is whole."""


class UndecidedError(Exception):
    """The question is not decided within its limit."""


class Holding:
    """Answers whether a selection can be cut from one sheet, and remembers.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    stock : int
        Which sheet.

    Notes
    -----
    Whether a selection can be cut is worked out exactly. From one that cannot, all
    its smallest parts that cannot are kept, so that whatever holds one of them is
    refused at once. Areas as shapes really take them up (dual feasible functions)
    refuse others without any work.
    """

    def __init__(self, problem: Problem, stock: int) -> None:
        import numpy as np

        self.problem, self.stock = problem, stock
        self.kind = problem.stocks[stock]
        self.rows = _shares(problem, self.kind)
        self.never: Array = np.zeros((0, len(problem.blocks)), dtype=np.int64)
        self.held = self.never
        self.learnt: list[tuple[int, ...]] = []
        self._answers: dict[tuple[int, ...], bool] = {}
        self._known: set[tuple[int, ...]] = set()
        self.learn(_pairs_apart(problem.blocks, self.kind))

    def learn(self, never: list[tuple[int, ...]]) -> None:
        """Keep selections that cannot be cut from this sheet."""
        import numpy as np

        fresh = [one for one in dict.fromkeys(never) if one not in self._known]
        if fresh:
            self._known.update(fresh)
            self.never = np.vstack([self.never, np.array(fresh)])

    def allowed(self, selection: Array) -> Array | None:
        """Return which blocks may be added, as far as is known.

        Returns
        -------
        array of bool, or None
            None when the selection itself is known not to fit.
        """
        import numpy as np

        missing = np.maximum(self.never - selection, 0)
        short = missing.sum(axis=1)
        load = self.rows @ selection
        if (load > 1).any() or not short.all():
            return None
        barred: Array = np.any(load[:, None] + self.rows > 1, axis=0)
        barred |= np.any(missing[short == 1], axis=0)
        return ~barred

    def may_hold(self, selection: Array) -> bool:
        """Return whether a selection that is growing may be cut from the sheet."""
        if int(selection.sum()) < _FEW:
            return True
        try:
            return self.holds(selection, _EARLY)
        except UndecidedError:
            return True

    def holds(self, selection: Array, most: int = _ONE_SHEET) -> bool:
        """Return whether a selection can be cut from the sheet.

        Raises
        ------
        UndecidedError
            If that is too much work.
        """
        import numpy as np

        key = tuple(map(int, selection))
        if key not in self._answers:
            known = (self.held >= selection).all(axis=1).any()
            self._answers[key] = bool(known) or self._cut(key, most)
            if self._answers[key] and not known:
                self.held = np.vstack([self.held, selection])
        return self._answers[key]

    def _cut(self, counts: tuple[int, ...], most: int) -> bool:
        used = [n for n, count in enumerate(counts) if count]
        blocks = tuple(replace(self.problem.blocks[n], count=counts[n]) for n in used)
        stocks = (replace(self.kind, most=None),)
        small = replace(self.problem, blocks=blocks, stocks=stocks)
        work = predicted_work(small, most)
        if work is None or work.sums > most:
            raise UndecidedError
        boxes = build(small, work.lengths, work.widths)
        if boxes.row[-1] >= 0:
            return True
        never = []
        for digits in _smallest_never(boxes):
            spread = [0] * len(counts)
            for block, count in zip(used, digits, strict=True):
                spread[block] = count
            never.append(tuple(spread))
        self.learnt = never
        self.learn(never)
        return False


def _smallest_never(boxes: Boxes) -> list[tuple[int, ...]]:
    """Return the selections without a box of which every smaller one has a box."""
    import numpy as np

    has_box = boxes.row >= 0
    has_box[0] = True
    never = np.flatnonzero(~has_box)
    smallest = np.ones(len(never), dtype=bool)
    selections = boxes.selections
    for count, stride in zip(selections.counts, selections.strides, strict=True):
        some = never // stride % (count + 1) > 0
        smallest &= ~some | has_box[np.where(some, never - stride, 0)]
    return [selections.digits(int(number)) for number in never[smallest]]


def _pairs_apart(blocks: tuple[Block, ...], kind: Stock) -> list[tuple[int, ...]]:
    """Return the blocks that fit no such sheet, and pairs that never share one."""

    def beside(one: tuple[int, int], two: tuple[int, int]) -> bool:
        long = max(one[0], two[0]) <= kind.along and one[1] + two[1] <= kind.across
        wide = max(one[1], two[1]) <= kind.across and one[0] + two[0] <= kind.along
        return long or wide

    found = []
    numbers = range(len(blocks))
    alone = [
        any(a <= kind.along and c <= kind.across for a, c in block.forms)
        for block in blocks
    ]
    for n in numbers:
        if not alone[n]:
            found.append(tuple(int(n == m) for m in numbers))
    for one, two in combinations_with_replacement(numbers, 2):
        pairs = product(blocks[one].forms, blocks[two].forms)
        if alone[one] and alone[two] and not any(beside(*pair) for pair in pairs):
            found.append(tuple((n == one) + (n == two) for n in numbers))
    return found


def _shares(problem: Problem, kind: Stock) -> Array:
    """Return of every block what share of the sheet it takes, counted in many ways."""
    import numpy as np

    sizes = [form for block in problem.blocks for form in block.forms]
    sizes = [(a, c) for a, c in sizes if a <= kind.along and c <= kind.across]
    talls = stretched(sorted({along for along, _ in sizes}), kind.along)
    wides = stretched(sorted({across for _, across in sizes}), kind.across)
    whole = kind.along * kind.across
    rows = np.array(
        [
            [
                min(tall.get(a, 0) * wide.get(c, 0) for a, c in block.forms) / whole
                for block in problem.blocks
            ]
            for tall, wide in product(talls, wides)
        ]
    )
    # a share may be a hair too large where it is a fraction
    rows = np.unique(rows, axis=0) * (1 - 1e-12)
    above = (rows[None] >= rows[:, None]).all(axis=2)
    kept: Array = rows[above.sum(axis=1) == 1]
    return kept
