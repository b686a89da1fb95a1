"""What drives a result, as data frames and sentences."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Protocol

from pricebook.frames.building import NUMBER, TEXT, frame_of
from pricebook.money import half_up, show

if TYPE_CHECKING:
    import pandas as pd

Words = Callable[[float], str]


class Moved(Protocol):
    """How far a result moves when one figure goes from low to high."""

    @property
    def name(self) -> str:
        """The figure."""

    @property
    def low(self) -> float:
        """One end of its range [its unit]."""

    @property
    def high(self) -> float:
        """The other end [its unit]."""

    @property
    def at_low(self) -> float:
        """The result at the low end [the result's unit]."""

    @property
    def at_high(self) -> float:
        """The result at the high end [the result's unit]."""

    @property
    def swing(self) -> float:
        """Width of the move [the result's unit]."""


class Pairs(Protocol):
    """A result at every pair of two figures."""

    @property
    def row_name(self) -> str:
        """One figure."""

    @property
    def column_name(self) -> str:
        """The other figure."""

    @property
    def row_values(self) -> Sequence[float]:
        """Values of the one [its unit]."""

    @property
    def column_values(self) -> Sequence[float]:
        """Values of the other [its unit]."""

    @property
    def results(self) -> Sequence[Sequence[float]]:
        """One row for each row value [the result's unit]."""


def figure_words(figure: float, unit: str) -> str:
    """Print a figure with its unit.

    Parameters
    ----------
    figure : float
        The figure. [unit]
    unit : str
        "cents" and "share" print as money and per cent; may be empty.

    Returns
    -------
    str
        The figure for a label.

    Examples
    --------
    >>> figure_words(7200, "cents"), figure_words(0.05, "share")
    ('72.00', '5 %')
    >>> figure_words(3, "coats"), figure_words(0.5, "")
    ('3 coats', '0.5')
    """
    if unit == "cents":
        return in_money(figure)
    if unit == "share":
        return f"{100 * figure:.4g} %"
    return f"{figure:.4g} {unit}".rstrip()


def range_words(one: Moved) -> tuple[str, str]:
    """Print the two ends of a figure's range, with its unit where it has one.

    Parameters
    ----------
    one : Moved
        The figure.

    Returns
    -------
    tuple of str
        The low and the high end.
    """
    unit = _unit(one, "unit", one.name)
    return figure_words(one.low, unit), figure_words(one.high, unit)


def _unit(one: object, attribute: str, name: str) -> str:
    """Return the unit that a value states, unless the name says it already."""
    unit = str(getattr(one, attribute, ""))
    return "" if unit == name else unit


def pair_words(grid: Pairs) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Print the values of the two figures, with their units where they have one.

    Parameters
    ----------
    grid : Pairs
        The results.

    Returns
    -------
    tuple of tuple of str
        Row values and column values.
    """
    row_unit = _unit(grid, "row_unit", grid.row_name)
    column_unit = _unit(grid, "column_unit", grid.column_name)
    return (
        tuple(figure_words(value, row_unit) for value in grid.row_values),
        tuple(figure_words(value, column_unit) for value in grid.column_values),
    )


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


def swings_frame(swings: Sequence[Moved]) -> pd.DataFrame:
    """Return how far each figure moves a result: the numbers of its picture.

    Parameters
    ----------
    swings : sequence of Moved
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


def swings_sentence(
    swings: Sequence[Moved], words_of: Words = in_money, result: str = "the result"
) -> str:
    """Say in one sentence which figure moves the result most.

    Parameters
    ----------
    swings : sequence of Moved
        Widest first.
    words_of : callable
        Prints a result.
    result : str
        What the result is.

    Returns
    -------
    str
        The first figure and how far it moves the result.
    """
    if not swings or not swings[0].swing:
        return f"None of the figures moves {result}."
    most = swings[0]
    name = most.name[:1].upper() + most.name[1:]
    low, high = range_words(most)
    return (
        f"{name} moves {result} most: from {words_of(most.at_low)} at {low} "
        f"to {words_of(most.at_high)} at {high}."
    )


def grid_frame(grid: Pairs) -> pd.DataFrame:
    """Return a result at every pair of two figures: the numbers of its picture.

    Parameters
    ----------
    grid : Pairs
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


def grid_sentence(grid: Pairs, words_of: Words = in_money) -> str:
    """Say in one sentence between what results the two figures decide.

    Parameters
    ----------
    grid : Pairs
        The results.
    words_of : callable
        Prints a result.

    Returns
    -------
    str
        The lowest and the highest result, each with its pair.
    """
    rows, columns = pair_words(grid)
    pairs = [
        (result, f"{grid.row_name} {row} and {grid.column_name} {column}")
        for row, results in zip(rows, grid.results, strict=True)
        for column, result in zip(columns, results, strict=True)
    ]
    low = min(pairs, key=lambda pair: pair[0])
    high = max(pairs, key=lambda pair: pair[0])
    what = getattr(grid, "total", "result")
    return (
        f"The {what} runs from {words_of(low[0])} at {low[1]} to "
        f"{words_of(high[0])} at {high[1]}."
    )
