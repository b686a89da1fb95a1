"""From the sum that must be left to the price that leaves it, fees and all."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import cast

from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, exact, half_up

Shares = Number | Iterable[Number]


def read_shares(shares: Shares, name: str = "shares") -> tuple[Fraction, ...]:
    """Return fees as exact shares of the price.

    Parameters
    ----------
    shares : number or sequence of numbers
        Each 0 or more and below 1; 5 % is 0.05. [-]
    name : str
        What the shares are called in a refusal.

    Returns
    -------
    tuple of Fraction
        The same shares. [-]

    Raises
    ------
    MoneyError
        If one is no number, below 0, or 1 or more; one sentence each.

    Examples
    --------
    >>> read_shares([0.05, 0.1])
    (Fraction(1, 20), Fraction(1, 10))
    """
    if isinstance(shares, Iterable) and not isinstance(shares, (str, Mapping)):
        listed = list(shares)
    else:
        listed = [cast("Number", shares)]
    faults = [
        fault
        for i, share in enumerate(listed, 1)
        for fault in number_faults(f"{name}, fee {i},", share, least=0, below=1)
    ]
    raise_all(MoneyError, faults)
    return tuple(exact(share) for share in listed)


def check_sum(parts: Sequence[Fraction], name: str = "shares") -> None:
    """Refuse fees that eat the whole price.

    Parameters
    ----------
    parts : sequence of Fraction
        Shares of the price. [-]
    name : str
        What the shares are called in a refusal.

    Raises
    ------
    MoneyError
        If they sum to 1 or more.

    Examples
    --------
    >>> check_sum([Fraction(1, 2), Fraction(1, 4)])
    """
    whole = sum(parts, Fraction(0))
    if whole >= 1:
        raise MoneyError(
            f"{name} sum to {float(whole):.4g}, so the fees eat the whole price; they "
            "must sum to less than 1: check that 5 % is written 0.05."
        )


def net_of_fees_cents(price_cents: int, shares: Shares, fixed_cents: int = 0) -> int:
    """Return what a price leaves after fees, each rounded on its own.

    Parameters
    ----------
    price_cents : int
        The price, 0 or more. [cents]
    shares : number or sequence of numbers
        Fees that are shares of the price. [-]
    fixed_cents : int
        Fees that are the same at every price. [cents]

    Returns
    -------
    int
        The rest; below 0 when the fees are more than the price. [cents]

    Raises
    ------
    MoneyError
        If an amount or a share cannot be, or the shares sum to 1 or more.

    Examples
    --------
    >>> net_of_fees_cents(18_794, [0.05, 0.029, 0.10], 430)
    15000
    """
    faults = cents_faults("price_cents", price_cents)
    raise_all(MoneyError, faults + cents_faults("fixed_cents", fixed_cents))
    parts = read_shares(shares)
    check_sum(parts)
    return _net(int(price_cents), parts, int(fixed_cents))


def _net(price_cents: int, parts: Sequence[Fraction], fixed_cents: int) -> int:
    return price_cents - fixed_cents - sum(half_up(price_cents * p) for p in parts)


def gross_up_cents(net_cents: int, shares: Shares, fixed_cents: int = 0) -> int:
    """Return the price that leaves a wanted sum after fees.

    Parameters
    ----------
    net_cents : int
        What must be left, 0 or more. [cents]
    shares : number or sequence of numbers
        Fees that are shares of the price, summing to less than 1. [-]
    fixed_cents : int
        Fees that are the same at every price. [cents]

    Returns
    -------
    int
        The price, rounded half up, or the next cents above it where each fee
        rounded on its own would leave less than the sum. [cents]

    Raises
    ------
    MoneyError
        If an amount or a share cannot be, or the shares sum to 1 or more: then
        no price leaves anything.

    Notes
    -----
    P = (N + f)/(1 - sum of p).

    Examples
    --------
    >>> gross_up_cents(15_000, [0.05, 0.029, 0.10], 430)
    18794
    >>> gross_up_cents(15_000, [0.6, 0.4], 0)
    Traceback (most recent call last):
        ...
    pricebook.errors.MoneyError: shares sum to 1, so the fees eat the whole price; ...
    """
    faults = cents_faults("net_cents", net_cents)
    raise_all(MoneyError, faults + cents_faults("fixed_cents", fixed_cents))
    parts = read_shares(shares)
    check_sum(parts)
    net, fixed = int(net_cents), int(fixed_cents)
    rest = 1 - sum(parts, Fraction(0))
    price = half_up(Fraction(net + fixed) / rest)
    while _net(price, parts, fixed) < net:
        price += 1
    return price


def gross_up_in_turn_cents(net_cents: int, shares: Shares, fixed_cents: int = 0) -> int:
    """Return the price that leaves a sum when each fee is taken of what remains.

    Parameters
    ----------
    net_cents : int
        What must be left, 0 or more. [cents]
    shares : number or sequence of numbers
        Shares taken one after the other, each of what is left. [-]
    fixed_cents : int
        A fee taken last. [cents]

    Returns
    -------
    int
        (N + f)/product of (1 - p), rounded half up. [cents]

    Raises
    ------
    MoneyError
        If an amount or a share cannot be.

    Examples
    --------
    >>> gross_up_in_turn_cents(15_000, [0.05, 0.029, 0.10], 430)
    18586
    """
    faults = cents_faults("net_cents", net_cents)
    raise_all(MoneyError, faults + cents_faults("fixed_cents", fixed_cents))
    rest = math.prod((1 - p for p in read_shares(shares)), start=Fraction(1))
    return half_up((net_cents + fixed_cents) / rest)


def gross_up_capped_cents(net_cents: int, share: Number, cap_cents: int) -> int:
    """Return the price that leaves a sum after a fee with a cap.

    Parameters
    ----------
    net_cents : int
        What must be left, 0 or more. [cents]
    share : number
        The fee as a share of the price, below 1. [-]
    cap_cents : int
        The most that the fee can be. [cents]

    Returns
    -------
    int
        The price, rounded half up. [cents]

    Raises
    ------
    MoneyError
        If an amount or the share cannot be.

    Notes
    -----
    The lower of N/(1 - p) and N + cap: below the cap the first holds, above it
    the second.

    Examples
    --------
    >>> gross_up_capped_cents(50_000, 0.1, 6_000)
    55556
    >>> gross_up_capped_cents(60_000, 0.1, 6_000)
    66000
    """
    faults = cents_faults("net_cents", net_cents) + cents_faults("cap_cents", cap_cents)
    raise_all(MoneyError, faults)
    (part,) = read_shares([share])
    return half_up(min(net_cents / (1 - part), Fraction(int(net_cents + cap_cents))))
