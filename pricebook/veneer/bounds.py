"""Costs that no plan can undercut, and costs that sheets can sum to at all."""

from __future__ import annotations

from math import gcd

from pricebook.veneer.model import Problem

_LARGEST_SUM = 200_000


def round_up_to_price(bound: int, problem: Problem) -> int:
    """Raise a bound to the next cost that whole sheets can sum to.

    Parameters
    ----------
    bound : int
        No plan costs less. [cents]
    problem : Problem
        The sheets and their prices.

    Returns
    -------
    int
        The bound raised. [cents]

    Examples
    --------
    >>> from pricebook.veneer.model import Stock
    >>> sheets = (Stock(along=96, across=48, price=100),)
    >>> round_up_to_price(130, Problem(blocks=(), stocks=sheets))
    200
    """
    prices = sorted({k.price for k in problem.stocks if k.most != 0 and k.price})
    if not prices:
        return bound
    step = gcd(*prices)
    steps = -(-bound // step)
    largest = steps + prices[-1] // step
    if largest > _LARGEST_SUM:
        return steps * step
    reachable = 1
    window = (1 << (largest + 1)) - 1
    for price in prices:
        shift = max(price // step, 1)
        while shift <= largest:
            reachable |= (reachable << shift) & window
            shift *= 2
    above = reachable >> steps
    return (steps + (above & -above).bit_length() - 1) * step


def area_bound(problem: Problem) -> int:
    """Return the least cost by area alone: the cheapest area times the area needed.

    Parameters
    ----------
    problem : Problem
        Blocks, sheets and their limits.

    Returns
    -------
    int
        No plan costs less. [cents]

    Notes
    -----
    The fractional knapsack: sheets by price for each unit of area, cheapest first,
    each as often as there are. When all sheets together are too small the bound is
    the price of all of them.
    """
    area = sum(
        block.count * block.forms[0][0] * block.forms[0][1] for block in problem.blocks
    )
    kinds = sorted(
        problem.stocks, key=lambda kind: kind.price / (kind.along * kind.across)
    )
    cost = 0
    for kind in kinds:
        size = kind.along * kind.across
        whole = area // size if kind.most is None else min(kind.most, area // size)
        cost += whole * kind.price
        area -= whole * size
        if kind.most is None or whole < kind.most:
            return cost - (-area * kind.price // size)
    return cost


def shape_bound(problem: Problem) -> int:
    """Return the least cost by areas that shapes really take up.

    Parameters
    ----------
    problem : Problem
        Blocks, sheets and their limits.

    Returns
    -------
    int
        No plan costs less. [cents]

    Notes
    -----
    Dual feasible functions (Fekete & Schepers, Math. Methods of Operations Research
    60 (2004)): with u(x) = 1 for x > 1 - e, x between, 0 for x < e on one axis or
    both, blocks that cannot lie beside each other count for more than their area.
    Used only where there is one size of sheet and the grain is fixed; else 0.
    """
    kinds = [kind for kind in problem.stocks if kind.most != 0]
    if len(kinds) != 1 or any(len(block.forms) > 1 for block in problem.blocks):
        return 0
    kind = kinds[0]
    rows = [(*block.forms[0], block.count) for block in problem.blocks]
    talls = stretched(sorted({along for along, _, _ in rows}), kind.along)
    wides = stretched(sorted({across for _, across, _ in rows}), kind.across)
    whole = kind.along * kind.across
    most = 0
    for tall in talls:
        for wide in wides:
            area = sum(tall[along] * wide[across] * n for along, across, n in rows)
            most = max(most, -(-area // whole))
    return most * kind.price


def stretched(sizes: list[int], limit: int) -> list[dict[int, int]]:
    """Return sizes as they are, and stretched for thresholds up to half the limit."""
    found = [{size: size for size in sizes}]
    thresholds = [size for size in sizes if 2 * size <= limit]
    step = max(1, len(thresholds) // 12)
    for least in [*thresholds[::step], limit // 2]:
        stretched = {}
        for size in sizes:
            if size > limit - least:
                stretched[size] = limit
            else:
                stretched[size] = size if size >= least else 0
        found.append(stretched)
    return found
