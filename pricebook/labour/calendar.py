"""Steps, sessions and the places they find in a calendar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

WEEKDAYS = (
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
)
_MOST_DAYS = 3660
_NONE_LEFT = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step on the clock.

    Parameters
    ----------
    key, name : str
        The operation, and what a plan calls this step.
    work_min : float
        Time on the clock, 0 or more. [min]
    drying_min : float
        Waiting time before the next step may start. [min]
    """

    key: str
    name: str
    work_min: float
    drying_min: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stint:
    """What is done of one step in one session.

    Parameters
    ----------
    day : date
        The day of the session.
    from_min, to_min : float
        Start and end, from the start of the session. [min]
    """

    day: date
    from_min: float
    to_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedStep:
    """A step with its place in the calendar.

    Parameters
    ----------
    step : Step
        The step.
    stints : tuple of Stint
        Its sessions, in order; none for a step of pure waiting.
    starts, ends : datetime
        On the clock, drying left out.
    dry : datetime
        When the next step may start.
    """

    step: Step
    stints: tuple[Stint, ...]
    starts: datetime
    ends: datetime
    dry: datetime

    @property
    def dries_overnight(self) -> bool:
        """Whether the drying runs past midnight."""
        return self.dry.date() > self.ends.date()


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """The sessions that a shop can work."""

    start: date
    session_min: float
    begins: time
    weekdays: tuple[str, ...]
    days: tuple[date, ...] | None

    def sessions(self, since: date) -> Iterator[datetime]:
        """Yield the start of each session from a day on, in order."""
        if self.days is not None:
            for day in sorted(set(self.days)):
                if day >= since:
                    yield datetime.combine(day, self.begins)
            return
        for number in range(_MOST_DAYS):
            day = since + timedelta(days=number)
            if WEEKDAYS[day.weekday()] in self.weekdays:
                yield datetime.combine(day, self.begins)


def place(
    steps: Sequence[Step], calendar: Calendar, waits: tuple[str, float]
) -> tuple[tuple[PlannedStep, ...], float]:
    """Place each step after the one before; return also the work left over."""
    now = datetime.combine(calendar.start, calendar.begins)
    settled = now + timedelta(minutes=waits[1])
    placed: list[PlannedStep] = []
    for number, step in enumerate(steps):
        if waits[1] and step.key == waits[0]:
            now = max(now, settled)
        stints, left_min = _stints(step, now, calendar)
        if left_min:
            rest = sum(later.work_min for later in steps[number + 1 :])
            return tuple(placed), left_min + rest
        starts, ends = (stints[0][0], stints[-1][1]) if stints else (now, now)
        now = ends + timedelta(minutes=step.drying_min)
        placed.append(
            PlannedStep(
                step=step,
                stints=tuple(_as_stint(stint, calendar) for stint in stints),
                starts=starts,
                ends=ends,
                dry=now,
            )
        )
    return tuple(placed), 0.0


def _stints(
    step: Step, now: datetime, calendar: Calendar
) -> tuple[list[tuple[datetime, datetime]], float]:
    """Find the sessions for a step from a moment on, and what finds none."""
    left, found = step.work_min, []
    # a coat or a glue-up is done in one go; sanding can go on tomorrow
    whole = step.drying_min > 0 and step.work_min <= calendar.session_min
    for begin in calendar.sessions(now.date()):
        if left <= _NONE_LEFT:
            break
        end = begin + timedelta(minutes=calendar.session_min)
        first = max(now, begin)
        room = (end - first) / timedelta(minutes=1)
        if room <= _NONE_LEFT or (whole and room < left - _NONE_LEFT):
            continue
        taken = min(room, left)
        found.append((first, first + timedelta(minutes=taken)))
        left -= taken
    return found, left if left > _NONE_LEFT else 0.0


def _as_stint(stint: tuple[datetime, datetime], calendar: Calendar) -> Stint:
    begin = datetime.combine(stint[0].date(), calendar.begins)
    from_min, to_min = ((at - begin) / timedelta(minutes=1) for at in stint)
    return Stint(day=stint[0].date(), from_min=from_min, to_min=to_min)


def decider(steps: Sequence[Step], calendar: Calendar, waits: tuple[str, float]) -> str:
    """Name the work, drying or settling without which it is ready soonest."""
    trials = []
    if waits[1]:
        trials.append((0, "letting the veneer settle", steps, ("", 0.0)))
    for number, step in enumerate(steps):
        for is_work, what, without in (
            (0, f'the drying after "{step.name}"', replace(step, drying_min=0.0)),
            (1, f'the work of "{step.name}"', replace(step, work_min=0.0)),
        ):
            if without != step:
                others = [*steps[:number], without, *steps[number + 1 :]]
                trials.append((is_work, what, others, waits))
    ready = [
        (placed[-1].dry, is_work, -number, what)
        for number, (is_work, what, others, wait) in enumerate(trials)
        if (placed := place(others, calendar, wait)[0])
    ]
    return min(ready)[3] if ready else ""
