"""The figures of an advice, one function each."""

from __future__ import annotations

from collections.abc import Callable

from pricebook.bidding import LogNormal, Outlook
from pricebook.money import half_up, show
from pricebook.price.belief import Evidence
from pricebook.price.comparables import middle_cents
from pricebook.price.fees import gross_up_cents, net_of_fees_cents
from pricebook.price.figures import Amount, Chance, Costs, Figure
from pricebook.price.policy import PricePolicy
from pricebook.price.reasons import basis, per_cent, room, value_reason
from pricebook.price.work import pay_per_hour_cents

NetOf = Callable[[int], int]
"""What a hammer price leaves to the charity. [cents to cents]"""

_NO_PRICE = 10**12


def fair_market_value(evidence: Evidence, policy: PricePolicy) -> Figure:
    """Return the middle of the comparable sales, or none without one."""
    prices = evidence.prices(policy, is_sold=True)
    cents = middle_cents(prices) if prices else None
    return Figure(cents, value_reason(evidence))


def opening_bid(value: LogNormal, policy: PricePolicy, chosen: int | None) -> Amount:
    """Return the opening bid: a share of the believed median, on the ladder."""
    if chosen is not None:
        policy.ladder.check_rung("the opening bid", chosen)
        return Amount(chosen, "Chosen, not advised.")
    wanted = half_up(value.median * float(policy.opening_share))
    rung = policy.ladder.nearest(max(wanted, policy.ladder.first_cents))
    return Amount(
        rung or policy.ladder.at_or_above(1),
        f"{per_cent(policy.opening_share)} of the believed median value of "
        f"{show(half_up(value.median))}, to the nearest rung: it keeps most of what a "
        "reserve could gain and loses few sales.",
    )


def estimate(
    share: float,
    lot: Outlook,
    evidence: Evidence,
    policy: PricePolicy,
    value: LogNormal,
) -> Amount:
    """Return the rung that a share of the hammers stays at or below."""
    return Amount(
        lot.quantile(share),
        f"Of the lots that sell, {per_cent(share)} stay at or below it, with "
        f"{room(policy)} round {show(half_up(value.median))}, itself unsure by "
        f"{per_cent(value.sigma)}; judged by {basis(evidence, policy)}.",
    )


def chance(policy: PricePolicy, lot: Outlook) -> Chance:
    """Return the chance that somebody bids the lowest price that sells."""
    lowest, _ = lot.rungs[0]
    return Chance(
        lot.chance_of_sale,
        f"The chance that somebody bids {show(lowest)}, with {room(policy)}.",
    )


def expected_hammer(lot: Outlook) -> Amount:
    """Return the average hammer price, an unsold piece counting as 0."""
    if_sold = half_up(lot.mean / lot.chance_of_sale)
    return Amount(
        half_up(lot.mean),
        "The average over every rung, an unsold piece counting as 0; of the lots that "
        f"sell it is {show(if_sold)}. For totals: one lot is better judged by the "
        "estimate.",
    )


def expected_net(policy: PricePolicy, lot: Outlook, net_of: NetOf | None) -> Amount:
    """Return the average of what is left to the charity."""
    left = net_of or _less_fees(policy)
    average = sum(chance * left(price) for price, chance in lot.rungs)
    how = "as the proceeds are shared out" if net_of else "less the fees"
    return Amount(
        half_up(average),
        f"The average over every rung of what is left to the charity, {how}; an unsold "
        "piece leaves 0.",
    )


def pay_per_hour(costs: Costs, policy: PricePolicy, lot: Outlook) -> Figure:
    """Return what the middle hammer price pays for an hour of the work."""
    if not costs.hours:
        return Figure(None, "No hours are stated, so nothing is paid by the hour.")
    middle = lot.quantile(0.5)
    pay = pay_per_hour_cents(
        middle,
        policy.fee_shares,
        costs.used_up_cents,
        costs.hours,
        policy.fixed_fee_cents,
    )
    return Figure(
        pay,
        f"The middle hammer price of {show(middle)}, less fees and "
        f"{show(costs.used_up_cents)} used up, over {costs.hours:.1f} hours.",
    )


def break_evens(
    costs: Costs, policy: PricePolicy, lot: Outlook, net_of: NetOf | None
) -> dict[str, Figure]:
    """Return the hammer price that brings back each sum, by name."""
    sums = {
        "cash repaid": (costs.cash_to_buy_cents, "cash to buy"),
        "used up": (costs.used_up_cents, "what is used up"),
        "full cost": (costs.full_cost_cents, "used up, gifts in kind and time given"),
    }
    found: dict[str, Figure] = {}
    for name, (cents, what) in sums.items():
        price = gross_up_cents(cents, policy.fee_shares, policy.fixed_fee_cents)
        found[name] = Figure(
            price, f"Leaves {show(cents)} after fees, {what}; {_reached(lot, price)}."
        )
    wanted = policy.wanted_net_cents
    if wanted is not None:
        found["wanted net"] = _wanted_net(wanted, policy, lot, net_of)
    return found


def _wanted_net(
    wanted_cents: int, policy: PricePolicy, lot: Outlook, net_of: NetOf | None
) -> Figure:
    """Return the lowest hammer price that leaves a wanted net to the charity."""
    if net_of is None:
        shares, fixed = policy.fee_shares, policy.fixed_fee_cents
        price = gross_up_cents(wanted_cents, shares, fixed)
    else:
        price = _lowest(wanted_cents, net_of)
    if price >= _NO_PRICE:
        return Figure(
            None, f"No hammer price leaves {show(wanted_cents)} to the charity."
        )
    reason = f"Leaves {show(wanted_cents)} to the charity; {_reached(lot, price)}."
    return Figure(price, reason)


def _lowest(wanted_cents: int, net_of: NetOf) -> int:
    """Find where the net first reaches a sum, by doubling and then halving."""
    low, high = -1, max(wanted_cents, 1)
    while high < _NO_PRICE and net_of(high) < wanted_cents:
        low, high = high, 2 * high
    if high >= _NO_PRICE:
        return _NO_PRICE
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if net_of(middle) < wanted_cents else (low, middle)
    return high


def _reached(lot: Outlook, price_cents: int) -> str:
    return f"the chance that the hammer reaches it is {_share(lot, price_cents)}"


def _share(lot: Outlook, price_cents: int) -> str:
    return per_cent(lot.chance_at_least(price_cents))


def _less_fees(policy: PricePolicy) -> NetOf:
    def left(price_cents: int) -> int:
        return net_of_fees_cents(price_cents, policy.fee_shares, policy.fixed_fee_cents)

    return left
