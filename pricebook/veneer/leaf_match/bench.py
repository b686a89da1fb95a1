"""The leaves of a flitch on the bench: the next ones for every block of faces."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pricebook.errors import LayoutError
from pricebook.lengths import show
from pricebook.veneer.leaf_match.blocks import Block
from pricebook.veneer.leaf_match.counts import how_many
from pricebook.veneer.leaf_match.flitch import Flitch

CLOSE_MM = 1e-6
LEAST_STRIP_MM = 25.4
"""A narrower rest of a leaf does not start the next face (common practice)."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A leaf, or what is left of one, that fills one place of a set.

    Parameters
    ----------
    place : int
        Which leaf of the flitch, from 0. [-]
    at_mm, width_mm : float
        Where across the leaf it begins, and how wide it is. [mm]
    column, row : int
        Its place in the set, from 0. [-]
    """

    place: int
    at_mm: float
    width_mm: float
    column: int
    row: int


@dataclass(slots=True)
class LeafSet:
    """Leaves joined side by side, and how much of their length is taken.

    Parameters
    ----------
    strips : list of Strip
        Column after column.
    across_mm : float
        Their width together. [mm]
    rows_mm : list of float
        Height of each row. [mm]
    taken_mm : float
        Length of the leaves that is cut off before. [mm]
    """

    strips: list[Strip]
    across_mm: float
    rows_mm: list[float]
    taken_mm: float = 0.0

    @property
    def columns(self) -> int:
        """How many leaves lie side by side. [-]."""
        return 1 + max(strip.column for strip in self.strips)

    def placed(self) -> Iterator[tuple[Strip, float, float]]:
        """Yield each strip with where it begins across and along the set."""
        at, column = 0.0, 0
        for before, strip in zip(
            [self.strips[0], *self.strips], self.strips, strict=False
        ):
            if strip.column != column:
                at, column = at + before.width_mm, strip.column
            yield strip, at, sum(self.rows_mm[: strip.row])


class Bench:
    """The leaves taken so far, block after block."""

    def __init__(self, flitch: Flitch, match: str, end_match: bool) -> None:
        self.flitch = flitch
        self.match = match
        self.end_match = end_match
        self.next = 0
        self.sets: list[LeafSet] = []
        self.rest: Strip | None = None

    def leaves_for(self, block: Block) -> LeafSet:
        """Return the leaves of a block: those of one before it, or the next ones."""
        for leaves in self.sets:
            same = abs(leaves.across_mm - block.across_mm) < CLOSE_MM
            reach = leaves.taken_mm + block.along_mm
            if same and reach < self.flitch.length_mm + CLOSE_MM:
                shared = replace(leaves, rows_mm=[block.along_mm])
                leaves.taken_mm = reach
                return shared
        rows = self._rows(block)
        strips = (
            self._running(block, len(rows))
            if self.match == "running"
            else self._equal(block, len(rows))
        )
        opened = LeafSet(strips, block.across_mm, rows)
        if len(rows) == 1:
            self.sets.append(replace(opened, taken_mm=block.along_mm))
        return opened

    def _rows(self, block: Block) -> list[float]:
        """Return the heights of the rows of leaves, one unless end match is allowed."""
        length = self.flitch.length_mm + CLOSE_MM
        if block.along_mm <= length:
            return [block.along_mm]
        if not self.end_match:
            raise LayoutError(
                f"{block.name} is {show(block.along_mm)} long with its overhang and a "
                f'leaf of "{self.flitch.key}" {show(self.flitch.length_mm)}; allow end '
                "match, or choose longer leaves."
            )
        if len({copy.along_at_mm for copy in block.copies}) == 1:
            high = math.ceil(block.along_mm / length)
            return [block.along_mm / high] * high
        rows: list[float] = []
        for copy in block.copies:
            along = copy.face.cut_along_mm
            if along > length:
                raise LayoutError(
                    f'"{copy.name}" of {block.name} is longer than a leaf of '
                    f'"{self.flitch.key}"; take it out of the run.'
                )
            if rows and rows[-1] + along <= length:
                rows[-1] += along
            else:
                rows.append(along)
        return rows

    def _equal(self, block: Block, high: int) -> list[Strip]:
        """Take the fewest next leaves that are all as wide as their equal share."""
        widths = self.flitch.widths_mm[self.next :]
        count = self._count(block, high, widths)
        if count * high > len(widths):
            last = self.flitch.widths_mm[-1]
            endless = (
                *widths,
                *[last] * (4 + high * math.ceil(4 * block.across_mm / last)),
            )
            more = self._count(block, high, endless) * high - len(widths)
            raise LayoutError(self._run_out(block, more))
        order = _order(count) if self.match == "random" else list(range(count))
        strips = [
            Strip(
                self.next + leaf * high + row, 0.0, block.across_mm / count, column, row
            )
            for column, leaf in enumerate(order)
            for row in range(high)
        ]
        self.next += count * high
        return strips

    def _count(self, block: Block, high: int, widths: Sequence[float]) -> int:
        """Return the least count that these leaves, in order, are wide enough for."""
        step = 2 if self.match in {"centre balance", "slip-centre-book"} else 1
        widest = max(widths, default=self.flitch.widths_mm[-1])
        count = how_many(block.across_mm, widest, self.match)
        while count * high <= len(widths):
            if min(widths[: count * high]) > block.across_mm / count - CLOSE_MM:
                break
            count += step
        return count

    def _running(self, block: Block, high: int) -> list[Strip]:
        """Take leaf after leaf at its own width; the last one is cut to fit."""
        widths = self.flitch.widths_mm
        strips: list[Strip] = []
        need, column = block.across_mm, 0
        if self.rest is not None and high == 1:
            width = min(self.rest.width_mm, need)
            strips.append(replace(self.rest, width_mm=width))
            need, column = need - width, 1
        while need > CLOSE_MM:
            places = range(self.next, self.next + high)
            if places.stop > len(widths):
                more = high * how_many(need, widths[-1], "running")
                raise LayoutError(self._run_out(block, more - len(widths) + self.next))
            width = min(need, *(widths[place] for place in places))
            strips += [
                Strip(place, 0.0, width, column, row)
                for row, place in enumerate(places)
            ]
            need, column, self.next = need - width, column + 1, places.stop
        self.rest = self._rest(strips[-1]) if high == 1 else None
        return strips

    def _rest(self, last: Strip) -> Strip | None:
        """Return what the last leaf of a running face leaves for the next one."""
        used = last.at_mm + last.width_mm
        left = self.flitch.widths_mm[last.place] - used
        if left < LEAST_STRIP_MM:
            return None
        return Strip(last.place, used, left, 0, 0)

    def _run_out(self, block: Block, more: int) -> str:
        have, last = len(self.flitch.widths_mm), self.flitch.widths_mm[-1]
        word = "leaf is" if more == 1 else "leaves are"
        return (
            f'the {have} leaves of "{self.flitch.key}" run out at {block.name}; '
            f"{more} more {word} needed, as wide as the last one, {show(last)}."
        )


def _order(count: int) -> list[int]:
    """Return every second leaf from the second on, then the others."""
    return [*range(1, count, 2), *range(0, count, 2)]
