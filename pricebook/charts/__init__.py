"""Pictures of what the package works out; the only part that draws.

Every picture is a figure without a window: nothing is left open, and the same input
gives the same bytes.
"""

from pricebook.charts.board_page import board_page, pdf_bytes
from pricebook.charts.costs import cost_by_group, species_compared
from pricebook.charts.drivers import swings
from pricebook.charts.evenings import (
    estimate_against_hammer,
    evening,
    year_by_year,
)
from pricebook.charts.gallery import draw_pictures
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
    "draw_pictures",
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
