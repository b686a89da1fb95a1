"""Writes the spreadsheets: the only one that imports XlsxWriter."""

from pricebook.workbook.cost_book import write_workbook

__all__ = ["write_workbook"]
