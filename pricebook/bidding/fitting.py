"""A log-normal fitted to what sold, and to the reserves at which pieces did not."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from pricebook.bidding.arguments import amounts, spread_faults
from pricebook.bidding.normal import LOG_ROOT_2PI, log_chance_below, mills_ratio
from pricebook.bidding.values import LogNormal
from pricebook.errors import SpecError, raise_all


def log_likelihood(
    mu: float, sigma: float, sold: Iterable[float], unsold_reserves: Iterable[float]
) -> float:
    """Return how well a log-normal explains what sold and what did not.

    Parameters
    ----------
    mu, sigma : float
        Mean and spread of the logarithm of the price. [-]
    sold : iterable of float
        Prices of the pieces that sold. [money]
    unsold_reserves : iterable of float
        Reserves of the pieces that did not. [money]

    Returns
    -------
    float
        The log-likelihood of the logarithms. [-]

    Raises
    ------
    SpecError
        If a number cannot be.

    Notes
    -----
    Sum over sold of ln phi((y - m)/s) - ln s, plus sum over unsold of
    ln Phi((ln r - m)/s): an unsold piece is worth less than its reserve.

    Examples
    --------
    >>> round(log_likelihood(5, 0.4, [150], [200]), 6)
    -0.261637
    """
    raise_all(SpecError, spread_faults("sigma", sigma, most=30))
    belief = LogNormal(mu, sigma)
    scores = [belief.score(price) for price in amounts("sold", sold)]
    limits = [belief.score(r) for r in amounts("unsold_reserves", unsold_reserves)]
    seen = -math.fsum(z * z for z in scores) / 2
    seen -= len(scores) * (LOG_ROOT_2PI + math.log(belief.sigma))
    return seen + math.fsum(log_chance_below(z) for z in limits)


def fit_sold_and_unsold(
    sold: Iterable[float], unsold_reserves: Iterable[float]
) -> LogNormal:
    """Return the log-normal that best explains what sold and what did not.

    Parameters
    ----------
    sold : iterable of float
        Prices of the pieces that sold, two different ones at least. [money]
    unsold_reserves : iterable of float
        Reserves of the pieces that stayed unsold; may be empty. [money]

    Returns
    -------
    LogNormal
        The fit: it unpacks as `mu, sigma`, and has `.median`. [ln money, -]

    Raises
    ------
    SpecError
        If a price is not above 0, or fewer than two different prices are given:
        then no spread can be told.

    Notes
    -----
    Most likely values of a normal censored from above at each reserve (maximum
    likelihood, divisor n). In 1/s and m/s the log-likelihood has one peak (Olsen
    1978), which Newton's steps climb. Leaving the unsold out puts the price too
    high.

    Examples
    --------
    >>> sold = [120, 150, 160, 185, 210, 240, 275, 320]
    >>> mu, sigma = fit_sold_and_unsold(sold, [100, 150, 200])
    >>> round(mu, 8), round(sigma, 8)
    (5.12105135, 0.41119395)
    """
    prices = amounts("sold", sold)
    reserves = amounts("unsold_reserves", unsold_reserves)
    if len(set(prices)) < 2:
        raise SpecError(
            f"sold holds {'one price' if prices else 'no price'}; it takes two "
            "different ones to tell a spread."
        )
    logs = [math.log(price) for price in prices]
    mean = math.fsum(logs) / len(logs)
    spread = math.sqrt(math.fsum((y - mean) ** 2 for y in logs) / len(logs))
    ys = [(y - mean) / spread for y in logs]
    limits = [(math.log(r) - mean) / spread for r in reserves]
    theta, delta = _climb(ys, limits)
    return LogNormal(mean + spread * delta / theta, spread / theta)


def _climb(ys: Sequence[float], limits: Sequence[float]) -> tuple[float, float]:
    """Climb to the peak in 1/s and m/s, from the fit without the unsold."""
    theta, delta = 1.0, 0.0
    here = _peak_height(theta, delta, ys, limits)
    for _ in range(200):
        step = _newton(theta, delta, ys, limits)
        share = 1.0
        while share > 1e-12:
            tried = theta + share * step[0], delta + share * step[1]
            if tried[0] > 0:
                there = _peak_height(*tried, ys, limits)
                if there >= here:
                    break
            share /= 2
        else:
            break
        theta, delta = tried
        if there - here <= 1e-16 * abs(here) and abs(step[0]) + abs(step[1]) < 1e-9:
            break
        here = there
    return theta, delta


def _peak_height(
    theta: float, delta: float, ys: Sequence[float], limits: Sequence[float]
) -> float:
    """Return the log-likelihood in 1/s and m/s, without its constant."""
    height = len(ys) * math.log(theta)
    height -= sum((theta * y - delta) ** 2 for y in ys) / 2
    return height + sum(log_chance_below(theta * c - delta) for c in limits)


def _newton(
    theta: float, delta: float, ys: Sequence[float], limits: Sequence[float]
) -> tuple[float, float]:
    """Return Newton's step: slope over bend, in 1/s and m/s."""
    slope_t, slope_d = len(ys) / theta, 0.0
    bend_tt, bend_td, bend_dd = len(ys) / theta**2, 0.0, 0.0
    for y in ys:
        residue = theta * y - delta
        slope_t, slope_d = slope_t - y * residue, slope_d + residue
        bend_tt, bend_td, bend_dd = bend_tt + y * y, bend_td - y, bend_dd + 1
    for c in limits:
        z = theta * c - delta
        ratio = 1 / mills_ratio(-z)
        curve = ratio * (ratio + z)
        slope_t, slope_d = slope_t + c * ratio, slope_d - ratio
        bend_tt += c * c * curve
        bend_td, bend_dd = bend_td - c * curve, bend_dd + curve
    whole = bend_tt * bend_dd - bend_td**2
    return (
        (bend_dd * slope_t - bend_td * slope_d) / whole,
        (bend_tt * slope_d - bend_td * slope_t) / whole,
    )
