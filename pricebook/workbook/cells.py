"""Cells before they are written: a value, a style, perhaps a formula."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from string import ascii_uppercase


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one cell.

    Parameters
    ----------
    value : str, int, float, date or None
        What it shows; beside a formula, what the formula comes to.
    style : str
        Words for its look; see `styles.style`.
    formula : str
        A formula that comes to the value; empty for a plain value.
    """

    value: str | int | float | date | None
    style: str = "text"
    formula: str = ""


EMPTY = Cell(None, "")
_DAY_MIN = 24 * 60


def text(words: str, style: str = "text") -> Cell:
    """Return a cell of text, never read as a formula."""
    return Cell(words, style)


def money(amount_cents: int, style: str = "") -> Cell:
    """Return a cell of money: a number of units with two decimals."""
    return Cell(amount_cents / 100, f"money {style}")


def money_or_blank(amount_cents: int, style: str = "") -> Cell:
    """Return a cell of money, blank where the amount is 0."""
    return money(amount_cents, style) if amount_cents else Cell(None, style)


def number(value: float, style: str = "") -> Cell:
    """Return a cell of a number, with as many decimals as it needs."""
    look = "whole" if float(value).is_integer() else "number"
    if look == "number" and abs(value) < 1:
        look = "fine"
    return Cell(value, f"{look} {style}")


def duration(minutes: float) -> Cell:
    """Return a cell of a time, a number of days shown as one speaks of it.

    A spreadsheet counts time in days, so that a date and this cell add up to a date;
    blank for no time at all.

    Examples
    --------
    >>> duration(10080), duration(45).style
    (Cell(value=7.0, style='days', formula=''), 'minutes')
    """
    whole = round(minutes)
    if not minutes:
        return EMPTY
    if whole >= 2 * _DAY_MIN and not whole % _DAY_MIN:
        look = "days"
    elif whole < 60:
        look = "minutes"
    else:
        look = "clock" if whole % 60 else "hours"
    return Cell(minutes / _DAY_MIN, look)


def day(value: date) -> Cell:
    """Return a cell of a date."""
    return Cell(value, "day")


def money_formula(formula: str, amount_cents: int, style: str = "") -> Cell:
    """Return a formula in money, rounded to cents, with the amount it comes to."""
    return Cell(amount_cents / 100, f"money {style}", f"=ROUND({formula},2)")


def a1(row: int, column: int, *, fixed: bool = False) -> str:
    """Return the address of a cell.

    Parameters
    ----------
    row, column : int
        Counted from 0.
    fixed : bool
        Whether it stays when a formula is copied.

    Examples
    --------
    >>> a1(0, 0), a1(9, 27), a1(1, 3, fixed=True)
    ('A1', 'AB10', '$D$2')
    """
    letters, rest = "", column + 1
    while rest:
        rest, place = divmod(rest - 1, 26)
        letters = ascii_uppercase[place] + letters
    return f"${letters}${row + 1}" if fixed else f"{letters}{row + 1}"


def span(first: int, last: int, column: int) -> str:
    """Return the address of some rows of a column.

    Examples
    --------
    >>> span(4, 9, 5)
    'F5:F10'
    """
    return f"{a1(first, column)}:{a1(last, column)}"


def added(rows: Iterable[int], column: int) -> str:
    """Return the sum of single cells of a column.

    Examples
    --------
    >>> added([4, 9], 5), added([], 5)
    ('F5+F10', '0')
    """
    return "+".join(a1(row, column) for row in rows) or "0"
