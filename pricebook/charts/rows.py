"""Rows of a picture: names at the left, axes beside them, a legend above."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import readable, width_of, wrapped
from pricebook.charts.scales import AXIS_PT, axes_at
from pricebook.charts.style import (
    EDGE_PT,
    INK,
    TITLE_LINE_PT,
    WIDTH_PT,
    Colour,
    blank,
    font,
    tint,
    title_lines,
)

NAME_SIZE = 8.0
LEGEND_PT = 18.0
_NAME_LINE_PT = 10.0
_MOST_NAME_PT = 170.0
_GAP_PT = 6.0


@dataclass(frozen=True, slots=True)
class Series:
    """One kind of bar.

    Parameters
    ----------
    name : str
        What it shows.
    cents : tuple of int
        An amount a row, 0 or more. [cents]
    colour : tuple of float
        Its colour.
    hatch : str
        Its hatch, which says the same.
    """

    name: str
    cents: tuple[int, ...]
    colour: Colour
    hatch: str


@dataclass(frozen=True, slots=True)
class Rows:
    """Names, broken into lines, with the middle and height of each row."""

    names: tuple[tuple[str, ...], ...]
    middles: tuple[float, ...]
    bar_pt: float
    height: float
    name_pt: float


def rows_for(names: Sequence[str], bar_pt: float) -> Rows:
    """Set names one below the other, from the top down."""
    plain = [readable(name) for name in names]
    widest = max(width_of(name, NAME_SIZE) for name in plain)
    room = min(_MOST_NAME_PT, widest)
    lines = [wrapped(name, room, NAME_SIZE) for name in plain]
    heights = [max(bar_pt, len(each) * _NAME_LINE_PT) + _GAP_PT for each in lines]
    total = sum(heights)
    middles, done = [], 0.0
    for height in heights:
        middles.append(total - done - height / 2)
        done += height
    return Rows(tuple(lines), tuple(middles), bar_pt, total, room)


def width_beside(rows: Rows) -> float:
    """Return the width that is left for axes beside the names. [pt]."""
    return WIDTH_PT - 2 * EDGE_PT - rows.name_pt - 6.0


@dataclass(frozen=True, slots=True)
class RowPlot:
    """A figure with axes whose rows are named.

    Parameters
    ----------
    figure : Figure
        The figure.
    axes : Axes
        Its axes; upright they count points.
    width : float
        Width of the axes. [pt]
    """

    figure: Figure
    axes: Axes
    width: float


def row_plot(
    title: str,
    rows: Rows,
    *,
    legend: Sequence[Series] = (),
    over_pt: float = 4.0,
    right_pt: float = 0.0,
) -> RowPlot:
    """Return a figure with a title, a legend, and axes beside the rows' names."""
    head = EDGE_PT + len(title_lines(title)) * TITLE_LINE_PT + over_pt
    head += LEGEND_PT if legend else 0.0
    foot, left = AXIS_PT + EDGE_PT, EDGE_PT + rows.name_pt + 6.0
    height = head + rows.height + foot
    figure, top = blank(height, title)
    box = Box(left, foot, WIDTH_PT - EDGE_PT - right_pt, foot + rows.height)
    axes = axes_at(figure, box, height)
    axes.set_ylim(0, rows.height)
    write_names(axes, rows, -6.0 / box.width)
    if legend:
        legend_row(figure, legend, top - LEGEND_PT / 2, height)
    return RowPlot(figure, axes, box.width)


def write_names(axes: Axes, rows: Rows, x: float) -> None:
    """Write the name of each row left of the axes."""
    for lines, middle in zip(rows.names, rows.middles, strict=True):
        axes.text(
            x,
            middle,
            "\n".join(lines),
            transform=axes.get_yaxis_transform(),
            fontproperties=font(NAME_SIZE, text="".join(lines)),
            ha="right",
            va="center",
            linespacing=1.0,
        )


def legend_row(
    figure: Figure, series: Sequence[Series], y: float, height: float
) -> None:
    """Explain colours and hatches in a row below the title."""
    x = EDGE_PT
    for one in series:
        swatch = Rectangle(
            (x / WIDTH_PT, (y - 4.0) / height),
            18.0 / WIDTH_PT,
            8.0 / height,
            transform=figure.transFigure,
            facecolor=tint(one.colour, 0.75),
            edgecolor=INK,
            linewidth=0.6,
            hatch=one.hatch,
        )
        figure.add_artist(swatch)
        figure.text(
            (x + 22.0) / WIDTH_PT,
            y / height,
            one.name,
            fontproperties=font(7.5),
            va="center_baseline",
        )
        x += 22.0 + width_of(one.name, 7.5) + 14.0
