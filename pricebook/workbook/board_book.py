"""The board's workbook: the report, and the tables that it stands on."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from pricebook.event.board import BoardReport
from pricebook.workbook.board_lots import (
    write_ledger,
    write_payouts,
    write_receipts,
    write_settled_lots,
    write_who_gets_what,
)
from pricebook.workbook.board_page import write_board_page
from pricebook.workbook.board_tables import (
    write_board_controls,
    write_pieces,
    write_return_lines,
)
from pricebook.workbook.book import Book, foot, workbook_path
from pricebook.workbook.styles import WIDTHS

_BEHIND = {
    "Lots settled": write_settled_lots,
    "Who gets what": write_who_gets_what,
    "Payouts": write_payouts,
    "Receipts": write_receipts,
    "Ledger": write_ledger,
}


def write_board(
    path: Path | str,
    report: BoardReport,
    *,
    currency: str = "$",
    paper: str = "Letter",
    version: str | None = None,
) -> Path:
    """Write the board's workbook.

    Parameters
    ----------
    path : Path or str
        Where it shall stand.
    report : BoardReport
        What the board is told.
    currency : str
        The sign in front of money.
    paper : {"Letter", "A4"}
        What it is printed on.
    version : str, optional
        The package's version at the foot of every page; its own if left out.

    Returns
    -------
    Path
        The path.

    Raises
    ------
    ReportError
        If a text cannot stand in a cell, or the file cannot be written.

    Notes
    -----
    Whole units are rounded once, half up, from the amount to the cent; they are
    never summed. Every formula carries the value that the package computed. Lots,
    who gets what, payouts, receipts and the ledger follow on sheets of their own.
    """
    file = workbook_path(path)
    book = Book(
        f"{report.title}, {report.held_on}: report to the board",
        currency=currency,
        paper=paper,
        on=date.fromisoformat(report.held_on),
        foot=foot(report.charity, version),
    )
    write_board_page(book.page("Board report", WIDTHS["Board report"]), report)
    write_pieces(book.page("Pieces", WIDTHS["Pieces"]), report)
    write_board_controls(book.page("Control totals", WIDTHS["Control totals"]), report)
    write_return_lines(book.page("Event lines", WIDTHS["Event lines"]), report)
    if report.lots:
        for name, write in _BEHIND.items():
            write(book.page(name, WIDTHS[name]), report)
    return book.save(file)
