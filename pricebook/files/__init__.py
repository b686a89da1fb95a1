"""The only reader of CSV and TOML; every fault of a file is reported at once.

The readers of events load when they are first asked for: a price needs none.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from pricebook.files.pieces import piece_from_table, read_piece
from pricebook.files.shop import read_shop

if TYPE_CHECKING:
    from pricebook.files.events import event_from_table, read_event
    from pricebook.files.results import read_counted, read_results

__all__ = [
    "event_from_table",
    "piece_from_table",
    "read_counted",
    "read_event",
    "read_piece",
    "read_results",
    "read_shop",
]

_HOMES = {
    "event_from_table": "events",
    "read_event": "events",
    "read_counted": "results",
    "read_results": "results",
}


def __getattr__(name: str) -> object:
    """Load a reader of events from the module it lives in."""
    if name in _HOMES:
        return getattr(import_module(f"pricebook.files.{_HOMES[name]}"), name)
    raise AttributeError(f"module 'pricebook.files' has no attribute {name!r}")
