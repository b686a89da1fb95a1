"""What drives a result, one figure at a time."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.lettering import width_of
from pricebook.charts.rows import Series, row_plot, rows_for
from pricebook.charts.scales import level_axis, ticks_between
from pricebook.charts.style import BLUE, INK, ORANGE, font, house, says_so, tint
from pricebook.frames.drivers import Moved, in_money, range_words, swings_sentence

_MOST_ROWS = 20
"""So many rows fit a page; the rest is in the table, and the title says so."""
_LOOKS = (
    Series("at its low end", (), ORANGE, "////"),
    Series("at its high end", (), BLUE, ""),
)


@house()
def swings(
    found: Sequence[Moved],
    *,
    base: float | None = None,
    words: str = "Full cost",
    words_of: Callable[[float], str] = in_money,
) -> Figure:
    """Draw how far each figure moves a result over its range.

    Parameters
    ----------
    found : sequence of Moved
        Widest first.
    base : float or None
        The result as it stands; None: the middle of the widest bar.
    words : str
        What the result is, with its unit.
    words_of : callable
        Prints a result; money in cents by default.

    Returns
    -------
    Figure
        A row a figure, from the result as it stands to the result at each end; the
        range of the figure stands behind its name.
    """
    name = words.partition(" (")[0]
    title = swings_sentence(found, words_of, f"the {name[:1].lower()}{name[1:]}")
    if not found or not found[0].swing:
        return says_so(title, "Every figure was moved over its whole range.")
    if len(found) > _MOST_ROWS:
        title += f" The first {_MOST_ROWS} of {len(found)} figures are drawn."
        found = found[:_MOST_ROWS]
    middle = (found[0].at_low + found[0].at_high) / 2 if base is None else base
    names = [f"{one.name}: {' to '.join(range_words(one))}" for one in found]
    rows = rows_for(names, 12.0)
    plot = row_plot(title, rows, legend=_LOOKS)
    axes, width = plot.axes, plot.width
    low, high = _reach(found, middle, width, words_of)
    axes.set_xlim(low, high)
    for one, y in zip(found, rows.middles, strict=True):
        _draw_swing(axes, one, middle, y, words_of, (high - low) / width)
    axes.axvline(middle, color=INK, linewidth=1.0)
    ticks = ticks_between(low, high)
    level_axis(axes, ticks, [words_of(tick) for tick in ticks], words)
    return plot.figure


def _reach(
    found: Sequence[Moved],
    middle: float,
    width: float,
    words_of: Callable[[float], str],
) -> tuple[float, float]:
    """Return ends of the scale that leave room for the words beside the bars."""
    results = [middle, *(x.at_low for x in found), *(x.at_high for x in found)]
    room = max(width_of(words_of(result), 7.0) for result in results) + 8.0
    low, high = min(results), max(results)
    per_pt = (high - low) / (width - 2 * room)
    return low - room * per_pt, high + room * per_pt


def _draw_swing(
    axes: Axes,
    one: Moved,
    middle: float,
    y: float,
    words_of: Callable[[float], str],
    per_pt: float,
) -> None:
    ends = ((one.at_low, _LOOKS[0]), (one.at_high, _LOOKS[1]))
    same_side = (one.at_low - middle) * (one.at_high - middle) > 0 or not one.swing
    # the longer bar first, so that the shorter one is seen upon it
    for at, look in sorted(ends, key=lambda end: -abs(end[0] - middle)):
        axes.barh(
            [y],
            [at - middle],
            height=10.0,
            left=middle,
            color=tint(look.colour, 0.75),
            edgecolor=INK,
            linewidth=0.6,
            hatch=look.hatch,
        )
    outer = max(ends, key=lambda end: abs(end[0] - middle))
    for at, _ in (outer,) if same_side else ends:
        right = at > middle or (at == middle and one.at_low + one.at_high <= 2 * middle)
        axes.text(
            at + (4.0 if right else -4.0) * per_pt,
            y,
            words_of(at),
            fontproperties=font(7.0),
            ha="left" if right else "right",
            va="center_baseline",
        )
