"""How much faster the next like piece goes: the learning curve, both conventions."""

from __future__ import annotations

import math
from dataclasses import dataclass
from numbers import Integral

from pricebook.errors import SpecError, finite, nearest, shown

CONVENTIONS = ("unit", "cumulative average")
"""The two readings of one learning rate that textbooks teach."""

_MOST_UNITS = 1_000_000


def unit_factor(n: int, rate: float, convention: str = "unit") -> float:
    """Return the time of the nth like piece as a share of the first one's.

    Parameters
    ----------
    n : int
        Which piece, 1 for the first. [-]
    rate : float
        Learning rate: what is left of the time at each doubling, 0.5 to 1. [-]
    convention : str
        "unit": the time of piece n follows the curve; "cumulative average": the
        mean of the first n does, and piece n is what the nth adds to the total.

    Returns
    -------
    float
        Time of piece n over the time of piece 1. [-]

    Raises
    ------
    SpecError
        If `n` is no whole number from 1 to 1,000,000, the rate is outside 0.5 to
        1, or the convention is another one.

    Notes
    -----
    Unit: n^b with b = ln(rate) / ln(2). Cumulative average: n^(b+1) - (n-1)^(b+1).
    Below a rate of 0.5 the cumulative average makes two pieces quicker than one,
    so both conventions refuse it. Source: rand_rm_6191_1970.

    Examples
    --------
    >>> unit_factor(2, 0.8)
    0.8
    >>> round(unit_factor(10, 0.8), 3)
    0.477
    >>> round(unit_factor(2, 0.8, "cumulative average"), 3)
    0.6
    """
    _refuse_unknown(convention)
    n, b = _exponent(n, rate)
    if convention == "unit" or n == 1:
        return float(n**b)
    return float(n ** (b + 1) - (n - 1) ** (b + 1))


def total_factor(n: int, rate: float, convention: str) -> float:
    """Return the time of n like pieces together, in times of the first one.

    Parameters
    ----------
    n : int
        How many like pieces. [-]
    rate : float
        Learning rate: what is left of the time at each doubling, 0.5 to 1. [-]
    convention : str
        "unit" or "cumulative average"; a published rate belongs to one of them.

    Returns
    -------
    float
        Time of all n over the time of piece 1, from 1 to n. [-]

    Raises
    ------
    SpecError
        If `n` is no whole number from 1 to 1,000,000, the rate is outside 0.5 to
        1, or the convention is another one.

    Notes
    -----
    Unit: the sum of k^b for k from 1 to n. Cumulative average: n^(b+1). With
    b = ln(rate) / ln(2). The two differ: 10 pieces at 0.8 take 6.315 or 4.765
    times the first. Source: rand_rm_6191_1970.

    Examples
    --------
    >>> round(total_factor(10, 0.8, "unit"), 3)
    6.315
    >>> round(total_factor(10, 0.8, "cumulative average"), 3)
    4.765
    """
    _refuse_unknown(convention)
    n, b = _exponent(n, rate)
    if convention == "unit":
        return math.fsum(k**b for k in range(1, n + 1))
    return float(n ** (b + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Learning:
    """How the time falls over like pieces; leave it out to reckon without.

    Parameters
    ----------
    rate : float
        What is left of the time at each doubling, 0.5 to 1. [-]
    convention : str
        "unit" or "cumulative average", as the rate was published.
    pieces : int
        How many like pieces the plan covers. [-]
    made_before : int
        How many like pieces were made before the first of these. [-]
    """

    rate: float
    convention: str
    pieces: int
    made_before: int = 0

    def __post_init__(self) -> None:
        """Refuse learning that no curve can follow."""
        for name in ("pieces", "made_before"):
            count = getattr(self, name)
            if isinstance(count, bool) or not isinstance(count, int) or count < 0:
                raise SpecError(
                    f"learning: {name} is {count!r}; it must be a whole number."
                )
        total_factor(self.pieces, self.rate, self.convention)

    @property
    def mean_factor(self) -> float:
        """Mean time of these pieces over the time of the very first one [-]."""
        last = self.made_before + self.pieces
        total = total_factor(last, self.rate, self.convention)
        if self.made_before:
            total -= total_factor(self.made_before, self.rate, self.convention)
        return total / self.pieces

    @property
    def words(self) -> str:
        """Which pieces at which rate, such as "80 %, unit, piece 4"."""
        first, last = self.made_before + 1, self.made_before + self.pieces
        which = f"pieces {first} to {last}" if self.made_before else f"{last} pieces"
        if first == last:
            which = f"piece {first}"
        return f"{100 * self.rate:g} %, {self.convention}, {which}"


def _exponent(n: int, rate: float) -> tuple[int, float]:
    whole = isinstance(n, Integral) and not isinstance(n, bool)
    if not whole or not 1 <= n <= _MOST_UNITS:
        raise SpecError(
            f"the number of like pieces is {shown(n)}; it must be a whole number "
            f"from 1 to {_MOST_UNITS:,}."
        )
    share = finite(rate)
    if share is None or not 0.5 <= share <= 1:
        raise SpecError(
            f"the learning rate is {shown(rate)}; it is what is left of the time at "
            "each doubling, from 0.5 to 1: write 80 % as 0.8."
        )
    return int(n), math.log2(share)


def _refuse_unknown(convention: str) -> None:
    if not isinstance(convention, str) or convention not in CONVENTIONS:
        raise SpecError(
            f"{shown(convention)} is no convention for learning; "
            f"{nearest(shown(convention), CONVENTIONS)}"
        )
