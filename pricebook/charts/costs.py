"""What a piece costs, and what it would cost in other species, as bars."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from pricebook.charts.bars import level_bars
from pricebook.charts.rows import Series
from pricebook.charts.style import BLUE, GREEN, ORANGE, SKY, house, says_so
from pricebook.cost.lines import BASES, CostSheet
from pricebook.cost.options import Comparison, SpeciesOption
from pricebook.frames.costs import group_totals
from pricebook.money import show

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


@house()
def species_compared(
    comparison: Comparison, options: Sequence[SpeciesOption] | None = None
) -> Figure:
    """Draw what a piece costs in each species: cash to buy, and used up.

    Parameters
    ----------
    comparison : Comparison
        The piece in every species, form and size of sheet.
    options : sequence of SpeciesOption or None
        The rows to draw; None: the best row of each species.

    Returns
    -------
    Figure
        Two bars a row, least cash first.
    """
    rows = comparison.best_of_species if options is None else tuple(options)
    if not rows:
        return says_so("There is no species to compare.", "No row was given.")
    best = min(rows, key=lambda row: row.cash_to_buy_cents)
    sign = comparison.settings.currency
    cash = tuple(row.cash_to_buy_cents for row in rows)
    used = tuple(row.used_up_cents for row in rows)
    return level_bars(
        f"{comparison.piece} is cheapest to buy in {best.name}: "
        f"{show(best.cash_to_buy_cents, sign)}.",
        [row.name for row in rows],
        [Series("cash to buy", cash, BLUE, ""), Series("used up", used, SKY, "////")],
        words="Cash to buy, and used up",
        currency=sign,
        stacked=False,
    )
