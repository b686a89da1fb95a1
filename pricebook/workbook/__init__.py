"""Writes the spreadsheets: the only one that imports XlsxWriter."""

from pricebook.workbook.board_book import write_board
from pricebook.workbook.cost_book import write_workbook
from pricebook.workbook.event_book import write_book

__all__ = ["write_board", "write_book", "write_workbook"]
