"""Large problems sheet by sheet: the fullest of many sheets is fixed, then the next."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pricebook.veneer.filling import pack
from pricebook.veneer.guided import best_rows, guided_orders
from pricebook.veneer.master import SCALE
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.seeds import sizes_of, stocks_of

if TYPE_CHECKING:
    from numpy.random import Generator


def peel(
    problem: Problem, rows: int, keep: int, rng: Generator
) -> tuple[list[Pattern], Problem, list[int]]:
    """Fix full sheets until few parts are left.

    Parameters
    ----------
    problem : Problem
        Blocks and sheets; limits on sheets are kept.
    rows : int
        How many sheets are filled for each one that is fixed.
    keep : int
        Stop when so many parts are left.
    rng : Generator
        Where the chance comes from.

    Returns
    -------
    (list of Pattern, Problem, list of int)
        The sheets fixed, what is left, and which blocks of the problem those are.
    """
    import numpy as np

    left = np.array([block.count for block in problem.blocks])
    most = [kind.most for kind in problem.stocks]
    prices = np.array([float(kind.price) for kind in problem.stocks])
    scaled = prices / max(float(prices.max()), 1.0) * SCALE
    area = np.array(
        [b.forms[0][0] * b.forms[0][1] for b in problem.blocks], dtype=float
    )
    # worth a little more than area: what is large or long is harder to place later
    worth = area * (1 + 0.1 * np.sqrt(area / area.max()))
    whole = np.array([float(kind.along * kind.across) for kind in problem.stocks])
    worth *= float((scaled / whole).min())
    fixed: list[Pattern] = []
    while True:
        live = [int(n) for n in np.nonzero(left)[0]]
        stocks = tuple(
            replace(kind, most=limit)
            for kind, limit in zip(problem.stocks, most, strict=True)
        )
        blocks = tuple(replace(problem.blocks[n], count=int(left[n])) for n in live)
        rest = replace(problem, blocks=blocks, stocks=stocks)
        if left.sum() <= keep or all(limit == 0 for limit in most):
            return fixed, rest, live
        values = [int(worth[n]) for n in live]
        packings = pack(
            guided_orders(rest, values, rows, rng), sizes_of(rest), stocks_of(rest)
        )
        best = best_rows(
            packings.orders.block, packings.sheet, packings.stock[:, 0], values, scaled
        )
        pattern = packings.pattern(int(best[0]), 0)
        if not pattern.blocks:
            return fixed, rest, live
        renamed = tuple((live[n], f, a, c) for n, f, a, c in pattern.blocks)
        fixed.append(Pattern(pattern.stock, renamed))
        for block, *_ in renamed:
            left[block] -= 1
        limit = most[pattern.stock]
        most[pattern.stock] = None if limit is None else limit - 1
