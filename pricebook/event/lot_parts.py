"""Parts of a lot: its value, what its bidders are like, what it cost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from pricebook.errors import SpecError, raise_all
from pricebook.event.checks import (
    cents_fault,
    day_fault,
    moment_fault,
    number_fault,
    text_fault,
    word_fault,
)

CROWDS = ("poisson", "fixed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A fair market value, as a named person stated it in good faith.

    Parameters
    ----------
    cents : int
        The value, one number, never a range. [cents]
    method : str
        How it was found: comparable sales, a dealer's word ...
    by : str
        Who stated it.
    on : date
        When.
    published : datetime or None
        When the catalogue first gave it; None takes the catalogue's own date.

    Examples
    --------
    >>> Value(cents=40000, method="two sales", by="the committee",
    ...       on=date(2027, 2, 1)).cents
    40000
    """

    cents: int
    method: str
    by: str
    on: date
    published: datetime | None = None

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from cents_fault("fair market value", self.cents)
        yield from text_fault("method of the fair market value", self.method)
        yield from text_fault("who set the fair market value", self.by)
        yield from day_fault("date of the fair market value", self.on)
        yield from moment_fault("published", self.published, optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What is believed of the bidders, for the forecast.

    Parameters
    ----------
    median_cents : int
        Median of what a bidder would pay. [cents]
    sigma : float
        Standard deviation of the logarithm of that value. [-]
    bidders : float
        How many are likely to bid; asked, never inferred. [-]
    crowd : {"poisson", "fixed"}
        Whether that number is a mean or known.

    Examples
    --------
    >>> Demand(median_cents=30000, sigma=0.5, bidders=4).crowd
    'poisson'
    """

    median_cents: int
    sigma: float
    bidders: float
    crowd: str = "poisson"

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from cents_fault("median", self.median_cents, above=0)
        yield from number_fault("sigma", self.sigma, above=True)
        yield from number_fault("bidders", self.bidders, above=True)
        yield from word_fault("crowd", self.crowd, CROWDS)


@dataclass(frozen=True, slots=True, kw_only=True)
class LotCost:
    """What a lot cost, its three bases kept apart.

    Parameters
    ----------
    cash_spent_cents : int
        Cash paid for what was bought, whole packs. [cents]
    used_up_cents : int
        What of it was used up. [cents]
    gifts_cents : int
        Gifts in kind at their stated value: carcase, stock. [cents]
    time_cents : int
        Hours given, at their stated rate; for the story only. [cents]
    hours : float
        Hours of work. [h]

    Notes
    -----
    Full cost = used up + gifts + time. Cash spent is no part of it: what is left
    over is still on the shelf.

    Examples
    --------
    >>> LotCost(cash_spent_cents=9000, used_up_cents=6000, gifts_cents=2500,
    ...         time_cents=22000, hours=10).full_cents
    30500
    """

    cash_spent_cents: int = 0
    used_up_cents: int = 0
    gifts_cents: int = 0
    time_cents: int = 0
    hours: float = 0.0

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from cents_fault("cash spent", self.cash_spent_cents)
        yield from cents_fault("used up", self.used_up_cents)
        yield from cents_fault("gifts", self.gifts_cents)
        yield from cents_fault("time given", self.time_cents)
        yield from number_fault("hours", self.hours)

    @property
    def full_cents(self) -> int:
        """Used up, gifts and time together [cents]."""
        return self.used_up_cents + self.gifts_cents + self.time_cents
