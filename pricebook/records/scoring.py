"""How good a forecast was: pinball loss of a quantile, CRPS of a distribution."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.forecast.faults import finite_fault, number_fault


@dataclass(frozen=True, slots=True, kw_only=True)
class PinballScores:
    """Mean pinball loss of each quantile over the lots sold.

    Parameters
    ----------
    by_share : tuple of (float, float)
        Share and mean loss, in the order of the shares. [the prices' unit]
    lots : int
        How many hammer prices stand behind it.
    """

    by_share: tuple[tuple[float, float], ...]
    lots: int

    @property
    def mean(self) -> float:
        """Mean over the quantiles, in the prices' unit."""
        return math.fsum(loss for _, loss in self.by_share) / len(self.by_share)


def pinball(share: float, actual: float, forecast: float) -> float:
    """Return the pinball loss of one quantile forecast.

    Parameters
    ----------
    share : float
        Which quantile, between 0 and 1. [-]
    actual : float
        What came. [any unit]
    forecast : float
        The quantile forecast. [the same unit]

    Returns
    -------
    float
        The loss, 0 or more; smaller is better. [the same unit]

    Raises
    ------
    SpecError
        If the share is not between 0 and 1, or a number is not finite.

    Notes
    -----
    max(q (y - x), (q - 1)(y - x)). Source: sktime_pinball.

    Examples
    --------
    >>> pinball(0.1, 1, 0), pinball(0.1, 1, 2), pinball(0.5, 3, 3)
    (0.1, 0.9, 0.0)
    """
    faults = [*_share_faults("share", share)]
    faults += [*finite_fault("actual", actual), *finite_fault("forecast", forecast)]
    raise_all(SpecError, faults)
    above = actual - forecast
    return max(share * above, (share - 1) * above)


def pinball_scores(
    rows: Sequence[tuple[float, Mapping[float, float]]],
) -> PinballScores:
    """Score the quantiles that were forecast for many lots.

    Parameters
    ----------
    rows : sequence of (float, mapping of float to float)
        For each lot sold the hammer price and the quantiles forecast, by share;
        the same shares for every lot. [any unit]

    Returns
    -------
    PinballScores
        Mean loss by quantile, with the number of lots behind it.

    Raises
    ------
    SpecError
        If there are no rows or no shares, or a row has other shares.

    Examples
    --------
    >>> scores = pinball_scores([(300, {0.1: 200, 0.9: 400}),
    ...                          (150, {0.1: 180, 0.9: 350})])
    >>> [(share, round(loss, 2)) for share, loss in scores.by_share]
    [(0.1, 18.5), (0.9, 15.0)]
    """
    if not rows or not rows[0][1]:
        raise SpecError("there is nothing to score; give at least one lot sold.")
    shares = sorted(rows[0][1])
    raise_all(
        SpecError,
        [
            f"row {number} has quantiles {sorted(quantiles)}; it must have {shares} "
            "as the first."
            for number, (_, quantiles) in enumerate(rows, 1)
            if sorted(quantiles) != shares
        ],
    )
    return PinballScores(
        by_share=tuple(
            (share, math.fsum(pinball(share, y, x[share]) for y, x in rows) / len(rows))
            for share in shares
        ),
        lots=len(rows),
    )


def crps_log_normal(actual: float, mu: float, sigma: float) -> float:
    """Return the continuous ranked probability score of a log-normal forecast.

    Parameters
    ----------
    actual : float
        What came, above 0. [any unit]
    mu : float
        Mean of the logarithm of the forecast, in that unit. [-]
    sigma : float
        Standard deviation of the logarithm, above 0. [-]

    Returns
    -------
    float
        The score, 0 or more; smaller is better. [the same unit]

    Raises
    ------
    SpecError
        If a number is not one that the formula takes, or the score is beyond
        what a number can hold.

    Notes
    -----
    y (2 P(w) - 1) - 2 exp(mu + s^2 / 2) (P(w - s) + P(s / sqrt 2) - 1) with
    w = (ln y - mu) / s and P the normal distribution. Twice the pinball loss
    averaged over all quantiles. Source: baran_lerch_2015.

    Examples
    --------
    >>> round(crps_log_normal(1, 0, 0.5), 6)
    0.120792
    """
    faults = [*number_fault("actual", actual, above=True)]
    faults += [*finite_fault("mu", mu), *number_fault("sigma", sigma, above=True)]
    raise_all(SpecError, faults)
    w = (math.log(actual) - mu) / sigma
    try:
        mean = math.exp(mu + sigma**2 / 2)
    except OverflowError:
        raise SpecError(
            f"mu {mu} and sigma {sigma} make a mean too large to hold; lower them."
        ) from None
    inside = _normal(w - sigma) + _normal(sigma / math.sqrt(2)) - 1
    return actual * (2 * _normal(w) - 1) - 2 * mean * inside


def _normal(z: float) -> float:
    return math.erfc(-z / math.sqrt(2)) / 2


def _share_faults(where: str, share: float) -> list[str]:
    faults = [*number_fault(where, share, above=True)]
    if not faults and share >= 1:
        faults.append(f"{where} is {share}; it must be between 0 and 1.")
    return faults
