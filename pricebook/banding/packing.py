"""Can these rolls carry all edges? Quick ways first, then an exhaustive search.

A cut is what one roll carries: how many edges of each length, longest first.
"""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.banding.demand import Demand

Cut = tuple[int, tuple[int, ...]]
"""The kind of a roll, and how many edges of each length it carries."""

FINEST = 400_000
"""Fullest loads are found on a scale of at most so many steps a roll."""


class Packer:
    """Ways to cut the edges of one demand from a given set of rolls.

    Parameters
    ----------
    demand : Demand
        Edges and rolls.
    """

    def __init__(self, demand: Demand) -> None:
        self.demand = demand
        finest = min(FINEST, FINEST * 50 // max(1, len(demand.sizes)))
        step = max(1, max(demand.capacities, default=1) // finest)
        self.coarse = [-(-size // step) for size in demand.sizes]
        self.room = [capacity // step for capacity in demand.capacities]
        self._known: dict[tuple[object, ...], tuple[int, ...]] = {}

    def fullest(self, left: Sequence[int], room: int) -> tuple[int, ...]:
        """Return the load that fills a room best, long edges first among equals."""
        key = (tuple(left), room)
        if key not in self._known:
            if len(self._known) > 20_000:
                self._known.clear()
            self._known[key] = self._fullest(left, room)
        return self._known[key]

    def _fullest(self, left: Sequence[int], room: int) -> tuple[int, ...]:
        reached = 1
        below = [reached]
        mask = (1 << (room + 1)) - 1
        for size, count in zip(reversed(self.coarse), reversed(left), strict=True):
            some = min(count, room // size)
            batch = 1
            while some > 0:
                batch = min(batch, some)
                reached |= (reached << (batch * size)) & mask
                some -= batch
                batch *= 2
            below.append(reached)
        goal = reached.bit_length() - 1
        load = []
        for i, size in enumerate(self.coarse):
            rest = below[len(self.coarse) - 1 - i]
            taken = min(left[i], goal // size)
            while not (rest >> (goal - taken * size)) & 1:
                taken -= 1
            goal -= taken * size
            load.append(taken)
        return tuple(load)

    def quick(self, bought: Sequence[int]) -> list[Cut] | None:
        """Return the best of a few greedy ways, or None when none carries all."""
        kinds = [j for j, n in enumerate(bought) for _ in range(n)]
        up = sorted(kinds, key=lambda j: (self.room[j], j))
        orders = [up, up[::-1]]
        for last in sorted(set(kinds), key=lambda j: -self.room[j])[1:]:
            rest = up.copy()
            rest.remove(last)
            orders.append([*rest, last])
        best: list[Cut] | None = None
        for order in orders:
            for lead in (False, True):
                found = self._one_by_one(order, lead)
                if found and (best is None or self.rest(found) > self.rest(best)):
                    best = found
            if best is not None and len(kinds) > 100:
                break
        return best or self._long_first(up)

    def rest(self, cuts: Sequence[Cut]) -> int:
        """Return the longest piece that is left on one roll. [units]."""
        return max((self.left_over(cut) for cut in cuts), default=0)

    def left_over(self, cut: Cut) -> int:
        """Return what is left on one roll. [units]."""
        carried = sum(n * s for n, s in zip(cut[1], self.demand.sizes, strict=True))
        return self.demand.capacities[cut[0]] - carried

    def _one_by_one(self, order: Sequence[int], lead: bool) -> list[Cut] | None:
        cuts, left = self.fill(order, lead)
        return None if any(left) else cuts

    def fill(
        self, order: Sequence[int], lead: bool, keep: int = 0
    ) -> tuple[list[Cut], list[int]]:
        """Fill roll after roll, each with its longest edge first if asked to.

        Stops once no more than `keep` edges are left; returns what is left too.
        """
        left = list(self.demand.counts)
        cuts: list[Cut] = []
        for kind in order:
            if sum(left) <= keep:
                break
            room, first = self.room[kind], -1
            if lead:
                fitting = (i for i, n in enumerate(left) if n and self._fits(i, kind))
                first = next(fitting, -1)
            if first >= 0:
                left[first] -= 1
                room -= self.coarse[first]
            load = list(self.fullest(left, room))
            left = [have - taken for have, taken in zip(left, load, strict=True)]
            if first >= 0:
                load[first] += 1
            cuts.append((kind, tuple(load)))
        return cuts, left

    def _fits(self, i: int, kind: int) -> bool:
        return self.coarse[i] <= self.room[kind]

    def _long_first(self, order: Sequence[int]) -> list[Cut] | None:
        """Put the longest edge left on the fullest roll that has room for it."""
        room = [self.demand.capacities[kind] for kind in order]
        loads = [[0] * len(self.demand.sizes) for _ in order]
        for i, size in enumerate(self.demand.sizes):
            for _ in range(self.demand.counts[i]):
                fitting = [(r, k) for k, r in enumerate(room) if r >= size]
                if not fitting:
                    return None
                k = min(fitting)[1]
                room[k] -= size
                loads[k][i] += 1
        return [(kind, tuple(load)) for kind, load in zip(order, loads, strict=True)]

    def plain(self) -> list[Cut]:
        """Return the cheapest of the plain ways with as many rolls as it takes."""
        most = self.demand.at_most
        choices = [most]
        for j in range(len(most)):
            choices.append(tuple(n if i == j else 0 for i, n in enumerate(most)))
        best: list[Cut] = []
        for bought in choices:
            order = [j for j, n in enumerate(bought) for _ in range(n)]
            order.sort(key=lambda j: (-self.room[j], j))
            cuts = [cut for cut in self._long_first(order) or [] if any(cut[1])]
            if cuts and (not best or self._cost(cuts) < self._cost(best)):
                best = cuts
        return best

    def _cost(self, cuts: Sequence[Cut]) -> int:
        return sum(self.demand.prices_cents[kind] for kind, _ in cuts)

    def tidy(self, cuts: Sequence[Cut]) -> list[Cut]:
        """Fill the other rolls from the one with the most left, which comes last."""
        full = sorted((c for c in cuts if any(c[1])), key=self.left_over)
        last_kind, last = full.pop()
        for k, (kind, load) in enumerate(full):
            both = [a + b for a, b in zip(load, last, strict=True)]
            refilled = (kind, self.fullest(both, self.room[kind]))
            if self.left_over(refilled) < self.left_over(full[k]):
                full[k] = refilled
                last = tuple(a - b for a, b in zip(both, refilled[1], strict=True))
        return [c for c in [*full, (last_kind, last)] if any(c[1])]
