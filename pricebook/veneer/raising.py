"""Raises a proven bound: lists all sheets a cheaper plan could use, and tries them."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from pricebook.veneer.bounds import round_up_to_price
from pricebook.veneer.columns import Proof
from pricebook.veneer.cover import cheapest_cover
from pricebook.veneer.exact import arranged
from pricebook.veneer.knapsack import Knapsack
from pricebook.veneer.master import SCALE
from pricebook.veneer.model import Pattern
from pricebook.veneer.near_best import MOST_COPIES, NearBest, TooManyError, counts_in

_MOST_LISTED = 150_000
_MOST_CELLS = 45_000
_MOST_COLUMNS = 1_500
_SHARES = (0.0, 0.25, 0.5, 1.0)
"""How far g goes of the gap between bound and cost."""


Sheets = list[tuple[int, tuple[int, ...]]]
"""Stocks, and how many of each block lie on the sheet."""


def raise_bound(
    proof: Proof, cost: int, nodes: int
) -> tuple[int, list[Pattern] | None]:
    """Return a higher bound where one can be proven.

    Parameters
    ----------
    proof : Proof
        From column generation.
    cost : int
        What the best plan costs: no need to go further. [cents]
    nodes : int
        Where the search among the listed sheets stops.

    Returns
    -------
    (int, list of Pattern or None)
        The bound, and a cheaper plan where one was met. [cents]

    Notes
    -----
    Plans cheaper than B + g use only sheets that miss their price by less than g.
    For growing g the sheets are listed and the cheapest cover among them is bounded.
    """
    problem = proof.table.problem
    bound = round_up_to_price(proof.bound, problem)
    plan: Sheets | None = None
    for share in _SHARES:
        if bound >= cost:
            break
        target = max(bound, proof.bound + int((cost - 1 - proof.bound) * share))
        sheets = _listed(proof, target)
        if sheets is None:
            break
        least, chosen = _least_of(sheets, proof, target, nodes)
        price = sum(problem.stocks[kind].price for kind, _ in chosen or ())
        if chosen and price < cost:
            plan, cost = chosen, price
        bound = max(bound, round_up_to_price(min(least, target + 1), problem))
    found = [arranged(problem, kind, counts) for kind, counts in plan or ()]
    laid = [pattern for pattern in found if pattern is not None]
    return min(bound, cost), laid if len(laid) == len(found) else None


def _scaled(proof: Proof) -> tuple[tuple[int, ...], tuple[int, ...], Knapsack, int]:
    """Scale the values down until no sheet is worth more than its price."""
    table, problem = proof.table, proof.table.problem
    dearest = max(kind.price for kind in problem.stocks) or 1
    table.fill(proof.values.blocks)
    prices = tuple(
        kind.price * SCALE // dearest + extra
        for kind, extra in zip(problem.stocks, proof.values.stocks, strict=True)
    )
    share = Fraction(1)
    for number, price in enumerate(prices):
        if table.worth(number):
            share = min(share, Fraction(price, table.worth(number)))
    # a block that is worth nothing would be missing from the list
    values = tuple(max(1, int(value * share)) for value in proof.values.blocks)
    table.fill(values)
    misses = tuple(price - table.worth(n) for n, price in enumerate(prices))
    total = sum(v * b.count for v, b in zip(values, problem.blocks, strict=True))
    total -= sum(
        extra * (kind.most or 0)
        for kind, extra in zip(problem.stocks, proof.values.stocks, strict=True)
    )
    return values, misses, table, total


def _listed(proof: Proof, target: int) -> list[tuple[int, int]] | None:
    """List (stock, selection) of all sheets of plans that cost the target at most."""
    values, misses, table, total = _scaled(proof)
    problem = table.problem
    smallest = min(a * c for block in problem.blocks for a, c in block.forms)
    largest = max(kind.along * kind.across for kind in problem.stocks)
    if largest > smallest * MOST_COPIES:
        return None
    dearest = max(kind.price for kind in problem.stocks) or 1
    slack = ceil(Fraction(target * SCALE, dearest)) - total + len(problem.stocks)
    most = target // max(1, min(kind.price for kind in problem.stocks)) + 1
    excess = max(0, *(-miss for miss in misses))
    slack += excess * most
    misses = tuple(max(0, miss) for miss in misses)
    try:
        near = NearBest(table, values, misses, slack, _MOST_LISTED)
        found = []
        for number, kind in enumerate(problem.stocks):
            i, j = table.place(kind.along, kind.across)
            if kind.most == 0 or misses[number] > slack or i < 0 or j < 0:
                continue
            least = misses[number] + table.worth(number) - slack
            found += [(number, n) for n, v in near.of(i, j).items() if v >= least]
    except (TooManyError, RecursionError):
        return None
    most = min(_MOST_COLUMNS, _MOST_CELLS // len(problem.blocks))
    return found if len(found) <= most else None


def _least_of(
    sheets: list[tuple[int, int]], proof: Proof, target: int, nodes: int
) -> tuple[int, Sheets | None]:
    """Return the cost that no cover by these sheets undercuts, and a cover."""
    import numpy as np

    problem = proof.table.problem
    counts = [counts_in(selection, len(problem.blocks)) for _, selection in sheets]
    held = np.array(counts, dtype=float).reshape(-1, len(problem.blocks)).T
    if not sheets or (held.sum(axis=1) == 0).any():
        return target + 1, None
    stock_of = np.array([stock for stock, _ in sheets])
    chosen, least = cheapest_cover(held, stock_of, problem, nodes)
    if chosen is None:
        return target, None
    return least, [(int(stock_of[n]), counts[n]) for n in chosen]
