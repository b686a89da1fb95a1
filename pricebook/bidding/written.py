"""Ladders that a person wrote down in rows: from, up to, step."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from pricebook.bidding.arguments import number_faults
from pricebook.bidding.ladder import Ladder
from pricebook.errors import SpecError, raise_all

_KEYS = ("from", "up_to", "step")

Row = tuple[Any, Any, Any]
"""From (None: where the row before ends), up to (None: without end), step [cents]."""


def of_rows(rows: Sequence[object]) -> Ladder:
    """Build a ladder from rows as they were written.

    Parameters
    ----------
    rows : sequence
        Pairs (up to, step); pairs (from, step), the first from 0; triples (from, up
        to, step); or mappings with these names. [cents]

    Returns
    -------
    Ladder
        The ladder.

    Raises
    ------
    SpecError
        If a row is none of these, leaves a gap, or goes backwards; one sentence each.

    Examples
    --------
    >>> of_rows([(100, 500, 25), (500, None, 50)]).rungs(450, 550)
    (450, 475, 500, 550)
    >>> of_rows([{"from": 100, "step": 25}]).next_bid(100)
    125
    """
    cells = [_cells(row) for row in rows]
    starts_at_0 = not number_faults("", cells[0][0], least=0, most=0)
    read = [_row(row, starts_at_0) for row in cells]
    if all(up_to is None for _, up_to, _ in read) and read[0][0] is not None:
        ends = [low for low, _, _ in read[1:]]
        read = [
            (low, end, step)
            for (low, _, step), end in zip(read, [*ends, None], strict=True)
        ]
    raise_all(SpecError, _gap_faults(read))
    first = 0 if read[0][0] is None else read[0][0]
    steps = tuple((up_to, step) for _, up_to, step in read)
    return Ladder("rows", steps, first_cents=first)


def _cells(row: object) -> tuple[Any, ...]:
    """Return the two or three cells of a row."""
    if isinstance(row, Mapping):
        named = {str(key).removesuffix("_cents"): value for key, value in row.items()}
        if "step" in named and set(named) <= set(_KEYS):
            return named.get("from"), named.get("up_to"), named["step"]
    elif isinstance(row, Iterable) and not isinstance(row, str | bytes):
        cells = tuple(row)
        if len(cells) in (2, 3):
            return cells
    raise SpecError(f"a row of a ladder is {row!r}; it must be (up to, step).")


def _row(cells: tuple[Any, ...], starts_at_0: bool) -> Row:
    """Return where a row starts, where it ends, and its step."""
    if len(cells) == 2:
        cells = (cells[0], None, cells[1]) if starts_at_0 else (None, *cells)
    low, up_to, step = cells
    is_open = isinstance(up_to, float) and up_to == math.inf
    return low, None if is_open else up_to, step


def _gap_faults(rows: Sequence[Row]) -> list[str]:
    """Say which rows do not begin where the row before ends."""
    starts = [low for low, _, _ in rows if low is not None]
    faults = [
        fault
        for low in starts
        for fault in number_faults("a row of a ladder: from", low, least=0, whole=True)
    ]
    return faults or [
        f"a row of the ladder begins at {low}, but the row before it ends at {end}; "
        "let each row begin where the last one ends."
        for (_, end, _), (low, _, _) in pairwise(rows)
        if low is not None and low != end
    ]
