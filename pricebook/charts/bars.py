"""Level bars with their names at the left and their amounts at their ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import readable, width_of, wrapped
from pricebook.charts.scales import (
    AXIS_PT,
    axes_at,
    level_axis,
    money_words,
    ticks_between,
    with_unit,
)
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
from pricebook.money import show

NAME_SIZE = 8.0
_NAME_LINE_PT = 10.0
_MOST_NAME_PT = 170.0
_LEGEND_PT = 18.0
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
class _Rows:
    """Names, broken into lines, with the middle and height of each row."""

    names: tuple[tuple[str, ...], ...]
    middles: tuple[float, ...]
    bar_pt: float
    height: float
    name_pt: float


def rows_for(names: Sequence[str], bar_pt: float) -> _Rows:
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
    return _Rows(tuple(lines), tuple(middles), bar_pt, total, room)


def level_bars(
    title: str,
    names: Sequence[str],
    series: Sequence[Series],
    *,
    words: str,
    currency: str,
    stacked: bool,
    bar_pt: float = 13.0,
) -> Figure:
    """Draw amounts of money as bars, one row a name."""
    rows = rows_for(names, bar_pt if stacked else bar_pt * len(series) * 0.7)
    legend = _LEGEND_PT if len(series) > 1 else 0.0
    head = EDGE_PT + len(title_lines(title)) * TITLE_LINE_PT + legend + 4.0
    height = head + rows.height + AXIS_PT + EDGE_PT
    figure, _ = blank(height, title)
    box = Box(
        EDGE_PT + rows.name_pt + 6.0,
        AXIS_PT + EDGE_PT,
        WIDTH_PT - EDGE_PT,
        AXIS_PT + EDGE_PT + rows.height,
    )
    axes = axes_at(figure, box, height)
    axes.set_ylim(0, rows.height)
    ends = (
        _draw_stacked(axes, rows, series)
        if stacked
        else _draw_beside(axes, rows, series)
    )
    most = _most(ends, box.width)
    axes.set_xlim(0, most)
    for cents, y in ends:
        axes.text(
            cents + most * 4.0 / box.width,
            y,
            show(cents),
            fontproperties=font(7.5),
            va="center_baseline",
        )
    write_names(axes, rows, -6.0 / box.width)
    ticks = ticks_between(0, most)
    level_axis(axes, ticks, [money_words(t) for t in ticks], with_unit(words, currency))
    if legend:
        legend_row(figure, series, height - head + 8.0, height)
    return figure


def _most(ends: Sequence[tuple[int, float]], width: float) -> float:
    """Return the right end of the scale, with room for every amount's words."""
    needed = [
        cents * width / (width - width_of(show(cents), 7.5) - 8.0) for cents, _ in ends
    ]
    return max([1.0, *needed])


def _draw_stacked(
    axes: Axes, rows: _Rows, series: Sequence[Series]
) -> list[tuple[int, float]]:
    """Draw each row's bars end to end; return where each row ends."""
    done = [0] * len(rows.middles)
    for one in series:
        _draw(axes, rows.middles, one, rows.bar_pt, done)
        done = [a + b for a, b in zip(done, one.cents, strict=True)]
    return list(zip(done, rows.middles, strict=True))


def _draw_beside(
    axes: Axes, rows: _Rows, series: Sequence[Series]
) -> list[tuple[int, float]]:
    """Draw each row's bars one below the other; return where each bar ends."""
    thick, ends = rows.bar_pt / len(series), []
    for number, one in enumerate(series):
        down = (number + 0.5) * thick - rows.bar_pt / 2
        middles = [middle - down for middle in rows.middles]
        _draw(axes, middles, one, thick * 0.9, [0] * len(middles))
        ends += list(zip(one.cents, middles, strict=True))
    return ends


def _draw(
    axes: Axes, middles: Sequence[float], one: Series, thick: float, left: list[int]
) -> None:
    axes.barh(
        list(middles),
        list(one.cents),
        height=thick,
        left=left,
        color=tint(one.colour, 0.75),
        edgecolor=INK,
        linewidth=0.6,
        hatch=one.hatch,
    )


def write_names(axes: Axes, rows: _Rows, x: float) -> None:
    """Write the name of each row left of the axes."""
    for lines, middle in zip(rows.names, rows.middles, strict=True):
        axes.text(
            x,
            middle,
            "\n".join(lines),
            transform=axes.get_yaxis_transform(),
            fontproperties=font(NAME_SIZE),
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
