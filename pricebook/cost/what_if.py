"""What two figures together do to the cost of a piece."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from pricebook.cost.drivers import FULL_COST, costed, total_of
from pricebook.cost.inputs import Input, inputs_of
from pricebook.cost.sheet import cost_sheet
from pricebook.cost.shop import Shop
from pricebook.errors import SpecError, nearest, raise_all
from pricebook.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """A total at every pair of two figures.

    Parameters
    ----------
    total : str
        One of `TOTALS`.
    row_name, column_name : str
        The two figures.
    row_unit, column_unit : str
        Their units; "cents" for money.
    row_values, column_values : tuple of float
        Their values. [their units]
    results : tuple of tuple of int
        One row for each row value, one total for each column value in it. [cents]
    """

    total: str
    row_name: str
    column_name: str
    row_unit: str
    column_unit: str
    row_values: tuple[float, ...]
    column_values: tuple[float, ...]
    results: tuple[tuple[int, ...], ...]


def what_if(
    piece: Piece,
    shop: Shop,
    on: date,
    rows: tuple[str, Sequence[float]],
    columns: tuple[str, Sequence[float]],
    *,
    total: str = FULL_COST,
    stages: int | None = None,
) -> WhatIf:
    """Work out a total at every pair of two figures, all else as it stands.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    rows, columns : (str, sequence of float)
        Name of a figure, as `what_drives` names it, and its values. [its unit]
    total : str
        "full cost" or "cash to buy".
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.

    Returns
    -------
    WhatIf
        The totals, row by row.

    Raises
    ------
    PricebookError
        If a name is no figure of this piece, both are one, there are no values, or
        the piece cannot be made at one of them.
    """
    base = cost_sheet(piece, shop, on, stages=stages)
    total_of(base, total)
    known = {one.name: one for one in inputs_of(piece, base, shop)}
    raise_all(SpecError, _what_if_faults((rows, columns), known))
    first, second = known[rows[0]], known[columns[0]]
    return WhatIf(
        total=total,
        row_name=first.name,
        column_name=second.name,
        row_unit=first.unit,
        column_unit=second.unit,
        row_values=tuple(rows[1]),
        column_values=tuple(columns[1]),
        results=tuple(
            tuple(
                total_of(
                    costed(piece, shop, on, {first: row, second: column}, stages),
                    total,
                )
                for column in columns[1]
            )
            for row in rows[1]
        ),
    )


def _what_if_faults(
    asked: Sequence[tuple[str, Sequence[float]]], known: Mapping[str, Input]
) -> Iterator[str]:
    names = [name for name, _ in asked]
    if names[0] == names[1]:
        yield f'both figures are "{names[0]}"; vary two different ones.'
    for name, values in asked:
        if name not in known:
            yield f'"{name}" is no figure of this piece; {nearest(name, known)}'
            continue
        if not values:
            yield f'"{name}" has no values; give one at least.'
        for value in values:
            yield from _value_faults(known[name], value)


def _value_faults(one: Input, value: float) -> Iterator[str]:
    if isinstance(value, bool) or not math.isfinite(value) or value < one.least:
        yield (
            f"{one.name} is {value!r} {one.unit}; it must be a number of at least "
            f"{one.least:g}."
        )
    elif (one.whole or one.unit == "cents") and value != int(value):
        yield f"{one.name} is {value:g} {one.unit}; it must be a whole number."
