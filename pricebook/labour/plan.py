"""Operations to minutes, hours and money: set-up, rate, crew, rework, learning."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from pricebook.errors import SpecError, nearest, raise_all
from pricebook.labour.crew import is_not_number
from pricebook.labour.learning import Learning
from pricebook.labour.lines import LabourLine, LabourPlan
from pricebook.money import exact, times
from pricebook.rates import Minutes, Work

_FEET = {"m2": ("sq ft", 0.3048**2), "m": ("ft", 0.3048)}
"""What a reader of inches counts in, and its size; exact (nist_sp_811)."""


def plan_labour(
    work: Iterable[Work],
    minutes: Iterable[Minutes],
    *,
    paid_cents_per_hour: int,
    given_cents_per_hour: int,
    rework_share: float = 0.0,
    teaching_min: float = 0.0,
    learning: Learning | None = None,
    crew: Mapping[str, int] | None = None,
    lengths: str = "mm",
) -> LabourPlan:
    """Turn the work of a piece into steps, minutes and money.

    Parameters
    ----------
    work : iterable of Work
        The steps in bench order; each has one set-up, so a finish of three coats
        is three steps, each with its drying after it.
    minutes : iterable of Minutes
        The shop's rows; the rate is the time that one person alone would take.
    paid_cents_per_hour, given_cents_per_hour : int
        What an hour counts for under each pay; "none" counts nothing. [cents]
    rework_share : float
        Minutes added to every step for doing things over, 0 to 1. [-]
    teaching_min : float
        Showing a helper how; both people's time, given. [min]
    learning : Learning or None
        How the time falls over like pieces. The work is then that of all the
        pieces together; set-up does not shrink. None: no learning.
    crew : mapping of str to int or None
        How many people work on an operation, where that differs from its row;
        see `people_for`.
    lengths : str
        "in" tells the working in feet and square feet, "mm" in metres.

    Returns
    -------
    LabourPlan
        A line for each step, teaching first.

    Raises
    ------
    SpecError
        If an operation has no row, a unit differs from its row's, or a number is
        negative or not a number; one sentence for each fault.

    Notes
    -----
    person minutes = (set-up + quantity x rate x learning) x (1 + rework). Two
    people share a step: the minutes of both are counted, the clock shows half. A
    step of quantity 0 takes no time, set-up included. Money is rounded once a
    line. Minutes are the shop's own: no published standard for this bench work
    was found (common practice, no source).

    Examples
    --------
    >>> from datetime import date
    >>> laying = Minutes(key="lay", name="lay veneer", setup_min=20, rate_min=50,
    ...     unit="m2", people=2, dated=date(2026, 1, 1), source="invented")
    >>> step = Work(operation="lay", quantity=3.4, unit="m2", how="8 faces")
    >>> plan = plan_labour([step], [laying], paid_cents_per_hour=0,
    ...     given_cents_per_hour=2400)
    >>> plan.person_min, plan.elapsed_min, plan.cents_of("given")
    (190.0, 95.0, 7600)
    >>> plan.lines[0].how
    'set up 20 min + 3.4 m2 x 50 min/m2, by 2 people: 95 min on the clock; 8 faces'
    """
    steps, rows = list(work), {row.key: row for row in minutes}
    people = dict(crew or {})
    faults = _number_faults(
        paid_per_hour=paid_cents_per_hour,
        given_per_hour=given_cents_per_hour,
        rework_share=rework_share,
        teaching_min=teaching_min,
    )
    if not faults and rework_share > 1:
        faults.append(f"rework_share is {rework_share:g}; it must be 0 to 1.")
    faults += _crew_faults(people, rows)
    raise_all(SpecError, [*faults, *_work_faults(steps, rows)])
    hourly = {"paid": paid_cents_per_hour, "given": given_cents_per_hour, "none": 0}
    lines = [
        _line(
            step, rows[step.operation], hourly, rework_share, learning, people, lengths
        )
        for step in steps
    ]
    if teaching_min:
        lines.insert(0, _teaching(teaching_min, hourly))
    return LabourPlan(lines=tuple(lines))


def _line(
    step: Work,
    row: Minutes,
    hourly: Mapping[str, int],
    rework_share: float,
    learning: Learning | None,
    crew: Mapping[str, int],
    lengths: str,
) -> LabourLine:
    factor = learning.mean_factor if learning else 1.0
    at_bench = exact(step.quantity) * exact(row.rate_min) * exact(factor)
    person_min = (exact(row.setup_min) + at_bench) * (1 + exact(rework_share))
    if step.quantity == 0:
        person_min = Fraction(0)
    people = crew.get(step.operation, row.people)
    return LabourLine(
        operation=step.operation,
        name=row.name,
        quantity=step.quantity,
        unit=step.unit,
        setup_min=row.setup_min,
        rate_min=row.rate_min,
        people=people,
        person_min=float(person_min),
        drying_min=row.drying_min if step.quantity else 0.0,
        pay=row.pay,
        amount_cents=times(hourly[row.pay], person_min / 60),
        how=_how(step, row, rework_share, learning, people, person_min, lengths),
        source=row.source,
    )


def _how(
    step: Work,
    row: Minutes,
    rework_share: float,
    learning: Learning | None,
    people: int,
    person_min: Fraction,
    lengths: str,
) -> str:
    """Say in words how the minutes of a step were worked out."""
    if step.quantity == 0:
        return "nothing to do"
    unit, size = (
        (step.unit, 1.0) if lengths == "mm" else _FEET.get(step.unit, (step.unit, 1.0))
    )
    amount = f"{round(step.quantity / size, 3):.4g}"
    words = f"{amount} {unit} x {row.rate_min * size:.3g} min/{unit}"
    if unit == "each":
        words = f"{amount} x {row.rate_min:.3g} min"
    if row.setup_min:
        set_up = f"set up {row.setup_min:.4g} min"
        words = f"{set_up} + {words}" if row.rate_min else set_up
    if learning and row.rate_min:
        words += f" x {learning.mean_factor:.3f} for learning ({learning.words})"
    if rework_share:
        words += f", {100 * rework_share:.3g} % more for rework"
    if people > 1:
        on_clock = f"{float(person_min / people):.0f} min on the clock"
        words += f", by {people} people: {on_clock}"
    return f"{words}; {step.how}" if step.how else words


def _teaching(teaching_min: float, hourly: Mapping[str, int]) -> LabourLine:
    person_min = 2 * exact(teaching_min)
    return LabourLine(
        operation="teaching",
        name="show a helper how",
        quantity=1,
        unit="each",
        setup_min=0.0,
        rate_min=float(person_min),
        people=2,
        person_min=float(person_min),
        drying_min=0.0,
        pay="given",
        amount_cents=times(hourly["given"], person_min / 60),
        how=f"{teaching_min:.4g} min of two people",
        source="the shop's own",
    )


def _number_faults(**numbers: float) -> list[str]:
    return [
        f"{name} is {amount!r}; it must be a number, 0 or more."
        for name, amount in numbers.items()
        if is_not_number(amount) or amount < 0
    ]


def _crew_faults(crew: Mapping[str, int], rows: Mapping[str, Minutes]) -> list[str]:
    faults = []
    for operation, people in crew.items():
        if operation not in rows:
            faults.append(f'crew: "{operation}" has no row of minutes.')
        if isinstance(people, bool) or not isinstance(people, int) or people < 1:
            faults.append(f'crew: "{operation}" is {people!r}; use 1, 2 or more.')
    return faults


def _work_faults(steps: Sequence[Work], rows: Mapping[str, Minutes]) -> list[str]:
    faults = []
    for step in steps:
        row = rows.get(step.operation)
        if row is None:
            hint = nearest(step.operation, rows)
            faults.append(f'operation "{step.operation}" has no row of minutes; {hint}')
        elif row.unit != step.unit:
            faults.append(
                f'operation "{step.operation}" is counted in {step.unit}, its minutes '
                f"in {row.unit}; give both in one unit."
            )
        if is_not_number(step.quantity) or step.quantity < 0:
            faults.append(
                f'operation "{step.operation}": the quantity is {step.quantity!r}; it '
                "must be a number, 0 or more."
            )
    return faults
