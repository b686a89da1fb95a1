"""Comparable sales, brought to this piece's condition, and the value they show."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from pricebook.bidding.arguments import number_faults
from pricebook.errors import SpecError, nearest, raise_all
from pricebook.money import Number, exact, half_up

SOLD = "sold"
UNSOLD = "unsold"
KINDS = (SOLD, UNSOLD)
"""Whether the price is a hammer price, or the reserve at which nobody bought."""


@dataclass(frozen=True, slots=True)
class Comparable:
    """A like piece that was offered for sale.

    Parameters
    ----------
    price_cents : int
        The price paid, or the reserve at which it stayed unsold, above 0. [cents]
    date : datetime.date
        The day of the sale.
    condition_factor : number
        What this piece would bring in place of that one, in its condition, above
        0: 1 alike, 1.2 a fifth better, 0.8 a fifth worse. [-]
    kind : str
        "sold" or "unsold".
    note : str
        What it was and where the price is from.
    features : tuple of (str, float)
        What was noted of the piece: name and number of each. [any unit]

    Raises
    ------
    SpecError
        If there is no price or no date, or a word is not known; one sentence each.

    Examples
    --------
    >>> Comparable(18_000, datetime.date(2026, 3, 14), 1.1).adjusted_cents
    19800
    >>> Comparable(18_000, None)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: a comparable at 18000 cents has no date; give ...
    """

    price_cents: int
    date: datetime.date
    condition_factor: Number = 1
    kind: str = SOLD
    note: str = ""
    features: tuple[tuple[str, float], ...] = ()

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults())

    def _faults(self) -> list[str]:
        """Say what is missing or cannot be."""
        where = f"a comparable of {self.date}"
        faults = [f"{where} has no price; give the price paid, or the reserve."]
        if self.price_cents is not None:
            name = f"{where}: price_cents"
            faults = number_faults(name, self.price_cents, above=0, whole=True)
        if not is_day(self.date):
            faults.append(
                f"a comparable at {self.price_cents} cents has no date; give the day "
                "of its sale."
            )
        name = f"{where}: condition_factor"
        faults += number_faults(name, self.condition_factor, above=0)
        if not isinstance(self.note, str):
            faults.append(f"{where}: note is {self.note!r:.40}; write text.")
        if not isinstance(self.kind, str) or self.kind not in KINDS:
            hint = nearest(str(self.kind), KINDS)
            faults.append(f"{where}: kind is {self.kind!r}; {hint}")
        return faults + feature_faults(where, self.features)

    @property
    def noted(self) -> dict[str, float]:
        """The features by name [any unit]."""
        return dict(self.features)

    @property
    def is_sold(self) -> bool:
        """Whether the piece found a buyer."""
        return self.kind == SOLD

    @property
    def adjusted_cents(self) -> int:
        """The price brought to this piece's condition, half up [cents]."""
        return half_up(self.price_cents * exact(self.condition_factor))

    def aged_cents(self, on: datetime.date, yearly_change: Number = 0) -> int:
        """Return the price brought to this piece's condition, and to a day.

        Parameters
        ----------
        on : datetime.date
            The day to bring it to.
        yearly_change : number
            By what share such prices rise in a year of 365.25 days; 0 for not at
            all. [-]

        Returns
        -------
        int
            The price, half up. [cents]

        Examples
        --------
        >>> Comparable(10_000, datetime.date(2024, 1, 1)).aged_cents(
        ...     datetime.date(2026, 1, 1), 0.05)
        11026
        """
        if not yearly_change:
            return self.adjusted_cents
        years = (on - self.date).days / 365.25
        return half_up(self.adjusted_cents * (1 + float(yearly_change)) ** years)


def feature_faults(where: str, features: object) -> list[str]:
    """Say what is wrong with the features of a piece, in a sentence each.

    Examples
    --------
    >>> feature_faults("the piece", (("height", -1.0),))
    ['the piece: height is -1.0; it must be 0 or more.']
    """
    if not isinstance(features, tuple) or not all(
        isinstance(pair, tuple) and len(pair) == 2 and isinstance(pair[0], str)
        for pair in features
    ):
        return [f"{where}: features are {features!r:.40}; give (name, number) pairs."]
    faults = []
    for name, number in features:
        faults += number_faults(f"{where}: {name}", number, least=0)
    if len(dict(features)) < len(features):
        faults.append(f"{where}: a feature is given twice; give each once.")
    return faults


def is_day(day: object) -> bool:
    """Tell whether a value is a day, without a time of day.

    Examples
    --------
    >>> is_day(datetime.date(2026, 3, 14)), is_day(datetime.datetime(2026, 3, 14, 18))
    (True, False)
    """
    return isinstance(day, datetime.date) and not isinstance(day, datetime.datetime)


def middle_cents(prices: Sequence[int]) -> int:
    """Return the middle price; of an even number, the average of the middle two.

    Parameters
    ----------
    prices : sequence of int
        One or more. [cents]

    Returns
    -------
    int
        The median, half up. [cents]

    Examples
    --------
    >>> middle_cents([15_000, 18_000, 22_001, 31_000])
    20001
    """
    return half_up(median([Fraction(price) for price in prices]))
