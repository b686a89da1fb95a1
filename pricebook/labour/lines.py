"""The steps of a job with their minutes and money, and totals that foot."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pricebook.errors import SpecError, nearest

PAYS = ("paid", "given", "none")
"""Cash to a worker, time given (never deductible), or not counted in money."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourLine:
    """One step at the bench, as the cost sheet prints it.

    Parameters
    ----------
    operation, name : str
        Key of the row of minutes, and what the cost sheet calls it.
    quantity, unit : float, str
        How much of it.
    setup_min, rate_min : float
        Set-up, and time for each unit, of one person. [min]
    people : int
        How many work on it at once. [-]
    person_min : float
        Minutes of everybody together, rework included. [min]
    drying_min : float
        Waiting time before the next step. [min]
    pay : str
        "paid", "given" or "none".
    amount_cents : int
        The minutes at the rate of that pay. [cents]
    how : str
        The working, in words a person can follow.
    source : str
        Where the minutes are from.
    """

    operation: str
    name: str
    quantity: float
    unit: str
    setup_min: float
    rate_min: float
    people: int
    person_min: float
    drying_min: float
    pay: str
    amount_cents: int
    how: str
    source: str

    @property
    def elapsed_min(self) -> float:
        """Minutes on the clock, drying left out [min]."""
        return self.person_min / self.people


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourPlan:
    """Every step in bench order, with totals that add up as printed.

    Parameters
    ----------
    lines : tuple of LabourLine
        The steps.
    """

    lines: tuple[LabourLine, ...]

    @property
    def person_min(self) -> float:
        """Minutes of everybody together [min]."""
        return math.fsum(line.person_min for line in self.lines)

    @property
    def elapsed_min(self) -> float:
        """Minutes on the clock, drying left out [min]."""
        return math.fsum(line.elapsed_min for line in self.lines)

    @property
    def hours(self) -> float:
        """Hours of everybody together [h]."""
        return self.person_min / 60

    def minutes_of(self, pay: str) -> float:
        """Return the minutes of everybody together under one kind of pay [min]."""
        return math.fsum(line.person_min for line in self._under(pay))

    def cents_of(self, pay: str) -> int:
        """Return the money under one kind of pay [cents]."""
        return sum(line.amount_cents for line in self._under(pay))

    def _under(self, pay: str) -> list[LabourLine]:
        if pay not in PAYS:
            raise SpecError(f'"{pay}" is no kind of pay; {nearest(str(pay), PAYS)}')
        return [line for line in self.lines if line.pay == pay]
