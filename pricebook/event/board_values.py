"""The rows that the board's report is made of."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from pricebook.money import half_up, show


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """An amount of money with how it was found.

    Parameters
    ----------
    label : str
        What it is.
    cents : int
        The amount. [cents]
    how : str
        What it is made of.

    Examples
    --------
    >>> Amount(label="Net", cents=12950).whole
    130
    """

    label: str
    cents: int
    how: str = ""

    @property
    def whole(self) -> int:
        """In whole units, rounded once, half up; totals are rounded, never summed."""
        return half_up(Fraction(self.cents, 100))


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A figure as text, with what it stands on.

    Parameters
    ----------
    label, figure : str
        What it is, and the figure; empty where there is none.
    how : str
        Its numerator and denominator, or what it is compared with.
    """

    label: str
    figure: str
    how: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """One piece against its cost and its estimate.

    Parameters
    ----------
    lot, title, state : str
        Which, and what became of it.
    hammer_cents : int or None
        Hammer price if sold. [cents]
    is_paid : bool
        Whether it is paid.
    charity_cents : int
        What the charity has of it. [cents]
    fair_market_value_cents, estimate_low_cents, estimate_high_cents : int or None
        As the catalogue gave them. [cents]
    against_estimate : str
        Below, within or above.
    cash_spent_cents, used_up_cents, gifts_cents, time_cents, full_cents : int or None
        Cost by its bases; None if it was not reckoned. [cents]
    hours : float or None
        Hours. [h]
    """

    lot: str
    title: str
    state: str
    hammer_cents: int | None
    is_paid: bool
    charity_cents: int
    fair_market_value_cents: int | None
    estimate_low_cents: int | None
    estimate_high_cents: int | None
    against_estimate: str
    cash_spent_cents: int | None
    used_up_cents: int | None
    gifts_cents: int | None
    time_cents: int | None
    full_cents: int | None
    hours: float | None

    @property
    def over_used_up_cents(self) -> int | None:
        """Hammer price less what was used up; None while one is missing [cents]."""
        if self.hammer_cents is None or self.used_up_cents is None:
            return None
        return self.hammer_cents - self.used_up_cents

    @property
    def over_full_cents(self) -> int | None:
        """Hammer price less full cost; None while one is missing [cents]."""
        if self.hammer_cents is None or self.full_cents is None:
            return None
        return self.hammer_cents - self.full_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnRow:
    """One line of the public return's event lines, or a line that must equal it.

    Parameters
    ----------
    line, label : str
        Which line, and what it holds.
    cents : int
        The amount. [cents]
    """

    line: str
    label: str
    cents: int

    @property
    def whole(self) -> int:
        """In whole units, rounded once, half up."""
        return half_up(Fraction(self.cents, 100))


@dataclass(frozen=True, slots=True, kw_only=True)
class PaysFor:
    """How many of a unit the net pays for, whole ones only.

    Parameters
    ----------
    unit : str
        What is counted.
    count : int
        How many. [-]
    left_cents, net_cents, cost_cents : int
        What is left over, of which net, at which cost each. [cents]
    stated_by : str
        Who stated the cost.
    stated_on : date
        When.
    """

    unit: str
    count: int
    left_cents: int
    net_cents: int
    cost_cents: int
    stated_by: str
    stated_on: date

    @property
    def words(self) -> str:
        """The row in a sentence."""
        return (
            f"{self.unit}: the net of {show(self.net_cents)} pays for {self.count}, "
            f"{show(self.left_cents)} left over, at {show(self.cost_cents)} each as "
            f"stated by {self.stated_by} on {self.stated_on}."
        )
