"""How many sheets of each size: one whole-number set of sheets after another.

Column generation for the least cost mixes sheets in fractions. Here the numbers of
sheets are whole: for each set of sheets, the cheapest first, the largest share of all
blocks is worked out that patterns hold in fractions. Below one, the set is ruled out,
and the values behind it rule out others; else the sheets are listed that the set can
use at all, and it is filled with them, or proven to leave something over.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import mul
from typing import TYPE_CHECKING, Any

from pricebook.veneer.broad_filling import BroadFilling
from pricebook.veneer.columns import Proof, Worths, new_sheets, shaken, worths_of
from pricebook.veneer.diving import guide
from pricebook.veneer.model import Pattern
from pricebook.veneer.pool import Pool, trim
from pricebook.veneer.set_relaxing import held_share, least_short
from pricebook.veneer.sheet_filling import SheetSet
from pricebook.veneer.sheet_sets import rank_of, sets_between
from pricebook.veneer.useful_sheets import Useful, known_sheets, useful_sheets

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

_MOST_SETS = 14
_AGAIN = 3
_BREADTH, _WIDER = 200, 500
_ROUNDS = 40
_ROUNDS_COARSE = 4
_NEAR = 3
_CLOSE = 0.0005
_ENOUGH = 1_500
_LISTED, _LISTED_OF_FEW = 200_000, 700_000
_LISTED_IN_ALL = 2_000_000
_FEW_SHEETS = 8
_PROOF_COLUMNS = 3_500
_PROOF_NODES, _PROOF_WORK = 300, 60_000


class SheetNumbers:
    """Tries sets of sheets, the cheapest first.

    Parameters
    ----------
    pool : Pool
        Known patterns; grows.
    proof : Proof
        From column generation.
    rows : int
        How many sheets are filled at random where the table is coarse.
    """

    def __init__(self, pool: Pool, proof: Proof, rows: int) -> None:
        import numpy as np

        self.pool, self.problem, self.table = pool, pool.problem, proof.table
        self.exact, self.rows = proof.exact, rows
        self.worths: list[Worths] = list(dict.fromkeys(proof.worths))
        self.open: dict[SheetSet, tuple[Useful, float]] = {}
        self.counts = [block.count for block in self.problem.blocks]
        self.needed = np.array(self.counts)
        # a selection of many kinds is a long number
        self.left = _LISTED_IN_ALL // max(1, len(self.counts) // 12)
        self.rng = np.random.default_rng(11)

    def decide(
        self, least: int, below: tuple[int, int]
    ) -> tuple[list[Pattern] | None, int]:
        """Fill the cheapest set of sheets that can be filled, and rule out others.

        Parameters
        ----------
        least : int
            No set costs less than this. [cents]
        below : (int, int)
            Sets are cheaper than this, or as cheap with fewer sheets.

        Returns
        -------
        (list of Pattern or None, int)
            A plan on a better set, and the cost that no plan undercuts. [cents]
        """
        sets = sets_between(self.problem, least, below, self.worths)
        if sets is None:
            return None, least
        plan, bound = self._first_filled([one for *_, one in sets], below[0])
        for sheets in list(self.open)[:_AGAIN]:
            again = self._filled(sheets, _WIDER)
            if again is not None:
                return again, min(bound, rank_of(sheets, self.problem)[0])
        return plan, bound

    def _first_filled(
        self, sets: list[SheetSet], ruled_out: int
    ) -> tuple[list[Pattern] | None, int]:
        """Go through sets until one is filled."""
        for sheets in sets:
            if not self._may_hold(sheets):
                continue
            cost = rank_of(sheets, self.problem)[0]
            if len(self.open) == _MOST_SETS:
                return None, min(ruled_out, cost)
            plan, never = self._tried(sheets)
            if not never:
                ruled_out = min(ruled_out, cost)
            if plan is not None or not (never or self.exact):
                return plan, ruled_out
        return None, ruled_out

    def _tried(self, sheets: SheetSet) -> tuple[list[Pattern] | None, bool]:
        """Return a plan on a set where one is found, or whether there is none."""
        found = self._values(sheets)
        if found is None:
            return None, True
        if not self.exact:
            return None, False
        room, values = found
        self.open[sheets] = self._useful(sheets, values), room
        plan, never = self._filled(sheets, _BREADTH), False
        if plan is None:
            plan, never = self._proven(sheets, values)
        if plan is not None or never:
            del self.open[sheets]
        return plan, never

    def _may_hold(self, sheets: SheetSet) -> bool:
        """Return whether no values found so far rule a set out."""
        return all(
            sum(map(mul, values, self.counts)) <= sum(map(mul, sheets, each))
            for values, each in reversed(self.worths)
        )

    def _values(self, sheets: SheetSet) -> tuple[float, tuple[int, ...]] | None:
        """Return how often a set holds all, and values; None rules it out."""
        room, values = 1.0, tuple(1 for _ in self.problem.blocks)
        for _ in range(_ROUNDS if self.exact else _ROUNDS_COARSE):
            share, values, _ = held_share(*self.pool.matrix(), self.needed, sheets)
            # a block that is worth nothing would be missing from every list
            values = tuple(max(1, value) for value in values)
            room = self._room(values, sheets)
            if room < 1:
                return None
            before = len(self.pool.patterns)
            self._improve(values)
            if len(self.pool.patterns) == before or room - share < _CLOSE:
                break
        return room, values

    def _room(self, values: Sequence[int], sheets: SheetSet) -> float:
        """Return how often a set holds all blocks at the most, by their values."""
        self.table.fill(values)
        counted, each = worths_of(self.table, values)
        self.worths.append((counted, each))
        room = sum(map(mul, sheets, each))
        whole = sum(map(mul, counted, self.counts))
        return 0.0 if room < whole else max(1.0, room / max(whole, 1))

    def _improve(self, values: Sequence[int]) -> None:
        """Add patterns that are worth much."""
        if not self.exact:
            guide(self.pool, values, self.rows, 40, self.rng)
            return
        self.pool.add(new_sheets(self.table, values, self.problem))
        for _ in range(_NEAR):
            near = shaken(values, self.rng)
            self.table.fill(near)
            self.worths.append(worths_of(self.table, near))
            self.pool.add(new_sheets(self.table, near, self.problem))

    def _useful(self, sheets: SheetSet, values: Sequence[int]) -> Useful:
        listed = self._listed(sheets, values, _ENOUGH, _LISTED)
        return listed or known_sheets(self.pool, values, sheets)

    def _listed(
        self,
        sheets: SheetSet,
        values: Sequence[int],
        enough: int | None,
        most: int,
    ) -> Useful | None:
        """List sheets that a set can use, while that is affordable."""
        if not self.exact:
            return None
        most = min(most, self.left)
        useful, spent = useful_sheets(self.table, values, sheets, enough, most)
        self.left -= spent
        return useful

    def _filled(self, sheets: SheetSet, breadth: int) -> list[Pattern] | None:
        """Return patterns on a set of sheets that hold everything."""
        useful, room = self.open[sheets]
        filling = BroadFilling(self.problem, self.table, useful, sheets, self.worths)
        return filling.fill(breadth, (room - 1) / 2, self.rng)

    def _proven(
        self, sheets: SheetSet, values: Sequence[int]
    ) -> tuple[list[Pattern] | None, bool]:
        """Choose among all sheets that matter: a plan, or proof that there is none."""
        useful: Useful | None = self.open[sheets][0]
        if useful and not useful.whole:
            most = _LISTED_OF_FEW if sum(sheets) <= _FEW_SHEETS else _LISTED
            useful = self._listed(sheets, values, None, most)
        columns = len(useful.stock_of) if useful and useful.whole else _PROOF_COLUMNS
        if not useful or not 0 < columns < _PROOF_COLUMNS:
            return None, not columns
        nodes = min(_PROOF_NODES, _PROOF_WORK // columns)
        held = useful.held.T.astype(float)
        chosen, never = least_short(held, useful.stock_of, self.problem, sheets, nodes)
        plan = [useful.pattern(place) for place in chosen or ()]
        whole = None if trim(plan, self.problem) is None else plan
        return whole, never and whole is None
