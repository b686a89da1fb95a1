"""Small workbooks laid out by the contract, as a fundraiser might send them back."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import xlsxwriter

from pricebook import files
from pricebook.event import Event, Result
from pricebook.event import book as contract

DATA = Path(__file__).parent.parent / "data" / "events"
EVENT_FILE = DATA / "spring_bench_auction.toml"
RESULTS_FILE = DATA / "spring_bench_auction_results.toml"


def spring() -> Event:
    return files.read_event(EVENT_FILE)


def spring_results() -> tuple[Result, ...]:
    return files.read_results(RESULTS_FILE, spring())


def row_of(event: Event, result: Result) -> dict[str, object]:
    """One row of the results sheet as its cells hold it."""
    lot = event.lot(result.lot)
    assert lot is not None
    cents = result.hammer_cents
    return {
        "lot": int(lot.key) if lot.key.isdecimal() else lot.key,
        "title": lot.title,
        "opening": lot.opening_cents / 100,
        "reserve": None,
        "state": result.state if result.state != "sold" else None,
        "hammer": None if cents is None else cents / 100,
        "paddle": int(result.paddle) if result.paddle.isdecimal() else result.paddle,
        "paid": ("yes" if result.paid else "no") if result.is_hammered else None,
        "method": result.method or None,
        "on": result.on,
        "initials": result.initials,
        "note": result.note,
    }


def rows_of(event: Event, results: tuple[Result, ...]) -> list[dict[str, object]]:
    return [row_of(event, result) for result in results]


def write_book(
    path: Path,
    event: Event,
    rows: list[dict[str, object]],
    *,
    key: str | None = None,
    counted: dict[str, object] | None = None,
    skip_sheet: str = "",
    extra_sheets: tuple[str, ...] = (),
    blank_rows_above: int = 0,
    extra_cells: tuple[tuple[str, str, object], ...] = (),
    heads: dict[str, str] | None = None,
) -> Path:
    """Write a workbook as the contract lays it out."""
    out = xlsxwriter.Workbook(
        str(path), {"strings_to_formulas": False, "nan_inf_to_errors": True}
    )
    names = [name for name in contract.SHEETS if name != skip_sheet]
    sheets = {name: out.add_worksheet(name) for name in (*names, *extra_sheets)}
    if contract.RESULTS in sheets:
        sheet, top = sheets[contract.RESULTS], blank_rows_above
        sheet.write(top, 0, contract.EVENT_KEY_LABEL)
        sheet.write(top, 1, event.key if key is None else key)
        for column, head in enumerate(contract.COLUMNS):
            sheet.write(top + 2, column, (heads or {}).get(head.name, head.head))
        formats = {
            "on": out.add_format({"num_format": "yyyy-mm-dd"}),
            "hammer": out.add_format({"num_format": "#,##0.00"}),
        }
        for number, row in enumerate(rows, start=top + 3):
            write_row(sheet, number, row, formats)
    if contract.COUNTED in sheets:
        for number, label in enumerate(contract.COUNTED_LABELS.values()):
            sheets[contract.COUNTED].write(number, 0, label)
            if counted and label in counted:
                sheets[contract.COUNTED].write(number, 1, counted[label])
    for name, ref, value in extra_cells:
        sheets[name].write(ref, value)
    out.close()
    return path


def write_row(sheet, number: int, row: dict[str, object], formats: dict) -> None:
    for column, head in enumerate(contract.COLUMNS):
        value = row.get(head.name)
        if isinstance(value, Formula):
            sheet.write_formula(number, column, value.text, None, value.stored)
        elif isinstance(value, date):
            sheet.write_datetime(number, column, value, formats["on"])
        elif value not in (None, ""):
            sheet.write(number, column, value, formats.get(head.name))


class Formula:
    """A formula with the value that is stored beside it."""

    def __init__(self, text: str, stored: object = 0) -> None:
        self.text, self.stored = text, stored
