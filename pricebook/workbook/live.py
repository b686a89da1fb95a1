"""Lines of a cost sheet that follow when a reader changes what they rest on."""

from __future__ import annotations

from dataclasses import dataclass, field

from pricebook.cost.lines import CostLine, CostSheet
from pricebook.money import exact, half_up
from pricebook.workbook.cells import a1, added
from pricebook.workbook.labour_page import LabourCells

QUANTITY, BUY, USED = 1, 4, 5
"""Columns of the cost sheet that formulas refer to."""

_SPOILED = ("veneer", "edge banding")


@dataclass(slots=True)
class Live:
    """Formulas for hours, overhead and spoilage, wherever they come to the line.

    A line whose amount the formula would not come to keeps its plain number.

    Parameters
    ----------
    sheet : CostSheet
        The sheet that is written.
    hours : LabourCells
        Where its hours stand.
    heads : dict of str to int
        Row of the heading of each group that stands above.
    """

    sheet: CostSheet
    hours: LabourCells
    heads: dict[str, int] = field(default_factory=dict)
    _taken: int = 0

    def formula(self, line: CostLine, row: int) -> str:
        """Return the formula of a line, or nothing for a plain number.

        Parameters
        ----------
        line : CostLine
            The line; labour lines come in the order of their operations.
        row : int
            Where it will stand, counted from 0.

        Returns
        -------
        str
            A formula in money, not yet rounded.
        """
        if line.group == "labour":
            return self._labour(line)
        if line.group == "overhead":
            cents, address = self.hours.overhead
            return address if cents == line.used_cents else ""
        if line.group == "spoilage":
            return self._spoilage(line, row)
        return ""

    def _labour(self, line: CostLine) -> str:
        if self._taken >= len(self.hours.amounts):
            return ""
        operation, cents, address = self.hours.amounts[self._taken]
        self._taken += 1
        fits = operation == line.key and cents == line.used_cents
        return address if fits and line.bought_cents in {0, cents} else ""

    def _spoilage(self, line: CostLine, row: int) -> str:
        heads = [self.heads[group] for group in _SPOILED if group in self.heads]
        base = sum(x.used_cents for x in self.sheet.lines if x.group in _SPOILED)
        if half_up(exact(line.quantity) * base / 100) != line.used_cents or not heads:
            return ""
        return f"{a1(row, QUANTITY)}*({added(heads, USED)})/100"
