"""Read the results that a fundraiser filled in, and the money that was counted."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from pricebook.errors import PricebookError, ReportError, raise_all
from pricebook.event import Counted, Event, Result
from pricebook.event.book import (
    COUNTED,
    COUNTED_LABELS,
    HEADS,
    RESULTS,
    SHEETS,
    TOTAL,
)
from pricebook.event.checks import plain_key
from pricebook.event.result_checks import missing_faults, result_faults
from pricebook.event.settling_lots import amount_faults
from pricebook.returned import cells
from pricebook.returned.cells import Cell
from pricebook.returned.opening import MOST_ROWS, Book
from pricebook.returned.table import Row, Table, beside, find_table, key_fault, plain

T = TypeVar("T")
_METHODS = {"check": "cheque", "credit card": "card", "debit card": "card"}
_NUMBER_LIKE = re.compile(r"[0-9]+[A-Za-z]?")
_FIELDS = {
    "lot": "lot",
    "state": "state",
    "hammer_cents": "hammer",
    "paddle": "paddle",
    "paid": "paid",
    "amount_cents": "paid",
    "method": "method",
    "on": "on",
    "initials": "initials",
    "note": "note",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Returned:
    """What came back from the evening.

    Parameters
    ----------
    results : tuple of Result
        In the order of the catalogue.
    counted : Counted
        Money as it was counted.
    """

    results: tuple[Result, ...]
    counted: Counted


@dataclass(frozen=True, slots=True)
class _Read:
    """One result with the cells it came from."""

    result: Result
    places: dict[str, Cell]


def read_book(path: str | Path, event: Event) -> Returned:
    """Read a fundraiser's workbook that came back.

    Parameters
    ----------
    path : str or Path
        The .xlsx file; it is never written to.
    event : Event
        The event it was written for.

    Returns
    -------
    Returned
        Results in the order of the catalogue, and the money counted. Reading the
        same file twice gives the same.

    Raises
    ------
    ReportError
        If the file is not a sound workbook of this event, or with one sentence for
        every cell that cannot be right: sheet, cell, what was found, the rule.

    Notes
    -----
    Columns are found by their heads and lots by their numbers, so rows may be
    sorted, inserted or moved, and notes may stand anywhere around the table. A row
    without a lot's number that holds a price is refused, lest a sale is lost.
    """
    file = Path(path)
    book = Book(file)
    try:
        missing = [name for name in SHEETS if name not in book.names]
        raise_all(ReportError, [_sheet_fault(file, name, book) for name in missing])
        raise_all(ReportError, book.far_faults(SHEETS))
        most = MOST_ROWS + 2 * len(event.lots)
        found = _results(file, book.rows(RESULTS, most), event)
        counted, faults = _counted(file, book.rows(COUNTED))
    finally:
        book.close()
    raise_all(ReportError, [*found[1], *faults])
    return Returned(results=found[0], counted=counted)


def read_returned(path: str | Path, event: Event) -> tuple[Result, ...]:
    """Read the results from a fundraiser's workbook that came back.

    Parameters
    ----------
    path : str or Path
        The .xlsx file; it is never written to.
    event : Event
        The event it was written for.

    Returns
    -------
    tuple of Result
        In the order of the catalogue.

    Raises
    ------
    ReportError
        As for `read_book`.
    """
    return read_book(path, event).results


def _sheet_fault(file: Path, name: str, book: Book) -> str:
    there = ", ".join(book.names) or "no sheet at all"
    return (
        f'{file}: sheet "{name}" is missing; found {there}; give it its name back, or '
        "fill in a fresh workbook."
    )


def _results(
    file: Path, rows: list[Row], event: Event
) -> tuple[tuple[Result, ...], list[str]]:
    """Return the results and a sentence for each fault of the results sheet."""
    where = f'{file}: sheet "{RESULTS}"'
    wrong = key_fault(rows, event.key)
    if wrong is not None:
        return (), [f"{where}, {wrong}"]
    try:
        table = find_table(rows)
    except ReportError as error:
        return (), [f"{where}: {fault}" for fault in error.faults]
    read, faults, seen = _read_rows(where, table, event)
    given = [one.result for one in read]
    found = list(result_faults(event, given)) or list(amount_faults(event, given))
    for fault in found:
        cell = read[fault.at].places[_FIELDS[fault.field]]
        shown = "an empty cell" if cell.is_empty else f'"{cell.text}"'
        faults.append(
            f"{where}, cell {cell.ref}: found {shown}; lot {fault.lot}: "
            f"{fault.sentence}"
        )
    lost = [Result(lot=key, state="passed") for key in seen]
    faults += [f"{where}: {fault}" for fault in missing_faults(event, lost)]
    by_lot = {plain_key(one.result.lot): one.result for one in read}
    ordered = [by_lot.get(plain_key(lot.key)) for lot in event.lots]
    return tuple(result for result in ordered if result is not None), faults


def _read_rows(
    where: str, table: Table, event: Event
) -> tuple[list[_Read], list[str], list[str]]:
    """Read every row of a lot; return results, faults, and the lots met."""
    read: list[_Read] = []
    faults: list[str] = []
    seen: list[str] = []
    keys = {plain_key(lot.key): lot.key for lot in event.lots}
    for row in table.rows:
        places = table.cells(row)
        key = plain_key(places["lot"].text)
        if key not in keys:
            faults += [f"{where}, {fault}" for fault in _stray(places, event)]
            continue
        seen.append(keys[key])
        result, found = _one(keys[key], places)
        faults += [f"{where}, {fault}" for fault in found]
        if result is not None:
            read.append(_Read(result, places))
    return read, faults, seen


def _stray(places: dict[str, Cell], event: Event) -> Iterator[str]:
    """Find a row that is no lot's and yet more than a note."""
    lot, hammer = places["lot"], places["hammer"]
    if plain(lot.text) in (plain(TOTAL), plain(HEADS["lot"])):
        return
    is_priced = hammer.kind == "number" or _is_money(hammer)
    if lot.is_empty and is_priced:
        yield (
            f"cell {hammer.ref}: found {hammer.text} in a row without a lot; "
            "write the lot's number, or move the note out of the table."
        )
    elif not lot.is_empty and (_NUMBER_LIKE.fullmatch(lot.text) or is_priced):
        yield (
            f'cell {lot.ref}: found lot "{lot.text}", which is not in the catalogue '
            f"of {event.name}; correct the number or take the row out."
        )


