"""Level bars with their names at the left and their amounts at their ends."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.lettering import width_of
from pricebook.charts.rows import Rows, Series, row_plot, rows_for
from pricebook.charts.scales import level_axis, money_words, ticks_between, with_unit
from pricebook.charts.style import INK, font, tint
from pricebook.money import show

_END_SIZE = 7.5


def level_bars(
    title: str,
    names: Sequence[str],
    series: Sequence[Series],
    *,
    words: str,
    currency: str,
    stacked: bool,
) -> Figure:
    """Draw amounts of money as bars, one row a name."""
    rows = rows_for(names, 13.0 if stacked else 9.0 * len(series))
    plot = row_plot(title, rows, legend=series if len(series) > 1 else ())
    axes = plot.axes
    draw = _draw_stacked if stacked else _draw_beside
    ends = draw(axes, rows, series)
    low = min([0, *(cents for cents, _ in ends)])
    most = _most(ends, low, plot.width)
    axes.set_xlim(low, most)
    if low < 0:
        axes.axvline(0, color=INK, linewidth=0.8)
    for cents, y in ends:
        axes.text(
            max(cents, 0) + (most - low) * 4.0 / plot.width,
            y,
            show(cents),
            fontproperties=font(_END_SIZE),
            va="center_baseline",
        )
    ticks = ticks_between(low, most)
    level_axis(axes, ticks, [money_words(t) for t in ticks], with_unit(words, currency))
    return plot.figure


def _most(ends: Sequence[tuple[int, float]], low: int, width: float) -> float:
    """Return the right end of the scale, with room for every amount's words."""
    needed = []
    for cents, _ in ends:
        share = 1 - (width_of(show(cents), _END_SIZE) + 8.0) / width
        needed.append(low + (max(cents, 0) - low) / share)
    return max([1.0, *needed])


def _draw_stacked(
    axes: Axes, rows: Rows, series: Sequence[Series]
) -> list[tuple[int, float]]:
    """Draw each row's bars end to end; return where each row ends."""
    done = [0] * len(rows.middles)
    for one in series:
        _draw(axes, rows.middles, one, rows.bar_pt, done)
        done = [a + b for a, b in zip(done, one.cents, strict=True)]
    return list(zip(done, rows.middles, strict=True))


def _draw_beside(
    axes: Axes, rows: Rows, series: Sequence[Series]
) -> list[tuple[int, float]]:
    """Draw each row's bars one below the other; return where each bar ends."""
    thick = rows.bar_pt / len(series)
    ends: list[tuple[int, float]] = []
    for number, one in enumerate(series):
        down = (number + 0.5) * thick - rows.bar_pt / 2
        middles = [middle - down for middle in rows.middles]
        _draw(axes, middles, one, thick * 0.9, [0] * len(middles))
        ends += zip(one.cents, middles, strict=True)
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
