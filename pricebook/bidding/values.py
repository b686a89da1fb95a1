"""What one bidder may think a piece is worth, as a distribution."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import NamedTuple, Protocol

from pricebook.bidding.arguments import number_faults, room_faults
from pricebook.bidding.normal import bisect, mills_ratio
from pricebook.errors import SpecError, raise_all

_NORMAL = NormalDist()
_ROOT_2 = math.sqrt(2)


class Values(Protocol):
    """A distribution of bidders' values, seen from above."""

    def above(self, price: float) -> float:
        """Return the chance that a bidder's value lies above a price [-]."""

    def at_above(self, chance: float) -> float:
        """Return the price that a value exceeds with this chance [money]."""

    def best_reserve(self, unsold_value: float) -> float:
        """Return the reserve that theory calls best [money]."""


class _Pair(NamedTuple):
    mu: float
    sigma: float


class LogNormal(_Pair):
    """Values, or an opinion of a price, whose logarithm is normal.

    Parameters
    ----------
    mu : float
        Mean of the logarithm. [ln money]
    sigma : float
        Standard deviation of the logarithm, above 0. [-]

    Raises
    ------
    SpecError
        If either is not a number, the spread is 0 or less, or one is so large that
        no float could hold the mean: mu beyond 250, sigma above 30.

    Notes
    -----
    A value unpacks as the pair `mu, sigma`. The median is e^mu, the mean
    e^(mu + sigma^2/2). That values are log-normal is a modelling assumption,
    no source.

    Examples
    --------
    >>> belief = LogNormal.of_median(300, 0.5)
    >>> round(belief.median, 2), round(belief.mean, 2), belief.above(300)
    (300.0, 339.94, 0.5)
    >>> mu, sigma = belief
    """

    __slots__ = ()

    def __new__(cls, mu: float, sigma: float) -> LogNormal:
        """Build a valid pair, or refuse."""
        faults = number_faults("mu", mu, least=-250, most=250)
        faults += number_faults("sigma", sigma, above=0, most=30)
        raise_all(SpecError, faults)
        return super().__new__(cls, float(mu), float(sigma))

    @classmethod
    def of_median(cls, median: float, sigma: float) -> LogNormal:
        """Build from a median and a spread.

        Parameters
        ----------
        median : float
            The median, above 0. [money]
        sigma : float
            Spread of the logarithm, above 0. [-]

        Returns
        -------
        LogNormal
            The distribution.

        Raises
        ------
        SpecError
            If a number cannot be.

        Examples
        --------
        >>> LogNormal.of_median(1, 0.5)
        LogNormal(mu=0.0, sigma=0.5)
        """
        raise_all(SpecError, room_faults(median, sigma))
        return cls(math.log(median), sigma)

    @property
    def median(self) -> float:
        """The price that half of the values exceed [money]."""
        return math.exp(self.mu)

    @property
    def mean(self) -> float:
        """The average value, above the median [money]."""
        return math.exp(self.mu + self.sigma**2 / 2)

    def score(self, price: float) -> float:
        """Return how many spreads a price lies above the median [-]."""
        return (math.log(price) - self.mu) / self.sigma

    def above(self, price: float) -> float:
        """Return the chance that a value lies above a price [-]."""
        if price <= 0:
            return 1.0
        return 0.5 * math.erfc(self.score(price) / _ROOT_2)

    def at_above(self, chance: float) -> float:
        """Return the price that a value exceeds with this chance [money]."""
        if chance >= 1:
            return 0.0
        return math.exp(self.mu - self.sigma * _NORMAL.inv_cdf(chance))

    def quantile(self, share: float) -> float:
        """Return the price that this share of the values lies below [money].

        Examples
        --------
        >>> round(LogNormal.of_median(1, 0.5).quantile(0.25), 8)
        0.71373404
        """
        raise_all(SpecError, number_faults("share", share, above=0, below=1))
        return math.exp(self.mu + self.sigma * _NORMAL.inv_cdf(float(share)))

    def best_reserve(self, unsold_value: float) -> float:
        """Return the reserve r with r - (1 - F(r))/f(r) = unsold value [money]."""

        # with z = (ln r - mu)/sigma this reads r (1 - sigma (1 - Phi(z))/phi(z))
        def worth(z: float) -> float:
            return 1 - self.sigma * mills_ratio(z)

        start = bisect(worth, -37.0, 2 * self.sigma)
        if unsold_value == 0:
            return math.exp(self.mu + self.sigma * start)
        target = math.log(unsold_value) - self.mu
        stop = max(2 * self.sigma, (target + math.log(2)) / self.sigma)

        def excess(z: float) -> float:
            share = worth(z)
            return self.sigma * z + math.log(share) - target if share > 0 else -math.inf

        return math.exp(self.mu + self.sigma * bisect(excess, start, stop))


@dataclass(frozen=True, slots=True)
class Uniform:
    """Values spread evenly between two prices: for checks in closed form.

    Parameters
    ----------
    low, high : float
        Least and greatest value. [money]

    Raises
    ------
    SpecError
        If the low value is below 0, or not below the high one.

    Examples
    --------
    >>> Uniform(0, 1).above(0.25), Uniform(0, 1).best_reserve(0)
    (0.75, 0.5)
    """

    low: float
    high: float

    def __post_init__(self) -> None:
        raise_all(SpecError, number_faults("low", self.low, least=0))
        raise_all(SpecError, number_faults("high", self.high, above=self.low))

    def above(self, price: float) -> float:
        """Return the chance that a value lies above a price [-]."""
        return min(1.0, max(0.0, (self.high - price) / (self.high - self.low)))

    def at_above(self, chance: float) -> float:
        """Return the price that a value exceeds with this chance [money]."""
        return self.high - chance * (self.high - self.low)

    def best_reserve(self, unsold_value: float) -> float:
        """Return the best reserve, halfway from the unsold value to the top [money]."""
        return max(self.low, (self.high + unsold_value) / 2)


@dataclass(frozen=True, slots=True)
class Exponential:
    """Values that thin out evenly, for checks in closed form.

    Parameters
    ----------
    mean : float
        The average value. [money]

    Raises
    ------
    SpecError
        If the mean is 0 or less.

    Examples
    --------
    >>> round(Exponential(1).above(1), 6), Exponential(1).best_reserve(0.5)
    (0.367879, 1.5)
    """

    mean: float

    def __post_init__(self) -> None:
        raise_all(SpecError, number_faults("mean", self.mean, above=0))

    def above(self, price: float) -> float:
        """Return the chance that a value lies above a price [-]."""
        return math.exp(-max(0.0, price) / self.mean)

    def at_above(self, chance: float) -> float:
        """Return the price that a value exceeds with this chance [money]."""
        return -self.mean * math.log(chance)

    def best_reserve(self, unsold_value: float) -> float:
        """Return the best reserve: the mean above the unsold value [money]."""
        return self.mean + unsold_value
