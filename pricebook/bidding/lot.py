"""One lot under the hammer: what it brings, whether it sells, where to reserve."""

from __future__ import annotations

from pricebook.bidding.arguments import crowd_faults, number_faults, room_faults
from pricebook.bidding.crowd import crowd_of
from pricebook.bidding.hammer import Hammer
from pricebook.bidding.values import LogNormal
from pricebook.errors import SpecError, raise_all


def _hammer(
    median: float, sigma: float, bidders: float, opening: float, crowd: str
) -> Hammer:
    """Return the hammer price of log-normal values, every argument checked."""
    faults = room_faults(median, sigma) + crowd_faults(bidders, crowd)
    raise_all(SpecError, faults + number_faults("opening", opening, least=0))
    return Hammer(
        values=LogNormal.of_median(float(median), float(sigma)),
        crowd=crowd_of(bidders, crowd),
        opening=float(opening),
    )


def expected_hammer(
    median: float, sigma: float, bidders: float, opening: float, crowd: str
) -> float:
    """Return the average hammer price, an unsold piece counting as 0.

    Parameters
    ----------
    median : float
        Median of the bidders' values. [money]
    sigma : float
        Spread of the logarithms of the values, above 0. [-]
    bidders : float
        How many bid; asked, never inferred. [-]
    opening : float
        Opening bid, or a reserve made public; 0 for none. [money]
    crowd : str
        "fixed": exactly so many bidders. "poisson": so many on average.

    Returns
    -------
    float
        The average, in the unit of the median. [money]

    Raises
    ------
    SpecError
        If an argument cannot be; one sentence each.

    Notes
    -----
    See `Hammer`. Good to 1e-11 of the answer for a sigma of 0.01 to 5 and up to
    10,000 bidders; a sigma above 5, or more than 1,000,000 bidders, is refused.

    Examples
    --------
    >>> round(expected_hammer(300, 0.5, 4, 150, "poisson"), 6)
    338.695497
    >>> expected_hammer(300, 0, 4, 150, "poisson")
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: sigma is 0; it must be more than 0.
    """
    return _hammer(median, sigma, bidders, opening, crowd).mean


def chance_of_sale(
    median: float, sigma: float, bidders: float, opening: float, crowd: str
) -> float:
    """Return the chance that somebody bids the opening price.

    Parameters
    ----------
    median, sigma, bidders, opening, crowd
        As for `expected_hammer`.

    Returns
    -------
    float
        Between 0 and 1. [-]

    Raises
    ------
    SpecError
        If an argument cannot be; one sentence each.

    Notes
    -----
    1 - F(r)^n, or 1 - e^(-lambda (1 - F(r))) with a Poisson crowd.

    Examples
    --------
    >>> round(chance_of_sale(300, 0.5, 4, 150, "poisson"), 8)
    0.97449003
    """
    return _hammer(median, sigma, bidders, opening, crowd).chance_of_sale


def hammer_quantile(
    median: float,
    sigma: float,
    bidders: float,
    opening: float,
    crowd: str,
    share: float,
) -> float:
    """Return the price that a share of hammers stays at or below.

    Parameters
    ----------
    median, sigma, bidders, opening, crowd
        As for `expected_hammer`.
    share : float
        Between 0 and 1, an unsold piece counting as 0. [-]

    Returns
    -------
    float
        The price, in the unit of the median. [money]

    Raises
    ------
    SpecError
        If an argument cannot be; one sentence each.

    Examples
    --------
    >>> round(hammer_quantile(1, 0.5, 3, 0, "poisson", 0.5), 8)
    0.92794187
    """
    return _hammer(median, sigma, bidders, opening, crowd).quantile(share)


def best_reserve(median: float, sigma: float, unsold_value: float) -> float:
    """Return the reserve that brings most on average, if bidders come anyway.

    Parameters
    ----------
    median : float
        Median of the bidders' values. [money]
    sigma : float
        Spread of the logarithms of the values, above 0. [-]
    unsold_value : float
        What an unsold piece is still worth to the seller, 0 or more. [money]

    Returns
    -------
    float
        The reserve, in the unit of the median. [money]

    Raises
    ------
    SpecError
        If an argument cannot be; one sentence each.

    Notes
    -----
    The r with r - (1 - F(r))/f(r) = unsold value, whatever the number of bidders
    (Myerson 1981). Theory only: a reserve may keep bidders away, the gain over
    half the median is small, and the loss from going too high is large.

    Examples
    --------
    >>> round(best_reserve(1, 0.5, 0), 8)
    0.77185671
    """
    faults = room_faults(median, sigma)
    raise_all(SpecError, faults + number_faults("unsold_value", unsold_value, least=0))
    return LogNormal.of_median(float(median), float(sigma)).best_reserve(
        float(unsold_value)
    )
