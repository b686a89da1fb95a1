"""Pictures of what the package works out; the only part that draws."""

from pricebook.charts.costs import cost_by_group
from pricebook.charts.layout import layout_figure, layout_figures
from pricebook.charts.style import png_bytes, save, svg_bytes, title_of

__all__ = [
    "cost_by_group",
    "layout_figure",
    "layout_figures",
    "png_bytes",
    "save",
    "svg_bytes",
    "title_of",
]
