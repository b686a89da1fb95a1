"""Writes the spreadsheets: the only one that imports XlsxWriter.

Each book is loaded when it is first asked for, so that a cost sheet does not wait
for an evening's settlement.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pricebook.workbook.board_book import write_board
    from pricebook.workbook.cost_book import write_workbook
    from pricebook.workbook.event_book import write_book

__all__ = ["write_board", "write_book", "write_workbook"]

_HOMES = {
    "write_board": "board_book",
    "write_book": "event_book",
    "write_workbook": "cost_book",
}


def __getattr__(name: str) -> object:
    """Load a name of the package from the module it lives in."""
    if name in _HOMES:
        return getattr(import_module(f"pricebook.workbook.{_HOMES[name]}"), name)
    raise AttributeError(f"module 'pricebook.workbook' has no attribute {name!r}")
