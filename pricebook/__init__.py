"""Cost, price and proceeds of a refinished piece of furniture.

The names below are what other programs may rely on; each is loaded when it is
first asked for, so that the command line starts fast.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pricebook.cost import cost_sheet
    from pricebook.cost.compare import compare_species
    from pricebook.event import settle
    from pricebook.files import read_piece, read_shop
    from pricebook.price import advise_price
    from pricebook.proceeds import split as split_proceeds
    from pricebook.returned import read_returned
    from pricebook.takeoff import take_off
    from pricebook.veneer import lay_out
    from pricebook.workbook import write_workbook

    from . import forecast

__version__ = "1.0.0"
__all__ = [
    "advise_price",
    "compare_species",
    "cost_sheet",
    "forecast",
    "lay_out",
    "read_piece",
    "read_returned",
    "read_shop",
    "settle",
    "split_proceeds",
    "take_off",
    "write_workbook",
]

_HOMES = {
    "advise_price": "price",
    "compare_species": "cost.compare",
    "cost_sheet": "cost",
    "lay_out": "veneer",
    "read_piece": "files",
    "read_returned": "returned",
    "read_shop": "files",
    "settle": "event",
    "take_off": "takeoff",
    "write_workbook": "workbook",
}


def __getattr__(name: str) -> object:
    """Load a name of the package from the module it lives in."""
    if name == "forecast":
        return import_module("pricebook.forecast")
    if name == "split_proceeds":
        return import_module("pricebook.proceeds").split
    if name in _HOMES:
        return getattr(import_module(f"pricebook.{_HOMES[name]}"), name)
    raise AttributeError(f"module 'pricebook' has no attribute {name!r}")
