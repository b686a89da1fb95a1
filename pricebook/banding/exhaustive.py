"""Every way to cut the edges from given rolls, tried to the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pricebook.banding.demand import Demand
from pricebook.banding.packing import Cut


class Exhaustive:
    """Every way to fill roll after roll, with what cannot work left out.

    Parameters
    ----------
    demand : Demand
        Edges and rolls.
    steps : int
        Where to stop. `stopped` tells whether it came to that.
    """

    def __init__(self, demand: Demand, steps: int) -> None:
        self.demand = demand
        self.sizes = demand.sizes
        self.steps = steps
        self.stopped = False
        self.dead: set[tuple[int, tuple[int, ...]]] = set()

    def run(self, left: Sequence[int], bought: Sequence[int]) -> list[Cut] | None:
        """Return the cuts, or None when there are none or the search stopped."""
        capacities = self.demand.capacities
        order = [j for j, n in enumerate(bought) for _ in range(n)]
        order.sort(key=lambda j: (capacities[j], j))
        room = sum(capacities[j] for j in order)
        need = sum(n * s for n, s in zip(left, self.sizes, strict=True))
        return self._fill(order, tuple(left), room - need)

    def _fill(
        self, order: Sequence[int], left: tuple[int, ...], slack: int
    ) -> list[Cut] | None:
        """Fill all rolls in turn; a stack of the ways not yet tried at each."""
        if slack < 0:
            return None
        capacities = self.demand.capacities
        cuts: list[Cut] = []
        stack = [(left, slack, iter(self._loads(left, order, 0, slack)))]
        while stack:
            left, slack, ways = stack[-1]
            load = next(ways, None)
            if not any(left):
                return cuts
            if load is None or self.steps <= 0:
                self.stopped = self.stopped or self.steps <= 0
                self.dead.add((len(cuts), left))
                stack.pop()
                if cuts:
                    cuts.pop()
                continue
            carried = sum(n * s for n, s in zip(load, self.sizes, strict=True))
            after = tuple(a - b for a, b in zip(left, load, strict=True))
            waste = slack - (capacities[order[len(cuts)]] - carried)
            if (len(cuts) + 1, after) in self.dead:
                continue
            cuts.append((order[len(cuts)], load))
            stack.append((after, waste, self._loads(after, order, len(cuts), waste)))
        return None

    def _loads(
        self, left: tuple[int, ...], order: Sequence[int], at: int, slack: int
    ) -> Iterator[tuple[int, ...]]:
        """Yield the loads of the next roll that waste no more than the slack."""
        if at == len(order):
            return
        room = self.demand.capacities[order[at]]
        yield from self._ways(left, 0, room, slack, [])

    def _ways(
        self, left: tuple[int, ...], i: int, room: int, slack: int, load: list[int]
    ) -> Iterator[tuple[int, ...]]:
        self.steps -= 1
        if self.steps <= 0:
            return
        if i == len(left):
            if room <= slack and self._is_full(left, load, room):
                yield tuple(load)
            return
        rest = sum(
            n * s for n, s in zip(left[i + 1 :], self.sizes[i + 1 :], strict=True)
        )
        most = min(left[i], room // self.sizes[i])
        for taken in range(most, -1, -1):
            after = room - taken * self.sizes[i]
            if after - rest > slack:
                return
            yield from self._ways(left, i + 1, after, slack, [*load, taken])

    def _is_full(self, left: Sequence[int], load: Sequence[int], room: int) -> bool:
        """Tell whether no edge that is left would still go on the roll."""
        return all(
            taken == have or size > room
            for have, taken, size in zip(left, load, self.sizes, strict=True)
        )
