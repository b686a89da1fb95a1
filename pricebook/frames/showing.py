"""From a data frame to a table: the unit at the end of a column's name decides."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pricebook import lengths as length
from pricebook import money
from pricebook.cost.elapsed import drying_words
from pricebook.errors import SpecError, nearest
from pricebook.frames.table import Head, Row, Table

if TYPE_CHECKING:
    import pandas as pd

MISSING = "–"
_SUMMED = ("_cents", "_m2", "drying_min", "_min", "_hours")


@dataclass(frozen=True, slots=True)
class _Column:
    """How one column is shown."""

    name: str
    head: Head
    words: Callable[[object], str]
    summed: bool


def shown(
    frame: pd.DataFrame,
    *,
    title: str = "",
    by: str = "",
    total: bool = False,
    currency: str = "",
    lengths: str = "in",
    note: str = "",
) -> Table:
    """Turn a data frame of this package into a table to look at.

    Parameters
    ----------
    frame : pandas.DataFrame
        A frame whose columns end in their units.
    title : str
        What it shows.
    by : str
        A column whose equal values make a group, with a subtotal each.
    total : bool
        Whether a total closes the table.
    currency : str
        The sign of the money, for the heads of its columns.
    lengths : str
        "in" or "mm", the reader's choice.
    note : str
        Where the figures are from.

    Returns
    -------
    Table
        With thousands and cents, figures to the right, and all text as typed.

    Raises
    ------
    SpecError
        If there is no column of the name to group by.

    Notes
    -----
    Subtotals and the total add up columns of money, area, minutes and hours; a
    missing value shows as a dash and counts nothing. Drying is told in minutes,
    hours or days, whichever one says.
    """
    if by and by not in frame.columns:
        raise SpecError(f'no column "{by}" to group by; {nearest(by, frame.columns)}')
    columns = [
        _column(str(name), currency, lengths, frame[name].dtype.kind in "iuf")
        for name in frame.columns
        if name != by
    ]
    rows: list[Row] = []
    groups = list(dict.fromkeys(frame[by])) if by else [None]
    for group in groups:
        part = frame if group is None else frame[frame[by] == group]
        rows += _group_rows(part, columns, by, group)
    if total and len(frame):
        rows.append(_sum_row(frame, columns, "total", "total"))
    if not rows:
        empty = ("nothing to show", *[""] * (len(columns) - 1))
        rows = [Row(empty)]
    heads = tuple(column.head for column in columns)
    return Table(title=title, heads=heads, rows=tuple(rows), note=note)


def _group_rows(
    part: pd.DataFrame, columns: Sequence[_Column], by: str, group: object
) -> list[Row]:
    cells = zip(*([c.words(v) for v in part[c.name]] for c in columns), strict=True)
    rows = [Row(tuple(each)) for each in cells]
    if group is None:
        return rows
    blank = ("",) * (len(columns) - 1)
    words = group if isinstance(group, str) else f"{by} {group}"
    rows.insert(0, Row((words, *blank), "group"))
    if len(rows) > 2 and any(column.summed for column in columns):
        rows.append(_sum_row(part, columns, "subtotal", f"{words}, together"))
    return rows


def _sum_row(
    part: pd.DataFrame, columns: Sequence[_Column], kind: str, words: str
) -> Row:
    cells = [c.words(part[c.name].sum()) if c.summed else "" for c in columns]
    if not columns[0].summed:
        cells[0] = words
    return Row(tuple(cells), kind)


def _column(name: str, currency: str, lengths: str, is_number: bool) -> _Column:
    kinds: dict[str, tuple[str, Callable[[object], str]]] = {
        "_cents": (currency, lambda x: money.show(int(x))),  # type: ignore[call-overload]
        "_mm": ("", lambda x: length.show(float(x), lengths)),  # type: ignore[arg-type]
        "_m2": _area(lengths),
        "drying_min": ("", lambda x: drying_words(float(x))),  # type: ignore[arg-type]
        "_min": ("min", lambda x: f"{x:,.0f}"),
        "_hours": ("h", lambda x: f"{x:,.1f}"),
        "_n": ("N", lambda x: f"{x:,.0f}"),
        "_share": ("", lambda x: f"{100 * float(x):,.1f} %"),  # type: ignore[arg-type]
        "_on": ("", lambda x: f"{x:%Y-%m-%d}"),
    }
    for ending, (unit, words) in kinds.items():
        if name.endswith(ending):
            head = name.removesuffix(ending[ending.rindex("_") :]).replace("_", " ")
            head = f"{head} ({unit})" if unit else head
            right = ending != "_on"
            return _Column(name, Head(head, right), _or_dash(words), ending in _SUMMED)
    plain = _or_dash(_figure if is_number else _words)
    return _Column(name, Head(name.replace("_", " "), is_number), plain, False)


def _area(lengths: str) -> tuple[str, Callable[[object], str]]:
    """Return the reader's unit of area, and how an area is printed in it."""
    if lengths == "mm":
        return "m²", lambda x: f"{x:,.2f}"
    foot_m2 = (12 * length.MM_PER_INCH / 1000) ** 2
    return "sq ft", lambda x: f"{float(str(x)) / foot_m2:,.1f}"


def _words(value: object) -> str:
    """Print a text as typed, and a truth as yes or no."""
    return "yes" if value is True else "no" if value is False else str(value)


def _figure(number: object) -> str:
    """Print a plain number to three decimals, without idle zeros."""
    words = f"{number:,.3f}"
    return words.rstrip("0").rstrip(".")


def _or_dash(words: Callable[[object], str]) -> Callable[[object], str]:
    import pandas as pd

    return lambda value: MISSING if pd.isna(value) else words(value)  # type: ignore[call-overload]
