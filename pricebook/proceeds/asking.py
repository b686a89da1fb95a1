"""What a list of rules does over many prices, and the price for a wanted net."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Unpack

from pricebook import money
from pricebook.errors import MoneyError
from pricebook.proceeds.reading import read_rules
from pricebook.proceeds.splitting import RuleList, Split, Terms, open_till, take_turns

_HIGHEST_CENTS = 10**10


def what_if(
    prices_cents: Iterable[int],
    rules: RuleList,
    **terms: Unpack[Terms],
) -> tuple[Split, ...]:
    """Split several hammer prices by the same rules.

    Parameters
    ----------
    prices_cents : iterable of int
        Hammer prices. [cents]
    rules : iterable of rules or mappings
        As for `split`.
    **terms
        `fair_market_value_cents`, `by_card` and `costs_cents`, as for `split`.

    Returns
    -------
    tuple of Split
        One a price, in the order given.

    Raises
    ------
    MoneyError
        As for `split`.

    Examples
    --------
    >>> from pricebook.proceeds import Fixed, Rest, Share
    >>> rules = [Share("guild", 0.05), Rest("charity")]
    >>> [done.charity_cents for done in what_if([10000, 20000], rules)]
    [9500, 19000]
    """
    if isinstance(prices_cents, str) or not isinstance(prices_cents, Iterable):
        raise MoneyError(f"prices are {prices_cents!r:.40}; give a row of whole cents.")
    ready = read_rules(rules)
    return tuple(
        take_turns(open_till(price, ready, terms), ready) for price in prices_cents
    )


def net_to_charity(
    rules: RuleList,
    **terms: Unpack[Terms],
) -> Callable[[int], int]:
    """Return what the charity gets as a function of the hammer price.

    Parameters
    ----------
    rules : iterable of rules or mappings
        As for `split`.
    **terms
        `fair_market_value_cents`, `by_card` and `costs_cents`, as for `split`.

    Returns
    -------
    callable
        Hammer price to the charity's part. [cents]

    Raises
    ------
    MoneyError
        As for `split`.

    Examples
    --------
    >>> from pricebook.proceeds import Fixed, Rest, Share
    >>> net = net_to_charity([Share("guild", 0.05), Rest("charity")])
    >>> net(10000)
    9500
    """
    ready = read_rules(rules)

    def net(hammer_cents: int) -> int:
        return take_turns(open_till(hammer_cents, ready, terms), ready).charity_cents

    return net


def hammer_for_net(
    net_cents: int,
    rules: RuleList,
    **terms: Unpack[Terms],
) -> int:
    """Find the smallest hammer price that leaves the charity a wanted net.

    Parameters
    ----------
    net_cents : int
        The wanted net, 0 or more. [cents]
    rules : iterable of rules or mappings
        As for `split`.
    **terms
        `fair_market_value_cents`, `by_card` and `costs_cents`, as for `split`.

    Returns
    -------
    int
        The hammer price. [cents]

    Raises
    ------
    MoneyError
        If the net is not whole cents, or no price up to 100,000,000.00 leaves it.

    Notes
    -----
    The net rises with the price but for the cents of rounding, at most two a rule.
    A bisection finds where it comes within four times that of the wanted net; from
    there every cent is tried.

    Examples
    --------
    >>> from pricebook.proceeds import Fixed, Rest, Share
    >>> rules = [Share("guild", 0.05), Fixed("auctioneer", 3500), Rest("charity")]
    >>> hammer_for_net(15000, rules)
    19474
    """
    if not money.is_cents(net_cents):
        raise MoneyError(f"net is {net_cents!r}; it must be whole cents, 0 or more.")
    ready = read_rules(rules)
    net = net_to_charity(ready, **terms)
    if net_cents == 0:
        return 0
    if net(_HIGHEST_CENTS) < net_cents:
        raise MoneyError(
            f"no hammer price up to {money.show(_HIGHEST_CENTS)} leaves the charity "
            f"{money.show(net_cents):.40}; lower the shares or the wanted net."
        )
    wobble = 8 * (len(ready.deductions) + 1)
    price = _first(net, max(net_cents - wobble, 1))
    if net_cents <= wobble:  # look back as far as rounding alone could reach
        price = max(2 * price - _first(net, wobble), 0)
    while net(price) < net_cents:
        price += 1
    return price


def _first(net: Callable[[int], int], wanted_cents: int) -> int:
    """Bisect for a price that leaves the wanted net while the cent below does not."""
    low, high = -1, _HIGHEST_CENTS
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if net(middle) >= wanted_cents else (middle, high)
    return high
