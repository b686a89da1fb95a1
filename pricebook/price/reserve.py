"""Whether a reserve is wise, where, and what going too high would cost."""

from __future__ import annotations

from pricebook.bidding import (
    LogNormal,
    Outlook,
    crowd_of,
    ladder_of,
    value_with_reserve,
)
from pricebook.bidding.arguments import cents_faults
from pricebook.bidding.ladders import LadderLike
from pricebook.errors import SpecError, raise_all
from pricebook.money import half_up, show
from pricebook.price.figures import Figure
from pricebook.price.policy import PricePolicy

_PUBLISH = (
    "publish it as the opening bid, for in matched sales secret reserves brought fewer "
    "sales and lower prices"
)
"""R. Katkar, D. Reiley, Advances in Economic Analysis & Policy 6(2), 2006
(secret_reserves_2006); a later study found no difference."""

_NO_MARKET = (
    "No reserve: there is neither a comparable sale nor a retail price, and a reserve "
    "never comes from cost."
)


def advise_reserve(
    demand: LogNormal | None, policy: PricePolicy, lot: Outlook, opening_cents: int
) -> Figure:
    """Return the reserve that pays, if the opening bid does not do as well.

    Parameters
    ----------
    demand : LogNormal or None
        What sales and retail say of the median value, cost left out. [cents]
    policy : PricePolicy
        The assumptions, with the value of an unsold piece.
    lot : Outlook
        The chance of each rung.
    opening_cents : int
        The opening bid. [cents]

    Returns
    -------
    Figure
        On the ladder and never above the low estimate; None for no reserve.
    """
    if demand is None:
        return Figure(None, _NO_MARKET)
    best = half_up(_best(demand, policy))
    low = lot.quantile(policy.low_share)
    unsold = show(policy.unsold_value_cents)
    theory = f"with an unsold piece worth {unsold} theory asks for {show(best)}"
    if low <= opening_cents:
        return Figure(
            None,
            f"No reserve: it must not exceed the low estimate of {show(low)}, and "
            f"bidding opens there anyway; {theory}.",
        )
    if best <= opening_cents:
        return Figure(
            None,
            f"No reserve: {theory}, below the opening bid of {show(opening_cents)}.",
        )
    rung = policy.ladder.at_or_below(min(best, low))
    if rung <= opening_cents:
        return Figure(
            None,
            f"No reserve: {theory}, which is no rung above the opening bid of "
            f"{show(opening_cents)}.",
        )
    held = " and the low estimate holds it there" if best > low else ""
    return Figure(
        rung,
        f"At most this: {theory}{held}; {_PUBLISH}.",
    )


def check_reserve(
    reserve_cents: int, estimate_low_cents: int, opening_cents: int, ladder: LadderLike
) -> None:
    """Refuse a reserve that misleads or that no bid can meet.

    Parameters
    ----------
    reserve_cents : int
        The reserve. [cents]
    estimate_low_cents : int
        The low estimate that is printed. [cents]
    opening_cents : int
        The opening bid. [cents]
    ladder : Ladder
        The ladder of bids, in any form that `ladder_of` reads.

    Raises
    ------
    SpecError
        If the reserve is not on the ladder, lies below the opening bid, or above
        the low estimate.

    Notes
    -----
    That a reserve does not exceed the low estimate is a condition of sale of
    nearly every auction house (common practice).

    Examples
    --------
    >>> from pricebook.bidding import TEN_PERCENT
    >>> check_reserve(20_000, 18_000, 10_000, TEN_PERCENT)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: the reserve of 200.00 lies above the low estimate ...
    """
    faults = cents_faults("estimate_low_cents", estimate_low_cents)
    raise_all(SpecError, faults + cents_faults("opening_cents", opening_cents))
    ladder_of(ladder).check_rung("the reserve", reserve_cents)
    if reserve_cents > estimate_low_cents:
        raise SpecError(
            f"the reserve of {show(int(reserve_cents))} lies above the low estimate of "
            f"{show(int(estimate_low_cents))}; a reserve never exceeds the low "
            "estimate."
        )
    if reserve_cents < opening_cents:
        raise SpecError(
            f"the reserve of {show(int(reserve_cents))} lies below the opening bid of "
            f"{show(opening_cents)}, so it does nothing; leave it out or raise it."
        )


def too_high(demand: LogNormal | None, policy: PricePolicy) -> Figure:
    """Return what a reserve half as high again as the best would cost.

    Parameters
    ----------
    demand : LogNormal or None
        What sales and retail say of the median value, cost left out. [cents]
    policy : PricePolicy
        The assumptions, with the value of an unsold piece.

    Returns
    -------
    Figure
        The loss on average, an unsold piece counted at its value, below 0 where the
        median is so unsure that a higher one brings more; None without sales and
        retail.
    """
    if demand is None:
        return Figure(None, _NO_MARKET)
    best = _best(demand, policy)
    crowd = crowd_of(policy.bidders, policy.crowd)
    worth, worth_too_high = (
        value_with_reserve(
            demand, policy.sigma, crowd, price, policy.unsold_value_cents
        )
        for price in (best, 1.5 * best)
    )
    loss = half_up(worth - worth_too_high)
    if loss > 0:
        words = f"would cost {show(loss)} on average, more pieces staying unsold."
    else:
        words = f"would bring {show(-loss)} more on average, and keep bidders away."
    return Figure(
        loss,
        f"A reserve of {show(half_up(1.5 * best))}, half as high again as the best of "
        f"{show(half_up(best))}, {words}",
    )


def _best(demand: LogNormal, policy: PricePolicy) -> float:
    values = LogNormal(demand.mu, policy.sigma)
    return values.best_reserve(float(policy.unsold_value_cents))