def _is_money(cell: Cell) -> bool:
    """Tell whether a text reads as an amount of money."""
    try:
        return cell.kind == "text" and bool(cells.price(cell))
    except ReportError:
        return False


class _Row:
    """The row of one lot: takes its cells one by one and notes what is wrong."""

    def __init__(self, key: str, places: dict[str, Cell]) -> None:
        self.key, self.places = key, places
        self.faults: list[str] = []

    def take(self, name: str, read: Callable[[Cell], T]) -> T | None:
        try:
            return read(self.places[name])
        except PricebookError as error:
            at = f"cell {self.places[name].ref} (lot {self.key}, {HEADS[name]})"
            self.faults += [f"{at}: {fault}" for fault in error.faults]
            return None


def _method(cell: Cell) -> str:
    return cells.word(cell, _METHODS)


def _one(key: str, places: dict[str, Cell]) -> tuple[Result | None, list[str]]:
    """Read the row of one lot, or say which of its cells cannot be read."""
    row = _Row(key, places)
    row.take("lot", cells.refuse_formula)
    paid, amount = row.take("paid", cells.paid) or (None, None)
    values: dict[str, Any] = {
        "state": row.take("state", cells.word),
        "hammer_cents": row.take("hammer", cells.price),
        "paddle": row.take("paddle", cells.paddle),
        "paid": bool(paid),
        "amount_cents": amount,
        "method": row.take("method", _method),
        "on": row.take("on", cells.day),
        "initials": row.take("initials", cells.plain_text),
        "note": row.take("note", cells.plain_text),
    }
    if row.faults:
        return None, row.faults
    if not values["state"]:
        values["state"] = "sold" if values["hammer_cents"] is not None else ""
    faults = list(_open_faults(key, places, values, paid is None and amount is None))
    return (None if faults else Result(lot=key, **values)), faults


def _open_faults(
    key: str, places: dict[str, Cell], values: dict[str, Any], paid_is_open: bool
) -> Iterator[str]:
    """Find what was left open and must not be guessed."""
    if not values["state"]:
        yield (
            f"cell {places['hammer'].ref}: found no hammer price and no state for lot "
            f"{key}; write the price, or passed, withdrawn or void under "
            f"{HEADS['state']}."
        )
    elif values["method"] and paid_is_open and values["state"] == "sold":
        yield (
            f"cell {places['paid'].ref}: found an empty cell, though lot {key} says "
            "how it was paid; write yes or no."
        )


def _counted(file: Path, rows: list[Row]) -> tuple[Counted, list[str]]:
    """Read the money counted; what is not there was not counted."""
    where = f'{file}: sheet "{COUNTED}"'
    values: dict[str, Any] = {}
    faults: list[str] = []
    for field, label in COUNTED_LABELS.items():
        found = beside(rows, label)
        if len(found) > 1:
            faults.append(f'{where}: "{label}" stands {len(found)} times; keep one.')
        for cell in found[:1]:
            read: Any = cells.price if field.endswith("_cents") else cells.plain_text
            try:
                values[field] = read(cell)
            except PricebookError as error:
                faults += [f"{where}, cell {cell.ref}: {x}" for x in error.faults]
    return Counted() if faults else Counted(**values), faults
