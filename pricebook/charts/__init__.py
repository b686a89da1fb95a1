"""Pictures of what the package works out; the only part that draws."""

from pricebook.charts.layout import layout_figure, layout_figures
from pricebook.charts.style import png_bytes, save, svg_bytes, title_of

__all__ = [
    "layout_figure",
    "layout_figures",
    "png_bytes",
    "save",
    "svg_bytes",
    "title_of",
]
