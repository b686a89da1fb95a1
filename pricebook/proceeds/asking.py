"""What a list of rules does over many prices, and the price for a wanted net."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from pricebook import money
from pricebook.errors import MoneyError
from pricebook.proceeds.reading import read_rules
from pricebook.proceeds.splitting import RuleList, Split, open_till, take_turns
from pricebook.proceeds.tiers import is_cents

_HIGHEST_CENTS = 10**10


def what_if(
    prices_cents: Iterable[int],
    rules: RuleList,
    *,
    fair_market_value_cents: int | None = None,
    by_card: bool = True,
) -> tuple[Split, ...]:
    """Split several hammer prices by the same rules.

    Parameters
    ----------
    prices_cents : iterable of int
        Hammer prices. [cents]
    rules, fair_market_value_cents, by_card
        As for `split`.

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
    ready = read_rules(rules)
    return tuple(
        take_turns(open_till(price, ready, fair_market_value_cents, by_card), ready)
        for price in prices_cents
    )


def net_to_charity(
    rules: RuleList,
    *,
    fair_market_value_cents: int | None = None,
    by_card: bool = True,
) -> Callable[[int], int]:
    """Return what the charity gets as a function of the hammer price.

    Parameters
    ----------
    rules, fair_market_value_cents, by_card
        As for `split`.

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
        till = open_till(hammer_cents, ready, fair_market_value_cents, by_card)
        return take_turns(till, ready).charity_cents

    return net


def hammer_for_net(
    net_cents: int,
    rules: RuleList,
    *,
    fair_market_value_cents: int | None = None,
    by_card: bool = True,
) -> int:
    """Find the smallest hammer price that leaves the charity a wanted net.

    Parameters
    ----------
    net_cents : int
        The wanted net, 0 or more. [cents]
    rules, fair_market_value_cents, by_card
        As for `split`.

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
    A bisection finds where it first comes within four times that of the wanted
    net; from there every cent is tried.

    Examples
    --------
    >>> from pricebook.proceeds import Fixed, Rest, Share
    >>> rules = [Share("guild", 0.05), Fixed("auctioneer", 3500), Rest("charity")]
    >>> hammer_for_net(15000, rules)
    19474
    """
    if not is_cents(net_cents):
        raise MoneyError(f"net is {net_cents!r}; it must be whole cents, 0 or more.")
    ready = read_rules(rules)
    net = net_to_charity(
        ready, fair_market_value_cents=fair_market_value_cents, by_card=by_card
    )
    if net_cents == 0:
        return 0
    if net(_HIGHEST_CENTS) < net_cents:
        raise MoneyError(
            f"no hammer price up to {money.show(_HIGHEST_CENTS)} leaves the charity "
            f"{money.show(net_cents)}; lower the shares or the wanted net."
        )
    near = max(net_cents - 8 * (len(ready.deductions) + 1), 1)
    low, high = 0, _HIGHEST_CENTS
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if net(middle) >= near else (middle, high)
    while net(high) < net_cents:
        high += 1
    return high
