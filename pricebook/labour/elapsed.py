"""Sessions at the bench and drying between them, up to the day of the auction."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.labour.calendar import (
    WEEKDAYS,
    Calendar,
    PlannedStep,
    Step,
    decider,
    place,
)
from pricebook.labour.crew import is_not_number
from pricebook.labour.lines import LabourPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class ElapsedPlan:
    """When each step is done, and whether the piece is ready in time.

    Parameters
    ----------
    steps : tuple of PlannedStep
        The steps that found a place, in bench order.
    start, auction : date
        First day at the bench, and the day of the auction.
    ready : date or None
        Day on which the last step is done and dry; None when the days given run
        out first.
    unplaced_min : float
        Work that found no session. [min]
    decider : str
        What decides the day: without this work or this drying the piece would be
        ready soonest; of equals the drying before the work, the later first.
    sentence : str
        The answer in words.
    """

    steps: tuple[PlannedStep, ...]
    start: date
    auction: date
    ready: date | None
    unplaced_min: float
    decider: str
    sentence: str

    @property
    def spare_days(self) -> int | None:
        """Days from ready to the auction; below 0 when it comes too late."""
        return (self.auction - self.ready).days if self.ready else None

    @property
    def in_time(self) -> bool:
        """Whether the piece is ready on the day of the auction or before."""
        return self.ready is not None and self.ready <= self.auction


def elapsed_plan(
    work: LabourPlan | Sequence[Step],
    start: date,
    auction: date,
    *,
    session_min: float,
    begins: time = time(9, 0),
    weekdays: Sequence[str] = WEEKDAYS,
    days: Sequence[date] | None = None,
    acclimatise_min: float = 0.0,
    acclimatise_before: str = "",
) -> ElapsedPlan:
    """Place the steps in sessions, with drying between, and say if it is in time.

    Parameters
    ----------
    work : LabourPlan or sequence of Step
        The steps in bench order; each starts when the one before is dry.
    start, auction : date
        First possible day at the bench, and the day of the auction.
    session_min : float
        Length of a session, one a day, more than 0. [min]
    begins : time
        When a session begins on the clock.
    weekdays : sequence of str
        Days of the week with a session.
    days : sequence of date or None
        The very days with a session; they take the place of `weekdays`.
    acclimatise_min : float
        How long the veneer lies in the shop first, from the start of the first
        day on; 48 hours to 4 days are usual. [min]
    acclimatise_before : str
        Key of the first step that waits for it; the steps before go on meanwhile.

    Returns
    -------
    ElapsedPlan
        The steps with day and minutes, the day it is ready, the days to spare,
        and the step that decides.

    Raises
    ------
    SpecError
        If the auction is before the start, a number is out of range, a weekday
        is none, no day is left to work on, or a step waits for nothing known.

    Notes
    -----
    Work stops at the end of a session and goes on in the next one; drying runs on
    the clock, overnight too. A step that dries afterwards is done in one go: it
    waits for a session that holds it, unless it is longer than any. Ready on the
    day of the auction still counts as in time.

    Examples
    --------
    >>> coat = Step(key="coat", name="brush a coat", work_min=60, drying_min=480)
    >>> plan = elapsed_plan([coat, coat], date(2026, 5, 4), date(2026, 5, 9),
    ...     session_min=120)
    >>> [planned.stints[0].day.day for planned in plan.steps], plan.spare_days
    ([4, 5], 4)
    >>> plan.sentence
    'Ready on 2026-05-05, 4 days before the auction; the drying after "brush a
    coat (1 of 2)" decides the day.'
    """
    steps = _named(_steps_of(work))
    calendar = Calendar(
        start=start,
        session_min=session_min,
        begins=begins,
        weekdays=tuple(weekdays),
        days=None if days is None else tuple(days),
    )
    waits = (acclimatise_before, acclimatise_min)
    raise_all(SpecError, _faults(steps, calendar, auction, waits))
    placed, unplaced_min = place(steps, calendar, waits)
    decides = decider(steps, calendar, waits) if unplaced_min == 0 else ""
    ready = placed[-1].dry.date() if placed else start
    plan = ElapsedPlan(
        steps=placed,
        start=start,
        auction=auction,
        ready=None if unplaced_min else ready,
        unplaced_min=unplaced_min,
        decider=decides,
        sentence="",
    )
    return replace(plan, sentence=_sentence(plan))


def _steps_of(work: LabourPlan | Sequence[Step]) -> list[Step]:
    if not isinstance(work, LabourPlan):
        return list(work)
    return [
        Step(
            key=line.operation,
            name=line.name,
            work_min=line.elapsed_min,
            drying_min=line.drying_min,
        )
        for line in work.lines
        if line.person_min or line.drying_min
    ]


def _named(steps: Sequence[Step]) -> list[Step]:
    """Count the steps that share a name, as in coat (1 of 3)."""
    count, seen, named = Counter(step.name for step in steps), Counter[str](), []
    for step in steps:
        seen[step.name] += 1
        of = f" ({seen[step.name]} of {count[step.name]})"
        named.append(replace(step, name=step.name + of * (count[step.name] > 1)))
    return named


def _sentence(plan: ElapsedPlan) -> str:
    if plan.ready and not plan.steps:
        return "There is nothing to do."
    if plan.ready is None:
        return (
            f"Not ready for the auction on {plan.auction}: the days given run out "
            f"with {plan.unplaced_min:.0f} min of work left."
        )
    gap = abs((plan.auction - plan.ready).days)
    count = f"{gap} day" if gap == 1 else f"{gap} days"
    why = f"; {plan.decider} decides the day." if plan.decider else "."
    if plan.in_time:
        when = f"{count} before the auction" if gap else "the day of the auction"
        return f"Ready on {plan.ready}, {when}{why}"
    return f"Not ready in time: {plan.ready} is {count} after the auction{why}"


def _faults(
    steps: Sequence[Step],
    calendar: Calendar,
    auction: date,
    waits: tuple[str, float],
) -> Iterator[str]:
    yield from _day_faults(calendar, auction)
    length = calendar.session_min
    most = 1440 - 60 * calendar.begins.hour - calendar.begins.minute
    if is_not_number(length) or not 0 < length <= most:
        yield (
            f"a session is {length!r} min from {calendar.begins:%H:%M}; it must be "
            f"more than 0 and end by midnight, so at most {most}."
        )
    for day in calendar.weekdays:
        if day not in WEEKDAYS:
            yield f'"{day}" is no day of the week; {nearest(str(day), WEEKDAYS)}'
    if not (calendar.weekdays if calendar.days is None else calendar.days):
        yield "no day to work on is given; give one weekday or date at least."
    yield from _step_faults(steps, waits)


def _day_faults(calendar: Calendar, auction: date) -> Iterator[str]:
    given = (calendar.start, auction, *(calendar.days or ()))
    wrong = [day for day in given if not _is_day(day)]
    if wrong:
        yield f"{wrong[0]!r} is not a day; give a date without a time."
        return
    if auction < calendar.start:
        yield (
            f"the auction on {auction} is before the start on {calendar.start}; give "
            "a start before the auction."
        )
    for day in calendar.days or ():
        if day < calendar.start:
            yield f"{day} is before the start on {calendar.start}; leave it out."


def _is_day(day: object) -> bool:
    return isinstance(day, date) and not isinstance(day, datetime)


def _step_faults(steps: Sequence[Step], waits: tuple[str, float]) -> Iterator[str]:
    for step in steps:
        for what, amount in (("work", step.work_min), ("drying", step.drying_min)):
            if is_not_number(amount) or amount < 0:
                yield f'"{step.name}": {what} is {amount!r} min; use 0 or more.'
    if is_not_number(waits[1]) or waits[1] < 0:
        yield f"acclimatise_min is {waits[1]!r}; it must be 0 or more."
    elif waits[1] and waits[0] not in {step.key for step in steps}:
        hint = nearest(waits[0], {step.key: None for step in steps})
        yield f'no step "{waits[0]}" is there to wait for the veneer; {hint}'
