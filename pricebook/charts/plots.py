"""Pictures with a level scale of money and bars that stand on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.boxes import Box
from pricebook.charts.flags import Flag, draw_flags, flags_height, placed_flags
from pricebook.charts.rows import LEGEND_PT, Series, legend_row
from pricebook.charts.scales import (
    AXIS_PT,
    axes_at,
    level_axis,
    money_words,
    ticks_between,
    upright_axis,
    with_unit,
)
from pricebook.charts.style import (
    EDGE_PT,
    INK,
    TITLE_LINE_PT,
    WIDTH_PT,
    Colour,
    blank,
    tint,
    title_lines,
)

_SIDE_PT = 44.0
_PLOT_PT = 170.0


@dataclass(frozen=True, slots=True)
class Posts:
    """Bars of one kind that stand on a level scale.

    Parameters
    ----------
    name : str
        What they show.
    at : tuple of float
        Their middles. [cents]
    shares : tuple of float
        Their heights. [-]
    thick : float
        Their width. [cents]
    colour : tuple of float
        Their colour.
    hatch : str
        Their hatch, which says the same.
    """

    name: str
    at: tuple[float, ...]
    shares: tuple[float, ...]
    thick: float
    colour: Colour
    hatch: str


def share_plot(
    title: str,
    posts: Sequence[Posts],
    flags: Sequence[Flag],
    *,
    low: float,
    high: float,
    words: str,
    upright_words: str,
    currency: str,
) -> Figure:
    """Draw shares over a scale of money, with flags above."""
    width = WIDTH_PT - 2 * EDGE_PT - _SIDE_PT
    placed = placed_flags(flags, low, high, width)
    legend = [Series(one.name, (), one.colour, one.hatch) for one in posts]
    legend_pt = LEGEND_PT if len(legend) > 1 else 0.0
    head = EDGE_PT + len(title_lines(title)) * TITLE_LINE_PT + legend_pt
    height = head + flags_height(placed) + _PLOT_PT + AXIS_PT + EDGE_PT
    figure, top = blank(height, title)
    if legend_pt:
        legend_row(figure, legend, top - LEGEND_PT / 2, height)
    foot = AXIS_PT + EDGE_PT
    left = EDGE_PT + _SIDE_PT
    box = Box(left, foot, left + width, foot + _PLOT_PT)
    axes = axes_at(figure, box, height)
    axes.set_xlim(low, high)
    most = max([0.01, *(share for one in posts for share in one.shares)]) * 1.05
    axes.set_ylim(0, most)
    for one in posts:
        _stand(axes, one)
    draw_flags(axes, placed, width, _PLOT_PT)
    ticks = ticks_between(low, high)
    level_axis(axes, ticks, [money_words(t) for t in ticks], with_unit(words, currency))
    ups = ticks_between(0, most, 5)
    upright_axis(axes, ups, [f"{100 * up:.3g} %" for up in ups], upright_words)
    return figure


def _stand(axes: Axes, posts: Posts) -> None:
    axes.bar(
        list(posts.at),
        list(posts.shares),
        width=posts.thick,
        color=tint(posts.colour, 0.75),
        edgecolor=INK,
        linewidth=0.6,
        hatch=posts.hatch,
    )
