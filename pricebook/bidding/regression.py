"""A line fitted to values of which some are only known to lie below a limit."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from numbers import Real
from typing import TYPE_CHECKING

from pricebook.bidding.normal import LOG_ROOT_2PI, log_chance_below, mills_ratio
from pricebook.bidding.predictors import SAME, numbers, scale_of, table
from pricebook.errors import SpecError

if TYPE_CHECKING:
    from pricebook.bidding.predictors import Array

PEAK_NEAR = 1e-6
"""A last step of Newton's above this share of the unknowns is no peak [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CensoredFit:
    """A line fitted to values of which some are only known to lie below a limit.

    Parameters
    ----------
    coefficients : tuple of float
        The constant, then one for each predictor. [value unit per predictor unit]
    sigma : float
        Spread about the line, most likely value. [value unit]
    log_likelihood : float
        Logarithm of the likelihood at its peak. [-]
    rows, censored : int
        How many values, and how many of them at or below their limit. [-]
    """

    coefficients: tuple[float, ...]
    sigma: float
    log_likelihood: float
    rows: int
    censored: int


def censored_regression(
    values: Iterable[float],
    features: Iterable[Iterable[float]],
    *,
    censored_below: float | Iterable[float],
) -> CensoredFit:
    """Fit a line to values of which those at or below a limit are only known so far.

    Parameters
    ----------
    values : iterable of float
        The values; for prices take logarithms. [any unit]
    features : iterable of iterable of float
        A row of predictors for each value; empty rows for a constant alone. [any
        units]
    censored_below : float or iterable of float
        The limit, one for all or one a value; -inf for a value always seen. A lot
        that stayed unsold has its reserve for value and limit. [value unit]

    Returns
    -------
    CensoredFit
        The most likely line.

    Raises
    ------
    SpecError
        If shapes or numbers cannot be; if no value lies above its limit, or no more
        of them than there are coefficients; if predictors are collinear there; if
        the values above their limits lie on a line exactly; if limits lie so far below
        the other values (some 1e8 times their spread) that the peak is out of reach.

    Notes
    -----
    y = b0 + b x + s e, e standard normal. The log-likelihood is the sum of
    ln phi((y - b0 - b x)/s) - ln s over the values seen and of
    ln Phi((c - b0 - b x)/s) over those at or below their limit c (Tobin 1958). In
    b/s and 1/s it has one peak (Olsen 1978, from memory), which Newton's steps climb
    on scaled predictors. The conditions refused above are those without which the
    peak may lie at infinity. Divisor n, so `sigma` is low in small samples.

    Examples
    --------
    >>> heights = [[8], [9], [10], [11], [12], [13], [14]]
    >>> fit = censored_regression([0, 0, 0, 2, 5, 4, 7], heights, censored_below=0)
    >>> [round(b, 3) for b in fit.coefficients], fit.censored
    ([-18.011, 1.786], 3)
    """
    import numpy as np

    ys = numbers("values", values)
    rows = table(features, len(ys))
    limits = _limits(censored_below, len(ys))
    y, x = np.array(ys), np.array(rows).reshape(len(ys), len(rows[0]) if rows else 0)
    c = np.array(limits)
    seen = y > c
    names = [f"predictor {j}" for j in range(1, x.shape[1] + 1)]
    _refuse_few(int(seen.sum()), len(ys), len(names) + 1)
    scale = scale_of(x[seen], names, "the rows above their limit")
    middle = float(y[seen].mean())
    reach = float(np.abs(y[seen] - middle).max())
    if reach <= SAME * float(np.abs(y[seen]).max()):
        raise _no_spread()
    design = scale.apply(x)
    theta, gamma, height = _climb(
        design[seen],
        (y[seen] - middle) / reach,
        design[~seen],
        (c[~seen] - middle) / reach,
    )
    slopes = reach * gamma[1:] / theta / scale.reach
    constant = middle + reach * gamma[0] / theta - slopes @ scale.means
    count = int(seen.sum())
    return CensoredFit(
        coefficients=(float(constant), *slopes.tolist()),
        sigma=reach / theta,
        log_likelihood=height - count * (math.log(reach) + LOG_ROOT_2PI),
        rows=len(ys),
        censored=len(ys) - count,
    )


