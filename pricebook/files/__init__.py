"""The only reader of CSV and TOML; every fault of a file is reported at once."""

from pricebook.files.pieces import piece_from_table, read_piece
from pricebook.files.shop import read_shop

__all__ = ["piece_from_table", "read_piece", "read_shop"]
