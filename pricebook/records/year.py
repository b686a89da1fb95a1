"""Several events added up to a year, with what it cost to raise a dollar."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.faults import whole_fault
from pricebook.money import show

_AMOUNTS = (
    "raised_cents",
    "cost_cents",
    "lots_sold",
    "lots_passed",
    "lots_withdrawn",
    "lots_void",
    "gifts_in_kind_cents",
    "time_given_cents",
    "unpaid_cents",
)


class _Sums:
    """What follows from sums, of one event as of a year."""

    __slots__ = ()

    raised_cents: int
    cost_cents: int
    gifts_in_kind_cents: int
    time_given_cents: int
    unpaid_cents: int

    @property
    def net_cents(self) -> int:
        """Cash raised less cash spent, in cents."""
        return self.raised_cents - self.cost_cents

    @property
    def cost_to_raise_a_dollar(self) -> float | None:
        """Cash spent over cash raised; None when nothing was raised."""
        return self.cost_cents / self.raised_cents if self.raised_cents else None

    @property
    def full_cost_to_raise_a_dollar(self) -> float | None:
        """The same with gifts in kind and time given, at stated value, in the cost."""
        if not self.raised_cents:
            return None
        given = self.gifts_in_kind_cents + self.time_given_cents
        return (self.cost_cents + given) / self.raised_cents

    @property
    def return_per_dollar(self) -> float | None:
        """Cash raised over cash spent; None when nothing was spent."""
        return self.raised_cents / self.cost_cents if self.cost_cents else None

    @property
    def sentence(self) -> str:
        """Cost to raise a dollar with its denominator."""
        rate = self.cost_to_raise_a_dollar
        if rate is None:
            return "Nothing was raised, so there is no cost to raise a dollar."
        return (
            f"It cost {rate:.4f} to raise 1.00: {show(self.cost_cents)} cash spent "
            f"over {show(self.raised_cents)} cash raised."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class EventTotals(_Sums):
    """The totals of one event.

    Parameters
    ----------
    name : str
        What it was called.
    on : datetime.date
        When it was held.
    raised_cents : int
        Cash raised: what was paid, unpaid lots left out. [cents]
    cost_cents : int
        Cash spent. [cents]
    lots_sold, lots_passed, lots_withdrawn, lots_void : int
        What became of the lots.
    gifts_in_kind_cents, time_given_cents : int
        Given, at stated value; never in cash figures. [cents]
    unpaid_cents : int
        Sold and not yet paid for; never in cash figures. [cents]

    Raises
    ------
    SpecError
        If an amount or a count is not whole, 0 or more; one sentence each.

    Examples
    --------
    >>> spring = EventTotals(name="spring", on=date(2026, 4, 18), raised_cents=500000,
    ...                      cost_cents=125000, lots_sold=11, lots_passed=1)
    >>> spring.net_cents, spring.cost_to_raise_a_dollar, spring.return_per_dollar
    (375000, 0.25, 4.0)
    """

    name: str
    on: date
    raised_cents: int
    cost_cents: int
    lots_sold: int
    lots_passed: int
    lots_withdrawn: int = 0
    lots_void: int = 0
    gifts_in_kind_cents: int = 0
    time_given_cents: int = 0
    unpaid_cents: int = 0

    def __post_init__(self) -> None:
        faults: list[str] = []
        if not isinstance(self.on, date):
            faults.append(f"{self.name}: on is {self.on!r}; it must be a date.")
        for key in _AMOUNTS:
            faults += whole_fault(f"{self.name}: {key}", getattr(self, key))
        raise_all(SpecError, faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Year(_Sums):
    """Events of a year and their totals, each the sum of its column.

    Parameters
    ----------
    events : tuple of EventTotals
        The events, earliest first.
    raised_cents, cost_cents, gifts_in_kind_cents, time_given_cents, unpaid_cents : int
        As in `EventTotals`, added up. [cents]
    lots_sold, lots_passed, lots_withdrawn, lots_void : int
        Lots, added up.
    """

    events: tuple[EventTotals, ...]
    raised_cents: int
    cost_cents: int
    lots_sold: int
    lots_passed: int
    lots_withdrawn: int
    lots_void: int
    gifts_in_kind_cents: int
    time_given_cents: int
    unpaid_cents: int


def roll_up(events: Iterable[EventTotals]) -> Year:
    """Add up the events of a year.

    Parameters
    ----------
    events : iterable of EventTotals
        The events, in any order, all within twelve months.

    Returns
    -------
    Year
        The events by date, and the totals.

    Raises
    ------
    SpecError
        If there are none, one is given twice, or they span more than a year.

    Notes
    -----
    Cost to raise a dollar is cash spent over cash raised, both printed: rates of
    different events are never averaged. The year may be a calendar or a fiscal one.

    Examples
    --------
    >>> spring = EventTotals(name="spring", on=date(2026, 4, 18), raised_cents=500000,
    ...                      cost_cents=125000, lots_sold=11, lots_passed=1)
    >>> autumn = EventTotals(name="autumn", on=date(2026, 10, 3), raised_cents=300000,
    ...                      cost_cents=35000, lots_sold=8, lots_passed=0)
    >>> year = roll_up([autumn, spring])
    >>> print(year.sentence)
    It cost 0.2000 to raise 1.00: 1,600.00 cash spent over 8,000.00 cash raised.
    """
    rows = tuple(sorted(events, key=lambda event: (event.on, event.name)))
    if not rows:
        raise SpecError("there are no events to add up; give at least one.")
    times = Counter((event.name, event.on) for event in rows)
    faults = [
        f"{name} of {on} is given {count} times; give each event once."
        for (name, on), count in times.items()
        if count > 1
    ]
    first, last = rows[0], rows[-1]
    if (last.on.year - first.on.year, last.on.month, last.on.day) >= (
        1,
        first.on.month,
        first.on.day,
    ):
        faults.append(
            f"{first.name} of {first.on} and {last.name} of {last.on} lie a year or "
            "more apart; roll up one year at a time."
        )
    raise_all(SpecError, faults)
    sums = {key: sum(getattr(event, key) for event in rows) for key in _AMOUNTS}
    return Year(events=rows, **sums)
