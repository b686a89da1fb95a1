"""Sheets in the rack first: the least to pay, then the least taken from the rack."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from pricebook.errors import LayoutError
from pricebook.veneer.bounds import area_bound
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.solving import NoPlanError

Solver = Callable[[Problem], tuple[list[Pattern], int]]

_MOST_PURCHASES = 8
"""More ways than this to pay the same are not compared."""

_Purchase = tuple[int, ...]
"""How many of each stock are bought; 0 for what lies in the rack."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackPlan:
    """A plan with what is proven about it.

    Parameters
    ----------
    plan : list of Pattern
        The sheets.
    least_cash_cents : int
        What any plan pays for sheets at the least. [cents]
    least_value_cents : int
        What any plan that pays no more takes from the rack at the least; 0 while
        the cash is not proven. [cents]
    """

    plan: list[Pattern]
    least_cash_cents: int
    least_value_cents: int


def solve_rack_first(
    problem: Problem, in_rack: Sequence[bool], solver: Solver
) -> RackPlan:
    """Lay out blocks so that the least is paid, then the least taken from the rack.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets, those in the rack at their value.
    in_rack : sequence of bool
        For each stock whether it lies in the rack.
    solver : callable
        From a problem to its plan and the cost that no plan undercuts.

    Returns
    -------
    RackPlan
        The plan and its two proofs.

    Raises
    ------
    LayoutError
        If the sheets there are do not hold everything.

    Notes
    -----
    First the rack is free and the purchase made as cheap as can be. Then each
    purchase of that price is free, and the value taken from the rack made small:
    every set of sheets that costs the same is compared while there are few.
    """
    if not any(in_rack):
        plan, bound = solver(problem)
        return RackPlan(plan=plan, least_cash_cents=bound, least_value_cents=0)
    best, least_cash = solver(_rack_free(problem, in_rack))
    purchase = _purchase(best, in_rack)
    cash = _rank(best, problem, in_rack)[0]
    ways = list(_purchases(problem, in_rack, cash))
    all_compared = len(ways) <= _MOST_PURCHASES
    if not all_compared:
        ways = [purchase]
    least_value = _rank(best, problem, in_rack)[1]
    for way in sorted(ways, key=lambda one: one != purchase):
        paid = _paid(problem, in_rack, way)
        bound = area_bound(paid)
        if bound < _rank(best, problem, in_rack)[1]:
            found, bound = _tried(paid, solver)
            if found and _rank(found, problem, in_rack) < _rank(best, problem, in_rack):
                best = found
        least_value = min(least_value, bound)
    proven = all_compared and _rank(best, problem, in_rack)[0] <= least_cash
    return RackPlan(
        plan=best,
        least_cash_cents=least_cash,
        least_value_cents=least_value if proven else 0,
    )


def _rank(
    plan: Sequence[Pattern], problem: Problem, in_rack: Sequence[bool]
) -> tuple[int, int, int]:
    """Return cash, value from the rack, and how many sheets."""
    sums = [0, 0]
    for pattern in plan:
        sums[in_rack[pattern.stock]] += problem.stocks[pattern.stock].price
    return sums[0], sums[1], len(plan)


def _rack_free(problem: Problem, in_rack: Sequence[bool]) -> Problem:
    stocks = tuple(
        replace(kind, price=0) if rack else kind
        for kind, rack in zip(problem.stocks, in_rack, strict=True)
    )
    return replace(problem, stocks=stocks)


def _paid(problem: Problem, in_rack: Sequence[bool], purchase: _Purchase) -> Problem:
    """Return the problem with a purchase made: its sheets are there, and free."""
    stocks = tuple(
        kind if rack else replace(kind, price=0, most=bought)
        for kind, rack, bought in zip(problem.stocks, in_rack, purchase, strict=True)
    )
    return replace(problem, stocks=stocks)


def _purchase(plan: Sequence[Pattern], in_rack: Sequence[bool]) -> _Purchase:
    used = Counter(pattern.stock for pattern in plan)
    return tuple(0 if rack else used[n] for n, rack in enumerate(in_rack))


def _purchases(
    problem: Problem, in_rack: Sequence[bool], cash: int
) -> Iterator[_Purchase]:
    """Yield the sets of sheets to buy that cost so much, a few beyond the limit."""
    waiting: list[tuple[_Purchase, int]] = [((), cash)]
    found = 0
    while waiting and found <= _MOST_PURCHASES:
        begun, left = waiting.pop()
        if len(begun) == len(in_rack):
            if not left:
                found += 1
                yield begun
            continue
        price = problem.stocks[len(begun)].price
        most = 0 if in_rack[len(begun)] else left // price
        waiting += [((*begun, n), left - n * price) for n in range(most + 1)]


def _tried(paid: Problem, solver: Solver) -> tuple[list[Pattern] | None, int]:
    """Return the plan of least value and its bound; a refusal that is proven bounds."""
    try:
        return solver(paid)
    except NoPlanError:
        return None, 0
    except LayoutError:
        return None, sum(kind.price * (kind.most or 0) for kind in paid.stocks) + 1
