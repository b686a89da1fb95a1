"""Find the results table by its heads, the event by its key, a label by its text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pricebook.errors import ReportError, nearest
from pricebook.event.book import COLUMNS, EVENT_KEY_LABEL, HEADS
from pricebook.returned.cells import Cell

Row = tuple[Cell, ...]
_FEWEST_HEADS = 3
_INPUTS = tuple(c.name for c in COLUMNS if c.is_input or c.name == "lot")


def plain(text: str) -> str:
    """Return text as heads and labels are compared.

    Examples
    --------
    >>> plain("  Hammer  PRICE ")
    'hammer price'
    """
    return " ".join(text.casefold().split())


@dataclass(frozen=True, slots=True)
class Table:
    """The results table: which column holds what, and its rows.

    Parameters
    ----------
    places : dict of str to int
        Column name to place in a row, from 0.
    rows : tuple of Row
        Rows below the heads.
    """

    places: dict[str, int]
    rows: tuple[Row, ...]

    def cells(self, row: Row) -> dict[str, Cell]:
        """Return the cells of a row by the name of their column."""
        return {name: row[place] for name, place in self.places.items()}


def find_table(rows: Sequence[Row]) -> Table:
    """Find the heads and what stands below them.

    Parameters
    ----------
    rows : sequence of Row
        The results sheet.

    Returns
    -------
    Table
        Its table.

    Raises
    ------
    ReportError
        If there are no heads, one is missing, or one stands twice.
    """
    wanted = {plain(HEADS[name]): name for name in _INPUTS}
    best = max(rows, key=lambda row: len(_heads(row, wanted)), default=())
    found = _heads(best, wanted)
    names = [name for name, _ in found]
    if len(set(names)) < _FEWEST_HEADS:
        heads = ", ".join(HEADS[name] for name in _INPUTS)
        raise ReportError(f"found no row of heads; the table has {heads}.")
    texts = [cell.text for cell in best if cell.kind == "text"]
    faults = [
        f'the head "{HEADS[name]}" is missing in row {_number(best)}; put it back '
        f"above its column ({nearest(HEADS[name], texts)})"
        for name in _INPUTS
        if name not in names
    ]
    faults += [
        f'the head "{HEADS[name]}" stands twice in row {_number(best)}; keep one.'
        for name in sorted({n for n in names if names.count(n) > 1})
    ]
    if faults:
        raise ReportError(*faults)
    at = next(i for i, row in enumerate(rows) if row is best)
    return Table(dict(found), tuple(rows[at + 1 :]))


def _heads(row: Row, wanted: dict[str, str]) -> list[tuple[str, int]]:
    return [
        (wanted[plain(cell.text)], place)
        for place, cell in enumerate(row)
        if cell.kind == "text" and plain(cell.text) in wanted
    ]


def _number(row: Row) -> str:
    return row[0].ref.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")


def beside(rows: Iterable[Row], label: str) -> list[Cell]:
    """Return the cell to the right of each cell that holds a label."""
    wanted = plain(label)
    return [
        _next(row, place)
        for row in rows
        for place, cell in enumerate(row)
        if cell.kind == "text" and plain(cell.text).rstrip(":") == wanted
    ]


def _next(row: Row, place: int) -> Cell:
    """Return the first cell to the right that holds something, else the next."""
    rest = row[place + 1 :]
    empty = rest[0] if rest else Cell(row[place].ref)
    return next((cell for cell in rest if not cell.is_empty), empty)


def key_fault(rows: Iterable[Row], key: str) -> str | None:
    """Say why the workbook is not this event's, or None if it is."""
    found = beside(rows, EVENT_KEY_LABEL)
    if not found:
        return (
            f'the cell "{EVENT_KEY_LABEL}" is missing; this is not a workbook written '
            "for an event, or the cell was deleted; put both back."
        )
    if any(cell.text != key for cell in found):
        cell = next(cell for cell in found if cell.text != key)
        held = f'the event key "{cell.text}"' if cell.text else "no event key"
        return (
            f"cell {cell.ref}: found {held}; this event is "
            f'"{key}", so the workbook is of another; give the right one.'
        )
    return None
