"""What a piece costs, as bars."""

from __future__ import annotations

from matplotlib.figure import Figure

from pricebook.charts.bars import Series, level_bars
from pricebook.charts.style import BLUE, GREEN, ORANGE, house, says_so
from pricebook.cost.lines import BASES, CostSheet
from pricebook.frames.costs import group_totals

_BASIS_LOOKS = ((BLUE, ""), (GREEN, "...."), (ORANGE, "////"))


@house()
def cost_by_group(sheet: CostSheet) -> Figure:
    """Draw what each group of a cost sheet takes, its bases kept apart.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.

    Returns
    -------
    Figure
        A bar a group, what is used up, given in kind and given as time end to end,
        with its amount; groups that take nothing are left out.
    """
    totals = [row for row in group_totals(sheet) if sum(row.cents)]
    if not totals:
        return says_so(
            f"Nothing is used for {sheet.piece}.", "Every line of the cost sheet is 0."
        )
    largest = max(totals, key=lambda row: sum(row.cents))
    series = [
        Series(basis, tuple(row.cents[number] for row in totals), *look)
        for number, (basis, look) in enumerate(zip(BASES, _BASIS_LOOKS, strict=True))
        if any(row.cents[number] for row in totals)
    ]
    return level_bars(
        f"The largest part of what {sheet.piece} costs is {largest.group}.",
        [row.group for row in totals],
        series,
        words="Used up and given",
        currency=sheet.settings.currency,
        stacked=True,
    )
