"""What a hammer price leaves, and the lowest price that leaves a wanted sum."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pricebook.errors import SpecError
from pricebook.price.fees import read_shares
from pricebook.price.policy import PricePolicy

NetOf = Callable[[int], int]
"""What a hammer price leaves. [cents to cents]"""

_HIGHEST_CENTS = 10**12
_LOOK_BACK_CENTS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaves:
    """What a hammer price leaves, and how that is called.

    Parameters
    ----------
    to_charity : callable
        What is left to the charity. [cents to cents]
    for_the_work : callable
        What is left to charity and maker together: it pays the costs. [cents to cents]
    charity_words, taken_words : str
        How the first was found, and what was taken for the second.
    """

    to_charity: NetOf
    for_the_work: NetOf
    charity_words: str
    taken_words: str


def leaves_of(
    policy: PricePolicy, net_of: NetOf | None, left_of: NetOf | None
) -> Leaves:
    """Return what hammer prices leave, by the split or by the fees of the policy.

    Parameters
    ----------
    policy : PricePolicy
        With the fees.
    net_of, left_of : callable, optional
        As for `advise_price`.

    Returns
    -------
    Leaves
        Both, with their words.

    Raises
    ------
    SpecError
        If one is given that cannot be called.

    Examples
    --------
    >>> rules = PricePolicy(bidders=4, unsold_value_cents=0, fee_shares=0.05)
    >>> leaves_of(rules, None, None).to_charity(20_000)
    19000
    """
    for name, given in (("net_of", net_of), ("left_of", left_of)):
        if given is not None and not callable(given):
            raise SpecError(
                f"{name} is {given!r:.40}; give a function from a hammer price in "
                "cents to what it leaves."
            )

    parts = [
        (part.numerator, part.denominator)
        for part in read_shares(policy.fee_shares, "fee_shares")
    ]
    fixed = int(policy.fixed_fee_cents)

    def less_fees(price_cents: int) -> int:
        # each fee rounded half up on its own, in whole numbers for speed
        fees = (
            (2 * over * price_cents + under) // (2 * under) for over, under in parts
        )
        return price_cents - fixed - sum(fees)

    return Leaves(
        to_charity=net_of or less_fees,
        for_the_work=left_of or less_fees,
        charity_words="as the proceeds are shared out" if net_of else "less the fees",
        taken_words="what others take" if left_of else "fees",
    )


def lowest_price(wanted_cents: int, net_of: NetOf) -> int | None:
    """Find the lowest hammer price that leaves a sum, or none.

    Parameters
    ----------
    wanted_cents : int
        The sum, 0 or more. [cents]
    net_of : callable
        What a hammer price leaves, rising but for cents of rounding. [cents to cents]

    Returns
    -------
    int or None
        The price; None when none up to 10,000,000,000.00 leaves so much. [cents]

    Notes
    -----
    By doubling and halving, then by trying the cents below: where fees are rounded
    one by one, a cent more may leave a cent less.

    Examples
    --------
    >>> lowest_price(15_000, lambda cents: max(0, cents - 8_000))
    23000
    """
    low, high = -1, max(wanted_cents, 1)
    while high < _HIGHEST_CENTS and net_of(high) < wanted_cents:
        low, high = high, 2 * high
    if high >= _HIGHEST_CENTS:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if net_of(middle) < wanted_cents else (low, middle)
    below = range(max(high - _LOOK_BACK_CENTS, 0), high)
    return next((cents for cents in below if net_of(cents) >= wanted_cents), high)
