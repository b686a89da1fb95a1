"""Opinions of a price: several made into one, and few sales drawn to a prior."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import NormalDist

from pricebook.bidding.arguments import amounts, number_faults, spread_faults
from pricebook.bidding.normal import bisect, mills_ratio
from pricebook.bidding.values import LogNormal
from pricebook.errors import SpecError, raise_all

Anchors = Iterable[object] | Mapping[str, object]
"""Opinions of a price, in a row or by name."""


def blend(anchors: Anchors) -> LogNormal:
    """Return one opinion of a median price, from several independent ones.

    Parameters
    ----------
    anchors : iterable of (median, spread)
        Each a price and the spread of its logarithm, above 0; a `LogNormal`, or a
        mapping with `median` and `sigma`, will do as well. A mapping of such is
        read as opinions by name. [money, -]

    Returns
    -------
    LogNormal
        The blended opinion: `.median` [money], `.mu`, `.sigma`; it unpacks as
        `mu, sigma`.

    Raises
    ------
    SpecError
        If there is no anchor, or a number cannot be; one sentence each.

    Notes
    -----
    On the log scale, each weighted by 1/spread^2; the spread of the blend is
    1/sqrt(sum of weights). The anchors are taken as independent; two that share
    a source count twice.

    Examples
    --------
    >>> opinion = blend([(180, 0.5), (240, 0.3)])
    >>> round(opinion.median, 6), round(opinion.sigma, 10)
    (222.402274, 0.2572478777)
    """
    opinions = [_opinion(i, anchor) for i, anchor in enumerate(_listed(anchors), 1)]
    raise_all(SpecError, (fault for _, faults in opinions for fault in faults))
    pairs = [pair for pair, _ in opinions]
    weights = [1 / sigma**2 for _, sigma in pairs]
    whole = math.fsum(weights)
    sums = (weight * mu for weight, (mu, _) in zip(weights, pairs, strict=True))
    return LogNormal(math.fsum(sums) / whole, 1 / math.sqrt(whole))


def _listed(anchors: Anchors) -> list[object]:
    if isinstance(anchors, Mapping):  # opinions by name
        anchors = anchors.values()
    if isinstance(anchors, (str, LogNormal)) or not isinstance(anchors, Iterable):
        raise SpecError(f"anchors are {anchors!r}; give (median, spread) pairs.")
    listed = list(anchors)
    if not listed:
        raise SpecError("there is no anchor; give at least one (median, spread).")
    return listed


def _opinion(row: int, anchor: object) -> tuple[tuple[float, float], list[str]]:
    """Return the mean and spread of the logarithm, and what is wrong with them."""
    if isinstance(anchor, LogNormal):
        return anchor, []
    if isinstance(anchor, Mapping):
        pair = [anchor[key] for key in ("median", "sigma") if key in anchor]
    else:
        pair = list(anchor) if isinstance(anchor, Iterable) else []
    if len(pair) != 2 or isinstance(anchor, str):
        return (0, 1), [f"anchor {row} is {anchor!r}; it must be (median, spread)."]
    median, sigma = pair
    faults = [
        *number_faults(f"anchor {row}: the median", median, above=0),
        *spread_faults(f"anchor {row}: the spread", sigma, most=30),
    ]
    return ((0, 1) if faults else (math.log(median), float(sigma))), faults


def from_quantiles(
    low: float, high: float, low_share: float = 0.1, high_share: float = 0.9
) -> LogNormal:
    """Return the log-normal opinion behind two prices that a person names.

    Parameters
    ----------
    low, high : float
        The two prices. [money]
    low_share, high_share : float
        The shares of outcomes said to lie below them. [-]

    Returns
    -------
    LogNormal
        The opinion.

    Raises
    ------
    SpecError
        If a price or share cannot be, or the higher is not above the lower.

    Examples
    --------
    >>> opinion = from_quantiles(150, 300)
    >>> round(opinion.median, 4), round(opinion.sigma, 6)
    (212.132, 0.270433)
    """
    faults = [
        *number_faults("low", low, above=0),
        *number_faults("low_share", low_share, above=0, below=1),
        *number_faults("high_share", high_share, above=0, below=1),
    ]
    raise_all(SpecError, faults)
    raise_all(SpecError, number_faults("high", high, above=low))
    raise_all(SpecError, number_faults("high_share", high_share, above=low_share))
    z_low, z_high = (NormalDist().inv_cdf(float(s)) for s in (low_share, high_share))
    sigma = (math.log(high) - math.log(low)) / (z_high - z_low)
    return LogNormal(math.log(low) - sigma * z_low, sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """What is believed of a price after some sales.

    Parameters
    ----------
    median : LogNormal
        The middle price, and how far it may be off.
    sigma : float
        The spread of single prices round the middle, on the log scale. [-]
    weight_on_data : float
        How much of the middle comes from the sales, the rest from the prior. [-]
    """

    median: LogNormal
    sigma: float
    weight_on_data: float

    @property
    def next_price(self) -> LogNormal:
        """The next single price: both uncertainties together."""
        return LogNormal(self.median.mu, math.hypot(self.median.sigma, self.sigma))


def shrink(
    prices: Iterable[float],
    sigma: float,
    prior: tuple[float, float] | LogNormal | None = None,
    unsold_reserves: Iterable[float] = (),
) -> Belief:
    """Draw a few comparable prices to what was believed before.

    Parameters
    ----------
    prices : iterable of float
        Prices at which comparable pieces sold. [money]
    sigma : float
        Spread of such prices on the log scale, taken as known. [-]
    prior : (median, spread) or LogNormal, optional
        What was believed before; without it the sales stand alone.
    unsold_reserves : iterable of float
        Reserves at which comparable pieces stayed unsold: the price they would
        have made lies below. [money]

    Returns
    -------
    Belief
        The middle price and its spread.

    Raises
    ------
    SpecError
        If there is neither a sale nor a prior, or a number cannot be.

    Notes
    -----
    Without unsold pieces 1/t_n^2 = 1/t_0^2 + n/s^2 and
    m_n = t_n^2 (m_0/t_0^2 + sum of y/s^2). An unsold piece adds ln Phi((c - m)/s)
    to the log-likelihood; the middle is then the most likely one, and its spread
    comes from the curvature there.

    Examples
    --------
    >>> belief = shrink([180, 220, 260, 310, 150], 0.4, (200, 0.35))
    >>> round(belief.median.median, 4), round(belief.weight_on_data, 6)
    (213.1946, 0.79288)
    """
    logs = [math.log(price) for price in amounts("prices", prices)]
    limits = [math.log(r) for r in amounts("unsold_reserves", unsold_reserves)]
    raise_all(SpecError, spread_faults("sigma", sigma))
    if prior is None and not logs:
        raise SpecError(
            "there is neither a sale nor a prior; give a comparable that sold, a "
            "retail price, or what the piece cost."
        )
    before = None if prior is None else blend([prior])
    sigma = float(sigma)
    precision = 0.0 if before is None else 1 / before.sigma**2
    pull = 0.0 if before is None else before.mu * precision
    known = precision + len(logs) / sigma**2
    middle = (pull + math.fsum(logs) / sigma**2) / known

    def slope(m: float) -> float:
        return known * (m - middle) + sum(_pull(m, c, sigma) for c in limits)

    if limits:
        reach = sum(_pull(middle, c, sigma) for c in limits) / known
        best = bisect(slope, middle - reach, middle)
    else:
        best = middle
    bend = known + sum(_bend(best, c, sigma) for c in limits)
    return Belief(
        median=LogNormal(best, 1 / math.sqrt(bend)),
        sigma=sigma,
        weight_on_data=1 - precision / bend,
    )


def _pull(m: float, limit: float, sigma: float) -> float:
    """Return how strongly one unsold piece draws the middle down [1/ln money]."""
    return 1 / mills_ratio((m - limit) / sigma) / sigma


def _bend(m: float, limit: float, sigma: float) -> float:
    """Return what one unsold piece adds to the precision [1/ln money^2]."""
    z = (m - limit) / sigma
    ratio = 1 / mills_ratio(z)
    return ratio * (ratio - z) / sigma**2
