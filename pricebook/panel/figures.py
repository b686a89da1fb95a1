"""Figures behind a cost to choose from, and the costs of a batch as a table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pricebook.cost import CostSheet
from pricebook.cost.inputs import Input
from pricebook.cost.what_if import WhatIf
from pricebook.money import show
from pricebook.panel.controls import Control

if TYPE_CHECKING:
    from pricebook.frames import Table

_HOURS = "all hours"
_SHARES = (0.8, 0.9, 1.0, 1.1, 1.2)


def offer_figures(pair: Sequence[Control], known: Sequence[Input]) -> tuple[str, str]:
    """Offer the figures behind a cost in two drop-downs, and return the chosen two.

    Parameters
    ----------
    pair : sequence of Control
        The two drop-downs.
    known : sequence of Input
        The figures.

    Returns
    -------
    (str, str)
        Names of figures; all hours, and the first other, where none was chosen.
    """
    names = [one.name for one in known]
    others = [name for name in names if name != _HOURS]
    for control, first in zip(pair, (_HOURS, others[0]), strict=True):
        if control.value not in names:
            control.value = first
        control.offer([(name, name) for name in names])
    return pair[0].value, pair[1].value


def values_around(one: Input) -> tuple[float, ...]:
    """Return the figure as it stands and four others, as far as they make sense."""
    if one.whole:
        steps = [one.value + step for step in (-2, -1, 0, 1, 2)]
    else:
        steps = [one.value * share for share in _SHARES]
        if one.unit == "cents":
            steps = [round(step) for step in steps]
    return tuple(sorted({step for step in steps if step >= one.least}))


def batch_table(sheets: tuple[CostSheet, ...]) -> Table:
    """Return what the pieces of a batch cost, and all of them together."""
    from pricebook.frames import Head, Row, Table

    sign = sheets[0].settings.currency
    heads = ("to buy", "used up", "gifts in kind", "time given", "in full")
    sums = [
        (
            sheet.cash_to_buy_cents,
            sheet.used_up_cents,
            sheet.gifts_in_kind_cents,
            sheet.time_given_cents,
            sheet.full_cost_cents,
        )
        for sheet in sheets
    ]
    rows = [
        Row((sheet.piece, *map(show, cents)))
        for sheet, cents in zip(sheets, sums, strict=True)
    ]
    total = [sum(column) for column in zip(*sums, strict=True)]
    return Table(
        title="Pieces that share sheets, rolls and packs",
        heads=(Head("piece"), *(Head(f"{x} ({sign})", right=True) for x in heads)),
        rows=(*rows, Row(("together", *map(show, total)), "total")),
    )


def grid_table(found: WhatIf, sign: str) -> Table:
    """Return a total at every pair of two figures: the numbers of the picture."""
    from pricebook.frames import Head, Row, Table
    from pricebook.frames.drivers import pair_words

    downs, acrosses = pair_words(found)
    return Table(
        title=f"{found.total.capitalize()} ({sign}), {found.column_name} across",
        heads=(Head(found.row_name), *(Head(x, right=True) for x in acrosses)),
        rows=tuple(
            Row((down, *map(show, results)))
            for down, results in zip(downs, found.results, strict=True)
        ),
    )
