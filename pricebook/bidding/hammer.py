"""The hammer price of one lot: chance of a sale, average, quantiles."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from statistics import NormalDist

from pricebook.bidding.arguments import number_faults
from pricebook.bidding.crowd import Crowd
from pricebook.bidding.normal import bisect
from pricebook.bidding.values import Values
from pricebook.errors import SpecError, raise_all

_NORMAL = NormalDist()
_LOWEST_SCORE = -9.0
_HIGHEST_SCORE = 37.0
_NODES = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Hammer:
    """The hammer price when a crowd bids from an opening price, without rungs.

    Parameters
    ----------
    values : Values
        What one bidder may think the piece is worth.
    crowd : Crowd
        How many bid.
    opening : float
        Opening bid, or a reserve that is made public, 0 or more. [money]

    Raises
    ------
    SpecError
        If the opening bid is below 0 or no number.

    Notes
    -----
    Bidders' values are independent; the piece goes to the highest at the second
    highest value, and not below the opening bid. With q(p) the chance that one
    value lies above p and T(q) the chance that two or more do,

        E = r P(sale) + integral from r of T(q(p)) dp,

    an unsold piece counting as 0 (Riley & Samuelson 1981; Myerson 1981). Bidder
    numbers are held fixed, whatever the opening bid: theory is thin there.

    Examples
    --------
    >>> from pricebook.bidding.crowd import FixedCrowd
    >>> from pricebook.bidding.values import Uniform
    >>> lot = Hammer(values=Uniform(0, 1), crowd=FixedCrowd(2), opening=0.5)
    >>> round(lot.mean, 9), lot.chance_of_sale
    (0.416666667, 0.75)
    """

    values: Values
    crowd: Crowd
    opening: float

    def __post_init__(self) -> None:
        raise_all(SpecError, number_faults("opening", self.opening, least=0))

    @property
    def chance_of_sale(self) -> float:
        """The chance that somebody bids the opening price [-]."""
        chance = self.values.above(float(self.opening))
        # A(0) - A(q) rather than 1 - A(q): a small chance keeps its digits
        return chance * self.crowd.slope(0.0, chance)

    @property
    def mean(self) -> float:
        """The average hammer price, an unsold piece counting as 0 [money]."""
        opening = float(self.opening)
        total = 0.0
        for low, high in self._panels(opening):
            part = sum(w * self.chance_above(p) for p, w in _gauss(low, high))
            total += part
            if part <= 1e-17 * total and self.values.above(high) < 0.5:
                break
        return opening * self.chance_of_sale + total

    def chance_above(self, price: float) -> float:
        """Return the chance that the hammer falls above a price [-].

        Notes
        -----
        Below the opening bid this is the chance of a sale.
        """
        if price < self.opening:
            return self.chance_of_sale
        return self.crowd.two_above(self.values.above(price))

    def quantile(self, share: float) -> float:
        """Return the price that this share of hammers stays at or below.

        Parameters
        ----------
        share : float
            Between 0 and 1, an unsold piece counting as 0. [-]

        Returns
        -------
        float
            The price; 0 when so large a share is unsold, the opening bid when
            so large a share sells there at most. [money]

        Raises
        ------
        SpecError
            If the share is not between 0 and 1.

        Examples
        --------
        >>> from pricebook.bidding.crowd import FixedCrowd
        >>> from pricebook.bidding.values import LogNormal
        >>> values = LogNormal.of_median(1, 0.5)
        >>> lot = Hammer(values=values, crowd=FixedCrowd(2), opening=0)
        >>> round(lot.quantile(0.25), 8)
        0.57470475
        """
        raise_all(SpecError, number_faults("share", share, above=0, below=1))
        share = float(share)
        if share <= 1 - self.chance_of_sale:
            return 0.0
        top = self.values.above(float(self.opening))
        if share <= 1 - self.crowd.two_above(top):
            return float(self.opening)

        def shortfall(log_chance: float) -> float:
            return self.crowd.two_above(math.exp(log_chance)) - (1 - share)

        return self.values.at_above(math.exp(bisect(shortfall, -745.0, math.log(top))))

    def _panels(self, opening: float) -> Iterator[tuple[float, float]]:
        """Cut the prices above the opening bid at steps of a quarter spread."""
        chance = self.values.above(opening)
        if chance <= 0:
            return
        score = -_NORMAL.inv_cdf(chance) if chance < 1 else _LOWEST_SCORE
        score, low = max(score, _LOWEST_SCORE), opening
        while score < _HIGHEST_SCORE:
            high = self.values.at_above(0.5 * math.erfc(score / math.sqrt(2)))
            if high > low:
                yield low, high
                low = high
            score += min(0.25, 2 / max(score, 1.0))


@cache
def _rule() -> tuple[tuple[float, float], ...]:
    """Return nodes and weights of Gauss and Legendre on -1 to 1."""
    rows = []
    for i in range(_NODES):
        x = math.cos(math.pi * (i + 0.75) / (_NODES + 0.5))
        slope = 1.0
        for _ in range(50):
            before, now = 1.0, x
            for k in range(2, _NODES + 1):
                before, now = now, ((2 * k - 1) * x * now - (k - 1) * before) / k
            slope = _NODES * (x * now - before) / (x * x - 1)
            x -= now / slope
        rows.append((x, 2 / ((1 - x * x) * slope * slope)))
    return tuple(rows)


def _gauss(low: float, high: float) -> Iterator[tuple[float, float]]:
    """Yield the prices and weights that integrate between two prices."""
    middle, half = (low + high) / 2, (high - low) / 2
    for x, weight in _rule():
        yield middle + half * x, half * weight
