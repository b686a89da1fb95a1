"""Pictures of what the package works out; the only part that draws.

Every picture is a figure without a window: nothing is left open, and the same input
gives the same bytes. A kind of picture loads when it is first asked for.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pricebook.charts.board_picture import board_page, pdf_bytes
    from pricebook.charts.costs import cost_by_group, species_compared
    from pricebook.charts.drivers import swings
    from pricebook.charts.evenings import (
        estimate_against_hammer,
        evening,
        year_by_year,
    )
    from pricebook.charts.grids import grid
    from pricebook.charts.layout import layout_figure, layout_figures
    from pricebook.charts.overview import layout_overview
    from pricebook.charts.plans import elapsed
    from pricebook.charts.prices import advised_rungs, money_goes, price_rungs
    from pricebook.charts.style import png_bytes, save, svg_bytes, title_of

__all__ = [
    "advised_rungs",
    "board_page",
    "cost_by_group",
    "elapsed",
    "estimate_against_hammer",
    "evening",
    "grid",
    "layout_figure",
    "layout_figures",
    "layout_overview",
    "money_goes",
    "pdf_bytes",
    "png_bytes",
    "price_rungs",
    "save",
    "species_compared",
    "svg_bytes",
    "swings",
    "title_of",
    "year_by_year",
]

_HOMES = {
    "advised_rungs": "prices",
    "board_page": "board_picture",
    "cost_by_group": "costs",
    "elapsed": "plans",
    "estimate_against_hammer": "evenings",
    "evening": "evenings",
    "grid": "grids",
    "layout_figure": "layout",
    "layout_figures": "layout",
    "layout_overview": "overview",
    "money_goes": "prices",
    "pdf_bytes": "board_picture",
    "png_bytes": "style",
    "price_rungs": "prices",
    "save": "style",
    "species_compared": "costs",
    "svg_bytes": "style",
    "swings": "drivers",
    "title_of": "style",
    "year_by_year": "evenings",
}


def __getattr__(name: str) -> object:
    """Load a kind of picture from the module it is drawn in."""
    if name in _HOMES:
        return getattr(import_module(f"pricebook.charts.{_HOMES[name]}"), name)
    raise AttributeError(f"module 'pricebook.charts' has no attribute {name!r}")