def _limits(given: object, count: int) -> tuple[float, ...]:
    """Return a limit for each value, -inf where there is none."""
    if isinstance(given, Real):
        given = [given] * count
    if isinstance(given, (str, bytes)) or not isinstance(given, Iterable):
        return numbers("censored_below", given)
    row = list(given)
    if len(row) != count:
        raise SpecError(
            f"censored_below has {len(row)} limits beside {count} values; give one "
            "for all or one a value."
        )
    # -inf is no number of ordinary size, so it is kept apart while the rest is read
    finite = [0 if _is_absent(limit) else limit for limit in row]
    return tuple(
        -math.inf if _is_absent(limit) else number
        for limit, number in zip(row, numbers("censored_below", finite), strict=True)
    )


def _is_absent(limit: object) -> bool:
    return isinstance(limit, Real) and limit == -math.inf


def _refuse_few(seen: int, rows: int, coefficients: int) -> None:
    if seen == 0:
        raise SpecError(
            f"none of the {rows} values lies above its limit; nothing tells where "
            "they lie."
        )
    if seen <= coefficients:
        raise SpecError(
            f"{seen} of the {rows} values lie above their limit; {coefficients} "
            f"coefficients and a spread take {coefficients + 1} or more."
        )


def _no_spread() -> SpecError:
    return SpecError(
        "the values above their limit lie on a line exactly, so no spread can be told; "
        "give them as they were found."
    )


def _climb(x: Array, y: Array, x_below: Array, c: Array) -> tuple[float, Array, float]:
    """Climb to the peak in 1/s and b/s, from the line through the values seen."""
    import numpy as np

    line = np.linalg.lstsq(x, y, rcond=None)[0]
    spread = math.sqrt(float(((y - x @ line) ** 2).mean()))
    if spread <= 1e-10:
        raise _no_spread()
    # the unknowns side by side: 1/s first, then b/s
    a = np.hstack([y[:, None], -x])
    below = np.hstack([c[:, None], -x_below])
    here = np.concatenate([[1.0], line]) / spread
    height = _height(here, a, below)
    for _ in range(200):
        step = _newton_step(here, a, below)
        size = float(np.abs(step).max() / np.abs(here).max())
        share = 1.0
        while share > 1e-12:
            tried = here + share * step
            there = _height(tried, a, below)
            if there >= height:
                break
            share /= 2
        else:
            break
        here, gain, height = tried, there - height, there
        if gain <= 1e-16 * abs(height) and size < 1e-9:
            break
    if not size < PEAK_NEAR:
        raise SpecError(
            "the likeliest line is not to be found: limits lie too far below the "
            "values above theirs; check the limits of the rows censored."
        )
    return float(here[0]), here[1:], height


def _height(at: Array, seen: Array, below: Array) -> float:
    """Return the log-likelihood in 1/s and b/s, without its constant."""
    if at[0] <= 0:
        return -math.inf
    height = len(seen) * math.log(at[0]) - float(((seen @ at) ** 2).sum()) / 2
    return height + math.fsum(log_chance_below(z) for z in (below @ at).tolist())


def _newton_step(at: Array, seen: Array, below: Array) -> Array:
    """Return Newton's step: slope over bend, in 1/s and b/s."""
    import numpy as np

    scores = below @ at
    ratio = np.array([1 / mills_ratio(-z) for z in scores.tolist()])
    slope = -seen.T @ (seen @ at) + below.T @ ratio
    # lies in 0 to 1; far below, the sum loses its digits
    curve = np.clip(ratio * (ratio + scores), 0, 1)
    bend = seen.T @ seen + (below.T * curve) @ below
    slope[0] += len(seen) / at[0]
    bend[0, 0] += len(seen) / at[0] ** 2
    step: Array = np.linalg.solve(bend, slope)
    return step
