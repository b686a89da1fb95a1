"""Weights on lengths: a roll can hold only so much weight, so many rolls must be had.

Any weights prove something. When no roll of kind j can hold more weight than v_j,
and all edges together weigh U, rolls that carry all edges have sum v_j n_j >= U.
The lengths themselves are such weights; better ones come from a linear programme.
All numbers here are whole, so that a proof does not hang on rounding.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule that every sufficient set of rolls obeys: sum held_j n_j >= needed."""

    held: tuple[int, ...]
    needed: int

    def allows(self, bought: Sequence[int]) -> bool:
        """Tell whether so many rolls of each kind obey the rule."""
        return sum(v * n for v, n in zip(self.held, bought, strict=True)) >= self.needed


@dataclass(slots=True)
class Heaviest:
    """The heaviest load of one roll found, and what no load can be above."""

    weight: int
    load: list[int]
    bound: int


def heaviest(
    weights: Sequence[int],
    sizes: Sequence[int],
    counts: Sequence[int],
    capacity: int,
    steps: int,
) -> Heaviest:
    """Return the load of one roll that weighs most (a bounded knapsack).

    Parameters
    ----------
    weights, sizes, counts : sequence of int
        Weight, length and number of the edges of each length. [-, units, -]
    capacity : int
        Length of the roll. [units]
    steps : int
        Where to stop; the bound holds in any case. [-]

    Returns
    -------
    Heaviest
        The load; its bound equals its weight when the search came to its end.

    Notes
    -----
    Depth first in order of weight per length, pruned by the load that could be cut
    to the exact length (Dantzig's bound).
    """
    order = [i for i in range(len(sizes)) if weights[i] > 0 and sizes[i] <= capacity]
    order.sort(key=lambda i: (-weights[i] / sizes[i], -sizes[i]))
    items = [(weights[i], sizes[i], counts[i]) for i in order]
    search = _Search(items, steps)
    search.go(0, capacity, 0)
    load = [0] * len(sizes)
    for i, taken in zip(order, search.best_load, strict=False):
        load[i] = taken
    done = search.steps > 0
    bound = search.best if done else max(search.best, _dantzig(items, capacity))
    return Heaviest(search.best, load, bound)


def _dantzig(items: Sequence[tuple[int, int, int]], capacity: int) -> int:
    weight = 0
    for each, size, count in items:
        taken = min(count, capacity // size)
        weight += taken * each
        capacity -= taken * size
        if taken < count:
            return weight + capacity * each // size
    return weight


class _Search:
    """The depth-first search of `heaviest`, with its best load so far."""

    def __init__(self, items: list[tuple[int, int, int]], steps: int) -> None:
        self.items = items
        self.steps = steps
        self.best = 0
        self.best_load: list[int] = []
        self.load: list[int] = []
        self.shortest = [0] * len(items)
        least = 0
        for i in range(len(items) - 1, -1, -1):
            least = min(least, items[i][1]) if least else items[i][1]
            self.shortest[i] = least

    def go(self, depth: int, room: int, weight: int) -> None:
        """Load items from a depth on into the room that is left."""
        self.steps -= 1
        if weight > self.best:
            self.best = weight
            self.best_load = self.load.copy()
        if depth == len(self.items) or room < self.shortest[depth] or self.steps <= 0:
            return
        each, size, count = self.items[depth]
        if weight + room * each // size <= self.best:
            return
        last = depth + 1 == len(self.items)
        next_each, next_size, _ = self.items[depth if last else depth + 1]
        for taken in range(min(count, room // size), -1, -1):
            left = room - taken * size
            total = weight + taken * each
            hope = 0 if last else left * next_each // next_size
            if total + hope <= self.best:
                return
            self.load.append(taken)
            self.go(depth + 1, left, total)
            self.load.pop()
