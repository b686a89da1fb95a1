"""What an evening may raise, how the estimates did, and the years."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.bars import level_bars
from pricebook.charts.flags import Flag
from pricebook.charts.plots import Posts, share_plot
from pricebook.charts.rows import Series, row_plot, rows_for
from pricebook.charts.scales import (
    level_axis,
    money_words,
    step_of,
    ticks_between,
    with_unit,
)
from pricebook.charts.style import (
    BLUE,
    GREEN,
    INK,
    ORANGE,
    RED,
    SKY,
    font,
    house,
    says_so,
    tint,
)
from pricebook.forecast import Evening
from pricebook.frames.evenings import (
    Totals,
    estimates_sentence,
    outcome_words,
    totals_name,
)
from pricebook.money import show
from pricebook.records import LotOutcome

MOST_ROWS = 40
"""So many rows fit a page; the rest is in the table, and the title says so."""
_BINS = 30


@house()
def evening(
    drawn: Evening, target_cents: int | None = None, currency: str = ""
) -> Figure:
    """Draw what an evening may raise, as shares of the evenings drawn.

    Parameters
    ----------
    drawn : Evening
        The evening, drawn many times.
    target_cents : int or None
        What is hoped for. [cents]
    currency : str
        The sign of the money.

    Returns
    -------
    Figure
        A bar for each step of the total; evenings below the target are hatched, and
        three quantiles are marked.
    """
    totals = drawn.totals_cents
    target = 0 if target_cents is None else target_cents
    edges = _edges(totals, target)
    flags = [
        Flag(cents, f"{words}: {show(cents)}", ":")
        for words, share in (("1 in 10 below", 0.1), ("5 in 10", 0.5), ("9 in 10", 0.9))
        for cents in (drawn.quantiles[share],)
    ]
    if target_cents is not None:
        flags.append(Flag(target, f"target: {show(target)}", "-"))
    ends = [edges[0], edges[-1], *(flag.at for flag in flags)]
    return share_plot(
        _evening_title(drawn, target_cents, currency),
        _evening_posts(totals, edges, target),
        flags,
        low=min(ends),
        high=max(ends),
        words="Raised in the evening",
        upright_words="Share of evenings",
        currency=currency,
    )


def _evening_title(drawn: Evening, target: int | None, currency: str) -> str:
    half = show(drawn.quantiles[0.5], currency)
    if target is None:
        return f"Half of all evenings raise {half} or less."
    return (
        f"The target of {show(target, currency)} is reached in "
        f"{100 * drawn.chance_of(target):.0f} % of evenings; half raise {half} or less."
    )


def _edges(totals: Sequence[int], target: int) -> list[float]:
    """Return the ends of the bars; the target, if near, is one of them."""
    low, high = totals[0], totals[-1]
    step = step_of(max(high - low, 100), _BINS)
    offset = target % step if low < target < high else 0.0
    first, last = int((low - offset) // step), int((high - offset) // step)
    return [offset + number * step for number in range(first, last + 2)]


def _evening_posts(
    totals: Sequence[int], edges: Sequence[float], target: float
) -> list[Posts]:
    """Count totals into bars, those below the target apart."""
    thick = edges[1] - edges[0]
    bars = [
        ((low + high) / 2, bisect_left(totals, high) - bisect_left(totals, low))
        for low, high in pairwise(edges)
    ]
    below = [(x, count / len(totals)) for x, count in bars if x < target]
    others = [(x, count / len(totals)) for x, count in bars if x >= target]
    return [
        Posts(name, tuple(x for x, _ in part), tuple(y for _, y in part), thick, *look)
        for name, part, look in (
            ("misses the target", below, (ORANGE, "////")),
            ("reaches it", others, (BLUE, "")),
        )
        if part
    ]


@house()
def estimate_against_hammer(lots: Sequence[LotOutcome], currency: str = "") -> Figure:
    """Draw each lot's estimate as a bar and its hammer price as a mark.

    Parameters
    ----------
    lots : sequence of LotOutcome
        What was expected of each lot and what came.
    currency : str
        The sign of the money.

    Returns
    -------
    Figure
        A row a lot, the first 40 where there are more; a lot that did not sell has
        no mark and says so.
    """
    if not lots:
        return says_so("There is no lot to compare.", "No lot has an estimate.")
    shown = list(lots[:MOST_ROWS])
    title = estimates_sentence(lots)
    if len(shown) < len(lots):
        title += f" The first {MOST_ROWS} of {len(lots):,} lots are drawn."
    rows = rows_for([lot.lot for lot in shown], 9.0)
    plot = row_plot(title, rows, right_pt=78.0)
    axes = plot.axes
    top = max(max(x.estimate_high_cents, x.hammer_cents or 0) for x in shown)
    axes.set_xlim(0, top * 1.04 or 1.0)
    _draw_outcomes(axes, shown, rows.middles, plot.width)
    ticks = ticks_between(0, top * 1.04 or 1.0)
    words = with_unit("Estimate (bar) and hammer price (mark)", currency)
    level_axis(axes, ticks, [money_words(tick) for tick in ticks], words)
    return plot.figure


def _draw_outcomes(
    axes: Axes, lots: Sequence[LotOutcome], middles: Sequence[float], width: float
) -> None:
    lows = [lot.estimate_low_cents for lot in lots]
    spans = [lot.estimate_high_cents - lot.estimate_low_cents for lot in lots]
    axes.barh(
        list(middles), spans, height=8.0, left=lows, color=tint(SKY, 0.6), edgecolor=INK
    )
    sold = [
        (lot.hammer_cents, y)
        for lot, y in zip(lots, middles, strict=True)
        if lot.hammer_cents is not None
    ]
    axes.plot(
        [x for x, _ in sold],
        [y for _, y in sold],
        linestyle="none",
        marker="D",
        markersize=5.0,
        color=RED,
        markeredgecolor=INK,
        clip_on=False,
    )
    for lot, y in zip(lots, middles, strict=True):
        cents = lot.hammer_cents
        words = "not sold" if cents is None else f"{show(cents)} {outcome_words(lot)}"
        axes.text(
            1 + 8.0 / width,
            y,
            words,
            transform=axes.get_yaxis_transform(),
            fontproperties=font(7.0),
            va="center",
        )


@house()
def year_by_year(totals: Sequence[Totals], currency: str = "") -> Figure:
    """Draw what was raised, spent and left, year by year or event by event.

    Parameters
    ----------
    totals : sequence of Year or EventTotals
        In order of time.
    currency : str
        The sign of the money.

    Returns
    -------
    Figure
        Three bars a row: raised, spent, and the net, which may lie below 0.
    """
    if not totals:
        return says_so("There is no year to draw.", "No event has been settled yet.")
    best = max(totals, key=lambda one: one.net_cents)
    series = [
        Series("raised", tuple(x.raised_cents for x in totals), BLUE, ""),
        Series("spent", tuple(x.cost_cents for x in totals), ORANGE, "////"),
        Series("net", tuple(x.net_cents for x in totals), GREEN, "...."),
    ]
    return level_bars(
        f"The best net, {show(best.net_cents, currency)}, is of {totals_name(best)}.",
        [totals_name(one) for one in totals],
        series,
        words="Cash",
        currency=currency,
        stacked=False,
    )
