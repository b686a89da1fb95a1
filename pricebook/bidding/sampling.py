"""Hammer prices drawn by chance, for whole evenings and for checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pricebook.bidding.arguments import crowd_faults, number_faults, room_faults
from pricebook.errors import SpecError, raise_all

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


DRAWS_MOST = 100_000_000
"""As many prices as a computer of today holds at once. [-]"""


def simulate(
    median: float,
    sigma: float,
    bidders: float,
    opening: float,
    crowd: str,
    draws: int,
    seed: int,
) -> NDArray[np.float64]:
    """Draw hammer prices of one lot, 0 where it stays unsold.

    Parameters
    ----------
    median, sigma, bidders, opening, crowd
        As for `expected_hammer`.
    draws : int
        How many prices, from 1 to 100,000,000. [-]
    seed : int
        Where chance starts; the same seed draws the same prices. [-]

    Returns
    -------
    array of float
        The prices, in the unit of the median. [money]

    Raises
    ------
    SpecError
        If an argument cannot be; one sentence each.

    Notes
    -----
    Exact, without drawing each bidder: the highest of n uniform numbers is
    U^(1/n), the second highest that times V^(1/(n - 1)).

    Examples
    --------
    >>> prices = simulate(300, 0.5, 4, 150, "poisson", 10_000, 1)
    >>> bool(abs(prices.mean() - 338.695) < 6)
    True
    """
    import numpy as np

    faults = room_faults(median, sigma) + crowd_faults(bidders, crowd)
    faults += number_faults("opening", opening, least=0)
    faults += number_faults("draws", draws, least=1, most=DRAWS_MOST, whole=True)
    raise_all(SpecError, faults + number_faults("seed", seed, least=0, whole=True))
    chance = np.random.default_rng(int(seed))
    if crowd == "fixed":
        count = np.full(int(draws), float(bidders))
    else:
        count = chance.poisson(float(bidders), int(draws)).astype(float)
    return _prices(float(median), float(sigma), float(opening), count, chance)


def _prices(
    median: float,
    sigma: float,
    opening: float,
    count: NDArray[np.float64],
    chance: np.random.Generator,
) -> NDArray[np.float64]:
    """Draw one hammer price for each number of bidders."""
    import numpy as np
    from scipy.special import ndtri

    from pricebook.bidding.values import LogNormal

    limit = LogNormal.of_median(median, sigma).above(opening)
    prices = np.zeros(count.size)
    # ln U is minus an exponential number; -ln F grows from the first to the second
    first = chance.standard_exponential(count.size)
    second = chance.standard_exponential(count.size)
    is_sold = (count >= 1) & (-np.expm1(-first / np.maximum(count, 1)) <= limit)
    prices[is_sold] = opening
    is_raised = is_sold & (count >= 2)
    n = count[is_raised]
    above = -np.expm1(-first[is_raised] / n - second[is_raised] / (n - 1))
    raised = median * np.exp(-sigma * ndtri(above))
    prices[is_raised] = np.maximum(raised, opening)
    return prices
