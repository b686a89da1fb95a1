"""Reads what a fundraiser filled in; the file itself is never touched."""

from pricebook.returned.reading import Returned, read_book, read_returned

__all__ = ["Returned", "read_book", "read_returned"]
