"""Few sales drawn to a prior when the spread of prices is not known either."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from pricebook.bidding.arguments import amounts, number_faults
from pricebook.errors import SpecError, raise_all


@dataclass(frozen=True, slots=True, kw_only=True)
class StudentBelief:
    """What is believed of the next price when its spread is unknown too.

    Parameters
    ----------
    mu : float
        Middle of the logarithm. [ln money]
    scale : float
        Scale of the logarithm. [-]
    degrees : float
        Degrees of freedom. [-]
    """

    mu: float
    scale: float
    degrees: float

    @property
    def median(self) -> float:
        """The middle price [money]."""
        return math.exp(self.mu)

    def quantile(self, share: float) -> float:
        """Return the price that this share of outcomes lies below [money]."""
        from scipy.special import stdtrit

        raise_all(SpecError, number_faults("share", share, above=0, below=1))
        return math.exp(self.mu + self.scale * float(stdtrit(self.degrees, share)))


def shrink_with_unknown_spread(
    prices: Iterable[float],
    prior_median: float,
    prior_weight: float,
    spread_shape: float,
    spread_rate: float,
) -> StudentBelief:
    """Draw a few comparable prices to a prior when their spread is unknown too.

    Parameters
    ----------
    prices : iterable of float
        Prices at which comparable pieces sold. [money]
    prior_median : float
        The price believed before, above 0. [money]
    prior_weight : float
        How many sales that belief is worth, above 0. [-]
    spread_shape, spread_rate : float
        Shape a and rate b of the belief about 1/s^2, above 0; b/a is about s^2.
        [-]

    Returns
    -------
    StudentBelief
        The next price: Student's t on the log scale.

    Raises
    ------
    SpecError
        If a number cannot be; one sentence each.

    Notes
    -----
    Normal-inverse-gamma: k = k0 + n, m = (k0 m0 + n ybar)/k, a = a0 + n/2,
    b = b0 + SS/2 + k0 n (ybar - m0)^2/(2 k); 2a degrees of freedom, scale
    sqrt(b (k + 1)/(a k)).

    Examples
    --------
    >>> sales = [180, 220, 260, 310, 150]
    >>> belief = shrink_with_unknown_spread(sales, 200, 2, 3, 0.48)
    >>> round(belief.median, 4), round(belief.scale, 6), belief.degrees
    (211.8488, 0.367605, 11.0)
    """
    logs = [math.log(price) for price in amounts("prices", prices)]
    faults = [
        *number_faults("prior_median", prior_median, above=0),
        *number_faults("prior_weight", prior_weight, above=0),
        *number_faults("spread_shape", spread_shape, above=0),
        *number_faults("spread_rate", spread_rate, above=0),
    ]
    raise_all(SpecError, faults)
    n, m0 = len(logs), math.log(prior_median)
    mean = math.fsum(logs) / n if n else m0
    squares = math.fsum((y - mean) ** 2 for y in logs)
    weight = float(prior_weight)
    k, a = weight + n, float(spread_shape) + n / 2
    gap = weight * n * (mean - m0) ** 2 / k
    b = float(spread_rate) + (squares + gap) / 2
    return StudentBelief(
        mu=(weight * m0 + n * mean) / k,
        scale=math.sqrt(b * (k + 1) / (a * k)),
        degrees=2 * a,
    )
