"""The only reader of CSV and TOML; every fault of a file is reported at once."""

from pricebook.files.events import event_from_table, read_event
from pricebook.files.pieces import piece_from_table, read_piece
from pricebook.files.results import read_counted, read_results
from pricebook.files.shop import read_shop

__all__ = [
    "event_from_table",
    "piece_from_table",
    "read_counted",
    "read_event",
    "read_piece",
    "read_results",
    "read_shop",
]
