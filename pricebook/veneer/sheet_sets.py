"""Cheaper sets of sheets, each filled or ruled out: few sheets, up to a dozen faces.

A plan is cheaper only if its sheets are: so every set of sheets that is better than
the best plan is tried, the cheapest first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from operator import mul

from pricebook.veneer.columns import Worths
from pricebook.veneer.exact import arranged
from pricebook.veneer.holding import UndecidedError
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.sheet_filling import Filling, SheetSet

_MOST_LISTED = 20_000
_FEW_SHEETS = 8
_STEPS = 10_000


def decide(
    filling: Filling, least: int, below: tuple[int, int], worths: Sequence[Worths]
) -> tuple[list[Pattern] | None, int]:
    """Fill the cheapest set of sheets that can be filled, and rule out the others.

    Parameters
    ----------
    filling : Filling
        Blocks and sheets, and what was learnt of them.
    least : int
        No set costs less than this. [cents]
    below : (int, int)
        Sets are cheaper than this, or as cheap with fewer sheets. [cents, sheets]
    worths : sequence of (tuple of int, tuple of int)
        Values of the blocks, and what a sheet of each stock can hold of them.

    Returns
    -------
    (list of Pattern or None, int)
        A plan on a better set, and the cost that no plan undercuts. [cents]
    """
    problem = filling.problem
    sets = sets_between(problem, least, below, worths)
    if sets is None or any(count > _FEW_SHEETS for _, count, _ in sets):
        return None, least
    filling.value(worths)
    filling.steps = _STEPS
    ruled_out = below[0]
    for cost, _, sheets in sets:
        try:
            found = filling.fill(sheets)
        except UndecidedError:
            ruled_out = min(ruled_out, cost)
            continue
        if found is not None:
            patterns = [arranged(problem, *one) for one in found]
            return [one for one in patterns if one is not None], min(ruled_out, cost)
    return None, ruled_out


def sets_between(
    problem: Problem,
    least: int,
    below: tuple[int, int],
    worths: Sequence[Worths] = (),
) -> list[tuple[int, int, SheetSet]] | None:
    """List the sets of sheets that may hold everything, cheapest first.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets.
    least : int
        No set costs less than this. [cents]
    below : (int, int)
        Sets are cheaper than this, or as cheap with fewer sheets. [cents, sheets]

    worths : sequence of (tuple of int, tuple of int)
        Values of the blocks, and what a sheet of each stock can hold of them.

    Returns
    -------
    list of (int, int, tuple of int), or None
        Cost, how many sheets, how many of each stock; None when there are too many.

    Notes
    -----
    Sets with less area than the blocks, or less worth, are left out. Sheets that are
    free are all in every set.
    """
    totals = [
        (sum(v * b.count for v, b in zip(values, problem.blocks, strict=True)), each)
        for values, each in worths
    ]
    area = sum(b.count * b.forms[0][0] * b.forms[0][1] for b in problem.blocks)
    begun: list[tuple[int, int, SheetSet]] = [(0, area, ())]
    for kind in problem.stocks:
        grown = []
        for cost, left, counts in begun:
            for number in _numbers(kind.price, kind.most, below[0] - cost):
                rest = left - number * kind.along * kind.across
                grown.append((cost + number * kind.price, rest, (*counts, number)))
        if len(grown) > _MOST_LISTED:
            return None
        begun = grown
    found = [
        (cost, sum(counts), counts)
        for cost, left, counts in begun
        if left <= 0
        and all(whole <= sum(map(mul, counts, each)) for whole, each in totals)
    ]
    return sorted(one for one in found if one[0] >= least and one[:2] < below)


def rank_of(sheets: SheetSet, problem: Problem) -> tuple[int, int]:
    """Return what sets are compared by: cost, then how many sheets."""
    prices = [kind.price for kind in problem.stocks]
    return sum(map(mul, sheets, prices)), sum(sheets)


def _numbers(price: int, most: int | None, room: int) -> Iterator[int]:
    if most == 0:
        yield 0
    elif not price:
        yield most or 0
    else:
        top = room // price
        yield from range(1 + (top if most is None else min(top, most)))
