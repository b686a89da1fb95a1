"""How many bid: a number known beforehand, or one that chance decides."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

from pricebook.bidding.arguments import crowd_faults
from pricebook.errors import SpecError, raise_all


class Crowd(Protocol):
    """A number of bidders, asked by the chance q that one of them goes so high."""

    @property
    def bidders(self) -> float:
        """How many bid, on average [-]."""

    def none_above(self, chance: float) -> float:
        """Return the chance that nobody goes so high [-]."""

    def two_above(self, chance: float) -> float:
        """Return the chance that two or more go so high [-]."""

    def slope(self, chance: float, step: float) -> float:
        """Return (A(q) - A(q + step)) / step, A being `none_above` [-]."""


@dataclass(frozen=True, slots=True)
class FixedCrowd:
    """Exactly so many bidders.

    Parameters
    ----------
    bidders : int
        How many, 1 or more. [-]

    Raises
    ------
    SpecError
        If it is not a whole number, 1 or more.

    Examples
    --------
    >>> FixedCrowd(3).none_above(0.5), round(FixedCrowd(3).two_above(0.5), 12)
    (0.125, 0.5)
    """

    bidders: float

    def __post_init__(self) -> None:
        raise_all(SpecError, crowd_faults(self.bidders, "fixed"))

    def none_above(self, chance: float) -> float:
        """Return (1 - q)^n [-]."""
        return _power(1 - chance, self.bidders, chance)

    def two_above(self, chance: float) -> float:
        """Return 1 - n F^(n-1) + (n-1) F^n with F = 1 - q [-]."""
        n = float(self.bidders)
        if n == 1:
            return 0.0
        if n * chance >= 0.5:
            below = _power(1 - chance, n - 1, chance)
            return 1 - below * (1 + (n - 1) * chance)
        # the sum of positive terms keeps its digits where the difference loses them
        term = n * (n - 1) / 2 * chance**2 * _power(1 - chance, n - 2, chance)
        total, k = 0.0, 2
        while term > 1e-17 * total:
            total += term
            term *= (n - k) / (k + 1) * chance / (1 - chance)
            k += 1
        return total

    def slope(self, chance: float, step: float) -> float:
        """Return the mean slope of F^n between two prices [-]."""
        n = float(self.bidders)
        lower, higher = 1 - chance - step, 1 - chance
        if step <= 0:
            return n * _power(higher, n - 1, chance)
        if lower <= 0:
            return _power(higher, n, chance) / step
        fall = -math.expm1(-n * math.log1p(step / lower))
        return _power(higher, n, chance) * fall / step


@dataclass(frozen=True, slots=True)
class PoissonCrowd:
    """So many bidders on average, each coming or not for reasons of their own.

    Parameters
    ----------
    bidders : float
        How many on average, above 0. [-]

    Raises
    ------
    SpecError
        If it is not a number above 0.

    Examples
    --------
    >>> round(PoissonCrowd(3).none_above(1), 6), round(PoissonCrowd(3).two_above(1), 6)
    (0.049787, 0.800852)
    """

    bidders: float

    def __post_init__(self) -> None:
        raise_all(SpecError, crowd_faults(self.bidders, "poisson"))

    def none_above(self, chance: float) -> float:
        """Return e^(-m) with m = lambda q [-]."""
        return math.exp(-self.bidders * chance)

    def two_above(self, chance: float) -> float:
        """Return 1 - (1 + m) e^(-m) [-]."""
        m = self.bidders * chance
        if m >= 0.5:
            return 1 - (1 + m) * math.exp(-m)
        term = m * m / 2 * math.exp(-m)
        total, k = 0.0, 2
        while term > 1e-17 * total:
            total += term
            k += 1
            term *= m / k
        return total

    def slope(self, chance: float, step: float) -> float:
        """Return the mean slope of e^(-lambda q) between two prices [-]."""
        mean = self.bidders
        if step <= 0:
            return mean * math.exp(-mean * chance)
        return math.exp(-mean * chance) * -math.expm1(-mean * step) / step


def crowd_of(bidders: float, crowd: str) -> Crowd:
    """Return the crowd of so many bidders.

    Parameters
    ----------
    bidders : float
        How many bid; a whole number when fixed. [-]
    crowd : str
        "fixed": exactly so many. "poisson": so many on average.

    Returns
    -------
    Crowd
        The crowd.

    Raises
    ------
    SpecError
        If the number or the word cannot be.

    Examples
    --------
    >>> crowd_of(3, "poisson")
    PoissonCrowd(bidders=3.0)
    """
    raise_all(SpecError, crowd_faults(bidders, crowd))
    return (
        FixedCrowd(float(bidders)) if crowd == "fixed" else PoissonCrowd(float(bidders))
    )


def _power(below: float, exponent: float, chance: float) -> float:
    """Return (1 - q)^n, from q itself where 1 - q has lost its digits."""
    if exponent == 0:
        return 1.0
    if below <= 0:
        return 0.0
    return math.exp(exponent * math.log1p(-chance)) if chance < 0.5 else below**exponent
