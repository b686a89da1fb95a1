"""What drives a result, as data frames and sentences."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from pricebook.forecast import Grid, Swing
from pricebook.frames.building import NUMBER, TEXT, frame_of
from pricebook.money import half_up, show

if TYPE_CHECKING:
    import pandas as pd

Words = Callable[[float], str]


def in_money(cents: float) -> str:
    """Print a result in cents as money.

    Parameters
    ----------
    cents : float
        The result. [cents]

    Returns
    -------
    str
        The amount, rounded half up.

    Examples
    --------
    >>> in_money(123450.4)
    '1,234.50'
    """
    return show(half_up(cents))


def swings_frame(swings: Sequence[Swing]) -> pd.DataFrame:
    """Return how far each figure moves a result: the numbers of its picture.

    Parameters
    ----------
    swings : sequence of Swing
        Widest first.

    Returns
    -------
    pandas.DataFrame
        A row a figure. Columns: `figure` (string), `low`, `high`, `at_low`,
        `at_high`, `swing` (float64, in the result's own unit).
    """
    columns = {
        "figure": TEXT,
        "low": NUMBER,
        "high": NUMBER,
        "at_low": NUMBER,
        "at_high": NUMBER,
        "swing": NUMBER,
    }
    rows = [[x.name, x.low, x.high, x.at_low, x.at_high, x.swing] for x in swings]
    return frame_of(columns, rows)


def swings_sentence(swings: Sequence[Swing], words_of: Words = in_money) -> str:
    """Say in one sentence which figure moves the result most.

    Parameters
    ----------
    swings : sequence of Swing
        Widest first.
    words_of : callable
        Prints a result.

    Returns
    -------
    str
        The first figure and how far it moves the result.
    """
    if not swings or not swings[0].swing:
        return "None of the figures moves the result."
    most = swings[0]
    name = most.name[:1].upper() + most.name[1:]
    return (
        f"{name} moves the result most: from {words_of(most.at_low)} at {most.low:g} "
        f"to {words_of(most.at_high)} at {most.high:g}."
    )


def grid_frame(grid: Grid) -> pd.DataFrame:
    """Return a result at every pair of two figures: the numbers of its picture.

    Parameters
    ----------
    grid : Grid
        The results.

    Returns
    -------
    pandas.DataFrame
        A row for each pair. Columns: the two figures by their names, then `result`
        (all float64); `row` and `column` where a name would be taken twice.
    """
    row_name, column_name = grid.row_name, grid.column_name
    if len({row_name, column_name, "result"}) < 3:
        row_name, column_name = "row", "column"
    columns = {row_name: NUMBER, column_name: NUMBER, "result": NUMBER}
    rows = [
        [row, column, result]
        for row, results in zip(grid.row_values, grid.results, strict=True)
        for column, result in zip(grid.column_values, results, strict=True)
    ]
    return frame_of(columns, rows)


def grid_sentence(grid: Grid, words_of: Words = in_money) -> str:
    """Say in one sentence between what results the two figures decide.

    Parameters
    ----------
    grid : Grid
        The results.
    words_of : callable
        Prints a result.

    Returns
    -------
    str
        The lowest and the highest result, each with its pair.
    """
    pairs = [
        (result, row, column)
        for row, results in zip(grid.row_values, grid.results, strict=True)
        for column, result in zip(grid.column_values, results, strict=True)
    ]
    low, high = min(pairs), max(pairs)

    def told(pair: tuple[float, float, float]) -> str:
        result, row, column = pair
        return (
            f"{words_of(result)} at {grid.row_name} {row:g} and {grid.column_name} "
            f"{column:g}"
        )

    return f"The result runs from {told(low)} to {told(high)}."
