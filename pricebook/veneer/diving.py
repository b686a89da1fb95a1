"""Dives: fix sheets that the relaxation likes, find new ones for what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pricebook.veneer.bounds import round_up_to_price
from pricebook.veneer.filling import pack
from pricebook.veneer.guided import best_rows, guided_orders
from pricebook.veneer.master import SCALE, Values
from pricebook.veneer.model import Pattern, Problem
from pricebook.veneer.pool import Pool, cost_of, trim
from pricebook.veneer.relaxing import Relaxation
from pricebook.veneer.seeds import sizes_of, stocks_of

if TYPE_CHECKING:
    from numpy.random import Generator
    from numpy.typing import NDArray

    Array = NDArray[Any]

_TRIES = 4
_LEAN = 1200
"""So many patterns enter the relaxation of a dive."""


def guide(
    pool: Pool, values: Sequence[int], rows: int, kept: int, rng: Generator
) -> None:
    """Fill sheets by the values of the blocks, and add the most valuable."""
    import numpy as np

    problem = pool.problem
    packings = pack(
        guided_orders(problem, values, rows, rng), sizes_of(problem), stocks_of(problem)
    )
    prices = np.array([kind.price for kind in problem.stocks])
    scaled = prices / max(float(prices.max()), 1.0) * SCALE
    order = best_rows(
        packings.orders.block, packings.sheet, packings.stock[:, 0], values, scaled
    )
    pool.harvest(packings, map(int, order[:kept]))


def dive(
    pool: Pool, rows: int, below: int, shake: float, rng: Generator
) -> list[Pattern] | None:
    """Go down once, and give up when nothing cheaper can come of it.

    Parameters
    ----------
    pool : Pool
        Known sheets; receives those found on the way.
    rows : int
        How many sheets are filled at each step.
    below : int
        A plan must cost less than this. [cents]
    shake : float
        How far chance changes what the relaxation likes. [-]
    rng : Generator
        Where the chance comes from.

    Returns
    -------
    list of Pattern or None
        A plan that costs less, or None.
    """
    import numpy as np

    problem = pool.problem
    left = np.array([block.count for block in problem.blocks])
    most = [kind.most for kind in problem.stocks]
    plan: list[Pattern] = []
    while left.any():
        live = np.nonzero(left)[0]
        rest = _rest_of(problem, left, live, most)
        small = _small_pool(pool, rest, live, left)
        room = below - cost_of(plan, problem)
        values = _improved(small, rows, room, rng)
        patterns = list(small.patterns.values())
        pool.add(renamed(pattern, live) for pattern in patterns)
        if values is None:
            return None
        chosen = values.choice + rng.uniform(0, 1, len(values.choice)) * shake * (
            values.choice > 1e-6
        )
        for place in _fixed(chosen, values.choice, patterns, left, live):
            pattern = renamed(patterns[place], live)
            plan.append(pattern)
            for block, *_ in pattern.blocks:
                left[block] = max(0, left[block] - 1)
            limit = most[pattern.stock]
            if limit is not None:
                most[pattern.stock] = limit - 1
    return trim(plan, problem)


def _improved(small: Pool, rows: int, room: int, rng: Generator) -> Values | None:
    """Fill sheets until the rest may cost less than the room there is."""
    relaxation = Relaxation(small)
    for _ in range(_TRIES):
        values = relaxation.solve()
        if values is None:
            return None
        guide(small, values.blocks, rows, 40, rng)
        values = relaxation.solve()
        if values and round_up_to_price(relaxation.cost, small.problem) < room:
            return values
    return None


def _rest_of(
    problem: Problem, left: Array, live: Array, most: Sequence[int | None]
) -> Problem:
    blocks = tuple(replace(problem.blocks[n], count=int(left[n])) for n in live)
    stocks = tuple(
        replace(kind, most=limit)
        for kind, limit in zip(problem.stocks, most, strict=True)
    )
    return replace(problem, blocks=blocks, stocks=stocks)


def _small_pool(pool: Pool, rest: Problem, live: Array, left: Array) -> Pool:
    """Take the patterns that are fullest with what is left, cut down to it."""
    import numpy as np

    patterns = list(pool.patterns.values())
    held, stock_of = pool.matrix()
    sizes = sizes_of(pool.problem)[:, 0]
    prices = np.array([kind.price for kind in pool.problem.stocks])
    area = (sizes[:, 0] * sizes[:, 1]) @ np.minimum(held, left[:, None])
    order = np.argsort(-area / np.maximum(prices, 1e-3)[stock_of], kind="stable")[
        :_LEAN
    ]
    place = {int(block): n for n, block in enumerate(live)}
    small = Pool(rest)
    small.add(_cut_down(patterns[n], place, left) for n in map(int, order) if area[n])
    return small


def _cut_down(pattern: Pattern, place: dict[int, int], left: Array) -> Pattern:
    used: dict[int, int] = {}
    kept = []
    for block, form, a, c in pattern.blocks:
        if block in place and used.get(block, 0) < left[block]:
            used[block] = used.get(block, 0) + 1
            kept.append((place[block], form, a, c))
    return Pattern(pattern.stock, tuple(kept))


def renamed(pattern: Pattern, live: Sequence[int] | Array) -> Pattern:
    """Return a pattern of some blocks by their places among all."""
    blocks = tuple(
        (int(live[block]), form, a, c) for block, form, a, c in pattern.blocks
    )
    return Pattern(pattern.stock, blocks)


def _fixed(
    liked: Array, choice: Array, patterns: Sequence[Pattern], left: Array, live: Array
) -> list[int]:
    """Return the sheets to fix: the best liked, and all that are used whole."""
    import numpy as np

    rest = {int(block): int(left[block]) for block in live}
    fixed: list[int] = []
    for place in map(int, np.argsort(-liked, kind="stable")):
        if choice[place] < 1e-6 or (fixed and choice[place] < 0.95):
            break
        for _ in range(max(1, int(choice[place] + 0.05))):
            needed: dict[int, int] = {}
            for block, *_ in patterns[place].blocks:
                key = int(live[block])
                needed[key] = needed.get(key, 0) + 1
            if fixed and any(rest[block] < n for block, n in needed.items()):
                break
            fixed.append(place)
            for block, n in needed.items():
                rest[block] = max(0, rest[block] - n)
    return fixed
