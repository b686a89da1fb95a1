"""Sessions and drying on the calendar, up to the day of the auction."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.flags import Flag, draw_flags, flags_height, placed_flags
from pricebook.charts.rows import Series, row_plot, rows_for, width_beside
from pricebook.charts.scales import level_axis
from pricebook.charts.style import (
    BLUE,
    INK,
    SKY,
    house,
    says_so,
    tint,
)
from pricebook.labour import ElapsedPlan, PlannedStep

_MOST_TICKS = 8
_LEAST_PT = 1.5
_LOOKS = (Series("at the bench", (), BLUE, ""), Series("drying", (), SKY, "////"))


@house()
def elapsed(plan: ElapsedPlan) -> Figure:
    """Draw when each step is done and dry, and the day of the auction.

    Parameters
    ----------
    plan : ElapsedPlan
        Sessions and drying.

    Returns
    -------
    Figure
        A row a step: work in full colour, drying hatched; a line at the auction.
        A stint of minutes is drawn a little wider than it is, to be seen.
    """
    if not plan.steps:
        return says_so(plan.sentence, "No step found a place in the calendar.")
    days = _days_drawn(plan)
    rows = rows_for([one.step.name for one in plan.steps], 9.0)
    flags = placed_flags(_flags(plan, days), 0, days, width_beside(rows))
    plot = row_plot(plan.sentence, rows, legend=_LOOKS, over_pt=flags_height(flags))
    axes, width = plot.axes, plot.width
    axes.set_xlim(0, days)
    for one, middle in zip(plan.steps, rows.middles, strict=True):
        _draw_step(axes, plan, one, middle, _LEAST_PT * days / width)
    draw_flags(axes, flags, width, rows.height)
    _date_axis(axes, plan.start, days)
    return plot.figure


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time())


def _days_drawn(plan: ElapsedPlan) -> float:
    """Return the days drawn: to the auction, unless it is far behind the work."""
    work = _days(plan, plan.steps[-1].dry)
    auction = _days(plan, _midnight(plan.auction))
    return 1.2 * work + 1.0 if auction > 2.5 * work + 3 else max(work, auction) + 1.0


def _flags(plan: ElapsedPlan, days: float) -> list[Flag]:
    auction = _days(plan, _midnight(plan.auction))
    later = ", to the right of this picture" if auction > days else ""
    found = [Flag(min(auction, days), f"auction on {plan.auction}{later}", "-")]
    if plan.ready is not None:
        ready = _days(plan, plan.steps[-1].dry)
        found.append(Flag(ready, f"ready on {plan.ready}", "--"))
    return found


def _days(plan: ElapsedPlan, moment: datetime) -> float:
    return (moment - _midnight(plan.start)) / timedelta(days=1)


def _draw_step(
    axes: Axes, plan: ElapsedPlan, one: PlannedStep, y: float, least: float
) -> None:
    ends, dry = _days(plan, one.ends), _days(plan, one.dry)
    if dry > ends:
        axes.broken_barh(
            [(ends, dry - ends)],
            (y - 4.0, 8.0),
            facecolor=tint(SKY, 0.75),
            edgecolor=INK,
            linewidth=0.5,
            hatch="////",
        )
    work = [(start, max(end - start, least)) for start, end in _work(plan, one)]
    axes.broken_barh(
        work, (y - 4.0, 8.0), facecolor=tint(BLUE, 0.75), edgecolor=INK, linewidth=0.5
    )


def _work(plan: ElapsedPlan, one: PlannedStep) -> Iterator[tuple[float, float]]:
    """Yield begin and end of each stint of a step. [days]."""
    if not one.stints:
        return
    opened = one.starts - timedelta(minutes=one.stints[0].from_min)
    for stint in one.stints:
        begin = _days(plan, datetime.combine(stint.day, opened.time()))
        yield begin + stint.from_min / 1440, begin + stint.to_min / 1440


def _date_axis(axes: Axes, start: date, days: float) -> None:
    """Write dates every so many days, whole weeks where there are many."""
    steps = (1, 2, 7, 14, 28, 56, 112, 224, 448)
    step = next((s for s in steps if days / s <= _MOST_TICKS), int(days / 4) + 1)
    ticks = list(range(0, int(days) + 1, step))
    labels = [f"{start + timedelta(days=tick):%Y-%m-%d}" for tick in ticks]
    level_axis(axes, ticks, labels, "Day")
