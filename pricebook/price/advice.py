"""Advice on a price: one figure, one reason."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

from pricebook.bidding import LogNormal, Outlook, crowd_of, outlook
from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import SpecError, raise_all
from pricebook.money import half_up, show
from pricebook.price.belief import Evidence, believed, something_to_go_by, value_belief
from pricebook.price.comparables import Comparable, feature_faults, is_day
from pricebook.price.features import price_by_features
from pricebook.price.figures import Advice, Amount, Costs, Figure
from pricebook.price.leaving import Leaves, NetOf, leaves_of
from pricebook.price.policy import PricePolicy
from pricebook.price.reasons import chosen_words, warnings
from pricebook.price.reserve import advise_reserve, check_reserve, too_high
from pricebook.price.steps import (
    break_evens,
    chance,
    estimate,
    expected_hammer,
    expected_net,
    fair_market_value,
    opening_bid,
    pay_per_hour,
)


def advise_price(
    costs: Costs,
    policy: PricePolicy,
    *,
    on: datetime.date,
    by: str = "",
    valued_on: datetime.date | None = None,
    comparables: Iterable[Comparable] = (),
    listed: Iterable[Comparable] = (),
    features: Mapping[str, float] | None = None,
    retail_cents: int | None = None,
    net_of: NetOf | None = None,
    left_of: NetOf | None = None,
    opening_bid_cents: int | None = None,
    reserve_cents: int | None = None,
) -> Advice:
    """Advise what to ask for a piece.

    Parameters
    ----------
    costs : Costs
        The cost sheet, or `PieceCosts`.
    policy : PricePolicy
        What was asked and what is assumed.
    on : datetime.date
        The day of the advice.
    by : str
        Who judged the fair market value; a warning asks for a name without one.
    valued_on : datetime.date, optional
        When; the day of the advice unless given.
    comparables : iterable of Comparable
        Like pieces that were offered for sale.
    listed : iterable of Comparable
        All pieces on record with their features; from 30 other sales on that note
        what `features` names, a price by features is one of the anchors.
    features : mapping of str to float, optional
        Features of this piece; None asks for no price by features. [any unit]
    retail_cents : int, optional
        Retail price of a comparable new piece. [cents]
    net_of : callable, optional
        What a hammer price leaves to the charity; without it, the price less the
        fees of the policy. [cents to cents]
    left_of : callable, optional
        What a hammer price leaves to charity and maker together, which pays the
        costs; without it, the price less the fees of the policy. [cents to cents]
    opening_bid_cents : int, optional
        An opening bid chosen in place of the advised one, a rung. [cents]
    reserve_cents : int, optional
        A reserve chosen in place of the advised one, a rung from the opening bid to
        the low estimate; chances and averages then count with it. [cents]

    Returns
    -------
    Advice
        Each figure with its reason.

    Raises
    ------
    SpecError
        If there is nothing to judge a price by, a comparable is dated after `on`,
        an opening bid or a reserve is not on the ladder, a reserve lies above the
        low estimate, or an argument cannot be; one sentence each.

    Notes
    -----
    Comparable sales are drawn to what retail, cost and the features of other sales
    say, by precision on the log scale; unsold ones count as worth less than their
    reserve. Bidders' values spread round that median, which is itself unsure; bids
    climb the ladder. Hours are sunk by then: neither the fair market value nor the
    reserve comes from cost.

    Examples
    --------
    >>> from pricebook.price import PieceCosts
    >>> day = datetime.date(2026, 3, 14)
    >>> sales = [Comparable(cents, day) for cents in (18_000, 22_000, 26_000)]
    >>> advice = advise_price(
    ...     PieceCosts(9_000, 7_200, 21_500, 6.5),
    ...     PricePolicy(bidders=4, unsold_value_cents=5_000),
    ...     on=datetime.date(2026, 4, 1), by="the maker", comparables=sales,
    ... )
    >>> advice.fair_market_value.cents, advice.opening_bid.cents
    (22000, 11000)
    """
    if not isinstance(policy, PricePolicy):
        raise SpecError(f"policy is {policy!r:.40}; give a PricePolicy.")
    money = leaves_of(policy, net_of, left_of)
    evidence = _evidence(costs, comparables, retail_cents, (on, valued_on), by)
    if features is not None:
        evidence = _with_features(evidence, policy, listed, features)
    belief = something_to_go_by(believed(evidence, policy, evidence.anchors(policy)))
    value = value_belief(belief, policy)
    crowd = crowd_of(policy.bidders, policy.crowd)
    opening = opening_bid(value, policy, crowd, opening_bid_cents)
    room = outlook(value, policy.sigma, crowd, policy.ladder, opening.cents)
    if not any(chance for _, chance in room.rungs):
        raise SpecError(
            f"hardly anybody would bid the opening price of {show(opening.cents)}; "
            "look at the bidders and the shares again."
        )
    low = estimate(policy.low_share, room, evidence, policy, value)
    high = estimate(policy.high_share, room, evidence, policy, value)
    lot = room
    if reserve_cents is not None:
        check_reserve(reserve_cents, low.cents, opening.cents, policy.ladder)
        lot = outlook(value, policy.sigma, crowd, policy.ladder, reserve_cents)
    market = believed(evidence, policy, evidence.market_anchors(policy))
    demand = None if market is None else value_belief(market, policy)
    reserve = _reserve(demand, policy, room, opening.cents, reserve_cents)
    asked = (low, high, opening, reserve)
    return _advice(costs, policy, evidence, value, lot, demand, asked, money)


def _advice(
    costs: Costs,
    policy: PricePolicy,
    evidence: Evidence,
    value: LogNormal,
    lot: Outlook,
    demand: LogNormal | None,
    asked: tuple[Amount, Amount, Amount, Figure],
    money: Leaves,
) -> Advice:
    """Put together what is asked for a piece and what may come of it."""
    low, high, opening, reserve = asked
    break_even = break_evens(costs, policy, lot, money)
    median = half_up(value.median)
    return Advice(
        fair_market_value=fair_market_value(evidence, policy),
        estimate_low=low,
        estimate_high=high,
        opening_bid=opening,
        reserve=reserve,
        reserve_too_high=too_high(demand, policy),
        chance_of_sale=chance(policy, lot),
        expected_hammer=expected_hammer(lot),
        expected_net=expected_net(lot, money),
        pay_per_hour=pay_per_hour(costs, lot, money),
        break_even=MappingProxyType(break_even),
        median_value_cents=median,
        outlook=lot,
        warnings=tuple(
            warnings(evidence, policy, lot, median, break_even["used up"].cents)
        ),
    )


def _reserve(
    demand: LogNormal | None,
    policy: PricePolicy,
    room: Outlook,
    opening_cents: int,
    reserve_cents: int | None,
) -> Figure:
    """Return the reserve that was chosen, or else the advised one."""
    advised = advise_reserve(demand, policy, room, opening_cents)
    if reserve_cents is None:
        return advised
    return Figure(int(reserve_cents), chosen_words(advised))


def _evidence(
    costs: Costs,
    comparables: Iterable[Comparable],
    retail_cents: int | None,
    days: tuple[datetime.date, datetime.date | None],
    by: str,
) -> Evidence:
    """Gather what there is to go by, every argument checked."""
    names = ("cash_to_buy_cents", "used_up_cents", "full_cost_cents", "hours")
    if not all(hasattr(costs, name) for name in names):
        raise SpecError(f"costs are {costs!r:.40}; give a cost sheet or PieceCosts.")
    faults = [
        *cents_faults("cash_to_buy_cents", costs.cash_to_buy_cents),
        *cents_faults("used_up_cents", costs.used_up_cents),
        *cents_faults("full_cost_cents", costs.full_cost_cents),
        *number_faults("hours", costs.hours, least=0),
    ]
    if retail_cents is not None:
        faults += number_faults("retail_cents", retail_cents, above=0, whole=True)
    if not isinstance(by, str):
        faults.append(f"by is {by!r}; name who judged the fair market value.")
    on, valued_on = days
    rows = tuple(comparables) if isinstance(comparables, Iterable) else (comparables,)
    faults += _row_faults(rows, on)
    if valued_on is not None and not is_day(valued_on):
        faults.append(f"valued_on is {valued_on!r}; give the day it was judged.")
    raise_all(SpecError, faults)
    return Evidence(
        comparables=rows,
        retail_cents=retail_cents,
        full_cost_cents=costs.full_cost_cents,
        on=on,
        by=by.strip(),
        valued_on=valued_on or on,
    )


def _with_features(
    evidence: Evidence,
    policy: PricePolicy,
    listed: Iterable[Comparable],
    features: Mapping[str, float],
) -> Evidence:
    """Add what other sales say by their features; those named count already."""
    if not isinstance(features, Mapping):
        raise SpecError(f"features are {features!r:.40}; give numbers by name.")
    rows = tuple(listed) if isinstance(listed, Iterable) else (listed,)
    faults = feature_faults("the piece", tuple(features.items()))
    faults += [
        f"listed piece {i} is {row!r:.40}; give a Comparable with price and date."
        for i, row in enumerate(rows, 1)
        if not isinstance(row, Comparable)
    ]
    raise_all(SpecError, faults)
    found = price_by_features(
        features,
        [row for row in rows if row not in evidence.comparables],
        on=evidence.on,
        yearly_change=policy.yearly_change,
    )
    return replace(evidence, by_features=found)


def _row_faults(rows: tuple[Comparable, ...], on: datetime.date) -> list[str]:
    """Say which comparables are none, or lie in the future."""
    if not is_day(on):
        return [f"on is {on!r}; give the day of the advice."]
    return [
        f"comparable {i} is dated {row.date}, after {on}; correct one of the dates."
        if isinstance(row, Comparable)
        else f"comparable {i} is {row!r}; give a Comparable with price and date."
        for i, row in enumerate(rows, 1)
        if not isinstance(row, Comparable) or row.date > on
    ]
