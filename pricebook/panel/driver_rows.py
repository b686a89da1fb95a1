"""What drives a cost, as a table with its figures in their own units."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pricebook.cost.drivers import Driver
from pricebook.money import show

if TYPE_CHECKING:
    from pricebook.frames import Table


def driver_table(drivers: Sequence[Driver], sign: str = "") -> Table:
    """Return how far each figure moves a total: the numbers of the swings' picture.

    Parameters
    ----------
    drivers : sequence of Driver
        Widest swing first.
    sign : str
        The currency sign.

    Returns
    -------
    Table
        Each figure at both ends of its range, and the total there.
    """
    from pricebook.frames import Head, Row, Table
    from pricebook.frames.drivers import range_words

    money = f" ({sign})" if sign else ""
    heads = ("at its low end", "at its high end", "swing")
    return Table(
        heads=(
            Head("figure"),
            Head("low", right=True),
            Head("high", right=True),
            *(Head(f"{words}{money}", right=True) for words in heads),
        ),
        rows=tuple(
            Row((one.name, *range_words(one), *map(show, _totals(one))))
            for one in drivers
        ),
    )


def _totals(one: Driver) -> tuple[int, int, int]:
    return one.at_low, one.at_high, one.swing
