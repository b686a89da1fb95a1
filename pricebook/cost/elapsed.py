"""When a piece will be ready: its work and drying placed before the auction."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, time

from pricebook.cost.lines import CostSheet
from pricebook.cost.printing import text_table
from pricebook.cost.shop import Shop
from pricebook.cost.veneering import LAYS
from pricebook.errors import SpecError
from pricebook.finish.steps import MIN_PER_DAY
from pricebook.labour import WEEKDAYS, ElapsedPlan, PlannedStep, Step, elapsed_plan


def elapsed_of(
    sheet: CostSheet,
    shop: Shop,
    start: date,
    auction: date,
    *,
    begins: time = time(9, 0),
    weekdays: Sequence[str] = WEEKDAYS,
    days: Sequence[date] | None = None,
) -> ElapsedPlan:
    """Place the work of a piece in sessions and say if it is ready for the auction.

    Parameters
    ----------
    sheet : CostSheet
        The piece's cost sheet.
    shop : Shop
        The price book; its allowances "session" and "acclimatise" are in minutes.
    start, auction : date
        First possible day at the bench, and the day of the auction.
    begins : time
        When a session begins on the clock.
    weekdays : sequence of str
        Days of the week with a session.
    days : sequence of date or None
        The very days with a session; they take the place of `weekdays`.

    Returns
    -------
    ElapsedPlan
        The steps with their days, and the step that decides.

    Raises
    ------
    SpecError
        If the auction is before the start, or there is no day to work on.

    Notes
    -----
    Every coat dries as its finish says, the last until it has cured; other steps
    dry as the shop's minutes say. Veneer lies in the shop for the time allowed
    from the first day on; the steps before it is laid go on meanwhile.
    """
    if auction < start:
        raise SpecError(
            f"the auction on {auction} is in the past on {start}; give the day of an "
            "auction to come."
        )
    steps = list(_steps(sheet))
    laid = next((step.key for step in steps if step.key in LAYS), "")
    return elapsed_plan(
        steps,
        start,
        auction,
        session_min=shop.allowance("session"),
        begins=begins,
        weekdays=weekdays,
        days=days,
        acclimatise_min=shop.allowance("acclimatise") if laid else 0.0,
        acclimatise_before=laid,
    )


def _steps(sheet: CostSheet) -> Iterator[Step]:
    """Yield the steps at the bench, teaching first, coats under their own names."""
    lines = sheet.labour.lines
    before = len(lines) - len(sheet.tasks)
    for line in lines[:before]:
        yield Step(key=line.operation, name=line.name, work_min=line.elapsed_min)
    for task, line in zip(sheet.tasks, lines[before:], strict=True):
        name, drying_min = line.name, line.drying_min
        if task.drying_min is not None:
            drying_min = task.drying_min
        if task.step:
            name = f"{name}: {task.step}"
        yield Step(
            key=line.operation,
            name=name,
            work_min=line.elapsed_min,
            drying_min=drying_min,
        )


def shelf_life_notes(sheet: CostSheet, plan: ElapsedPlan) -> tuple[str, ...]:
    """Say when a finish mixed for this plan outlives its shelf life by the auction.

    Parameters
    ----------
    sheet : CostSheet
        The piece's cost sheet.
    plan : ElapsedPlan
        Its plan.

    Returns
    -------
    tuple of str
        A sentence where there is something to say.
    """
    if sheet.finish is None:
        return ()
    mixed = [p.starts.date() for p in plan.steps if p.step.key == "finish set-up"]
    if not mixed or mixed[0] > plan.auction:
        return ()
    dated = replace(sheet.finish, dates=(mixed[0], plan.auction))
    return tuple(note for note in dated.notes if note not in sheet.finish.notes)


def elapsed_text(sheet: CostSheet, plan: ElapsedPlan) -> str:
    """Print a plan: the answer in a sentence, then every step with its day.

    Parameters
    ----------
    sheet : CostSheet
        The piece's cost sheet.
    plan : ElapsedPlan
        Its plan.

    Returns
    -------
    str
        Plain text.
    """
    head = ("step", "day", "from", "to", "then dries")
    rows = [_row(planned) for planned in plan.steps]
    parts = [f"{sheet.piece}: will it be ready? {plan.sentence}"]
    parts += [text_table(head, rows, right=(2, 3))] if rows else []
    parts += [f"  - {note}" for note in shelf_life_notes(sheet, plan)]
    return "\n".join(parts)


def _row(planned: PlannedStep) -> tuple[str, ...]:
    first, last = planned.starts, planned.ends
    days = f"{first:%a} {first.date()}"
    if last.date() != first.date():
        days += f" to {last.date()}"
    dries = drying_words(planned.step.drying_min)
    return planned.step.name, days, f"{first:%H:%M}", f"{last:%H:%M}", dries


def drying_words(drying_min: float) -> str:
    """Return a drying time as it is spoken of.

    Parameters
    ----------
    drying_min : float
        The time. [min]

    Returns
    -------
    str
        Minutes, hours or days; empty for none.

    Examples
    --------
    >>> drying_words(45), drying_words(180), drying_words(10080), drying_words(0)
    ('45 min', '3 h', '7 days', '')
    """
    if not drying_min:
        return ""
    if drying_min >= 2 * MIN_PER_DAY:
        return f"{drying_min / MIN_PER_DAY:.3g} days"
    return f"{drying_min / 60:.3g} h" if drying_min >= 60 else f"{drying_min:.0f} min"
