"""The figures of an advice, one function each."""

from __future__ import annotations

import math
from fractions import Fraction

from pricebook.bidding import Crowd, LogNormal, Outlook
from pricebook.bidding.outlook import room_values
from pricebook.money import exact, half_up, show
from pricebook.price.belief import Evidence
from pricebook.price.comparables import middle_cents
from pricebook.price.figures import Amount, Chance, Costs, Figure
from pricebook.price.leaving import Leaves, NetOf, lowest_price
from pricebook.price.policy import PricePolicy
from pricebook.price.reasons import basis, chosen_words, per_cent, room, value_reason


def fair_market_value(evidence: Evidence, policy: PricePolicy) -> Figure:
    """Return the middle of the comparable sales, or none without one."""
    prices = evidence.prices(policy, is_sold=True)
    cents = middle_cents(prices) if prices else None
    return Figure(cents, value_reason(evidence, is_aged=bool(policy.yearly_change)))


def opening_bid(
    value: LogNormal, policy: PricePolicy, crowd: Crowd, chosen: int | None
) -> Amount:
    """Return the opening bid that was chosen, or else the advised one."""
    if chosen is not None:
        policy.ladder.check_rung("the opening bid", chosen)
    advised = _advised_opening(value, policy, crowd)
    return advised if chosen is None else Amount(int(chosen), chosen_words(advised))


def _advised_opening(value: LogNormal, policy: PricePolicy, crowd: Crowd) -> Amount:
    """Return a share of the believed median, on the ladder."""
    wanted = half_up(value.median * float(policy.opening_share))
    rung = policy.ladder.nearest(max(wanted, policy.ladder.first_cents))
    rung = rung or policy.ladder.at_or_above(1)
    at_0, here = (_sells(value, policy, crowd, price) for price in (0, rung))
    return Amount(
        rung,
        f"{per_cent(policy.opening_share)} of the believed median value of "
        f"{show(half_up(value.median))}, to the nearest rung: bidding from nothing "
        f"would sell {per_cent(at_0)} of such lots, from here it sells "
        f"{per_cent(here)}.",
    )


def _sells(value: LogNormal, policy: PricePolicy, crowd: Crowd, price: int) -> float:
    """Return the chance that somebody bids a price."""
    return sum(
        weight * (1 - crowd.none_above(values.above(price)))
        for values, weight in room_values(value, policy.sigma)
    )


def estimate(
    share: float,
    lot: Outlook,
    evidence: Evidence,
    policy: PricePolicy,
    value: LogNormal,
) -> Amount:
    """Return the lowest rung that a share of the hammers stays at or below."""
    rung = lot.quantile(share)
    above = lot.chance_at_least(rung + 1)
    stay = 1 - above / math.fsum(chance for _, chance in lot.rungs)
    return Amount(
        rung,
        f"The lowest rung that {per_cent(share)} of the lots that sell stay at or "
        f"below; {per_cent(stay)} do, with {room(policy)} round "
        f"{show(half_up(value.median))}, itself unsure by {per_cent(value.sigma)}; "
        f"judged by {basis(evidence, policy)}.",
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
    if_sold = half_up(lot.mean / math.fsum(chance for _, chance in lot.rungs))
    return Amount(
        half_up(lot.mean),
        "The average over every rung, an unsold piece counting as 0; of the lots that "
        f"sell it is {show(if_sold)}. For totals: one lot is better judged by the "
        "estimate.",
    )


def expected_net(lot: Outlook, money: Leaves) -> Amount:
    """Return the average of what is left to the charity."""
    average = sum(chance * money.to_charity(price) for price, chance in lot.rungs)
    return Amount(
        half_up(average),
        "The average over every rung of what is left to the charity, "
        f"{money.charity_words}; an unsold piece leaves 0.",
    )


def pay_per_hour(costs: Costs, lot: Outlook, money: Leaves) -> Figure:
    """Return what the middle hammer price pays for an hour of the work."""
    hours = Fraction(half_up(exact(costs.hours) * 100), 100)  # as it is printed
    if not hours:
        return Figure(None, "No hours are stated, so nothing is paid by the hour.")
    middle = lot.quantile(0.5)
    left = money.for_the_work(middle)
    return Figure(
        half_up((left - costs.used_up_cents) / hours),
        f"The middle hammer price of {show(middle)} leaves {show(left)} after "
        f"{money.taken_words}; less {show(costs.used_up_cents)} used up, over "
        f"{float(hours):.2f} hours.",
    )


def break_evens(
    costs: Costs, policy: PricePolicy, lot: Outlook, money: Leaves
) -> dict[str, Figure]:
    """Return the lowest hammer price that brings back each sum, by name."""
    sums = {
        "cash repaid": (costs.cash_to_buy_cents, "cash to buy"),
        "used up": (costs.used_up_cents, "what is used up"),
        "full cost": (costs.full_cost_cents, "used up, gifts in kind and time given"),
    }
    found: dict[str, Figure] = {}
    for name, (cents, what) in sums.items():
        words = f"after {money.taken_words}, {what}"
        found[name] = _break_even(int(cents), money.for_the_work, words, lot)
    wanted = policy.wanted_net_cents
    if wanted is not None:
        found["wanted net"] = _break_even(
            int(wanted), money.to_charity, "to the charity", lot
        )
    return found


def _break_even(wanted_cents: int, net_of: NetOf, words: str, lot: Outlook) -> Figure:
    """Return the lowest hammer price that leaves a sum, or none."""
    price = lowest_price(wanted_cents, net_of)
    if price is None:
        return Figure(None, f"No hammer price leaves {show(wanted_cents)} {words}.")
    left = net_of(price)
    least = "" if left == wanted_cents else f" ({show(wanted_cents)} at least)"
    return Figure(
        price,
        f"Leaves {show(left)}{least} {words}; the chance that the hammer reaches it "
        f"is {per_cent(lot.chance_at_least(price))}.",
    )
