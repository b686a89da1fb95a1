"""The normal distribution's tails, and a root by halving."""

from __future__ import annotations

import math
from collections.abc import Callable

_ROOT_2 = math.sqrt(2)

LOG_ROOT_2PI = math.log(2 * math.pi) / 2
"""ln sqrt(2 pi), of the normal density. [-]"""


def mills_ratio(z: float) -> float:
    """Return (1 - Phi(z)) / phi(z) for the standard normal.

    Parameters
    ----------
    z : float
        The score. [-]

    Returns
    -------
    float
        The ratio; infinite below -37, where no float holds it. [-]

    Notes
    -----
    Above 8 by the continued fraction 1/(z + 1/(z + 2/(z + 3/(z + ...)))), which
    needs no difference of nearly equal numbers (from memory).

    Examples
    --------
    >>> round(mills_ratio(0), 9), round(mills_ratio(50), 9)
    (1.253314137, 0.019992009)
    """
    if z > 8:
        ratio = z
        for k in range(60, 0, -1):
            ratio = z + k / ratio
        return 1 / ratio
    if z < -37:
        return math.inf
    tail = 0.5 * math.erfc(z / _ROOT_2)
    return tail * math.sqrt(2 * math.pi) * math.exp(z * z / 2)


def bisect(rising: Callable[[float], float], low: float, high: float) -> float:
    """Return where a rising function passes 0, by halving.

    Parameters
    ----------
    rising : callable
        A function that is 0 or less at `low` and 0 or more at `high`.
    low, high : float
        The bracket.

    Returns
    -------
    float
        The root, to the last digits that a float holds.

    Examples
    --------
    >>> round(bisect(lambda x: x * x - 2, 0, 2), 12)
    1.414213562373
    """
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if rising(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def log_chance_below(z: float) -> float:
    """Return ln Phi(z), also where Phi itself is too small for a float.

    Parameters
    ----------
    z : float
        A score. [-]

    Returns
    -------
    float
        The logarithm. [-]

    Examples
    --------
    >>> round(log_chance_below(0), 9), round(log_chance_below(-50), 6)
    (-0.693147181, -1254.831361)
    """
    if z < -8:
        return math.log(mills_ratio(-z)) - z * z / 2 - LOG_ROOT_2PI
    return math.log1p(-0.5 * math.erfc(z / _ROOT_2))
