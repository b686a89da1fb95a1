"""The same problem in the coarsest unit that changes nothing, equal blocks as one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import gcd

from pricebook.veneer.model import Block, Pattern, Problem, Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class Reduced:
    """A problem made smaller, and what is needed to undo it.

    Parameters
    ----------
    problem : Problem
        The reduced problem.
    units : (int, int)
        One unit of it, along and across, in the original's unit.
    origin : tuple of tuple of int
        For each reduced block, the original blocks of that size.
    counts : tuple of int
        How many of each original block are needed.
    """

    problem: Problem
    units: tuple[int, int]
    origin: tuple[tuple[int, ...], ...]
    counts: tuple[int, ...]

    def restore(self, plan: Sequence[Pattern]) -> list[Pattern]:
        """Return a plan in the original's unit and with its blocks."""
        unused = [
            [block for block in originals for _ in range(self.counts[block])]
            for originals in self.origin
        ]
        along, across = self.units
        return [
            Pattern(
                pattern.stock,
                tuple(
                    (unused[block].pop(0), form, a * along, c * across)
                    for block, form, a, c in pattern.blocks
                ),
            )
            for pattern in plan
        ]


def reduce_units(problem: Problem) -> Reduced:
    """Divide all sizes by what they have in common, sheets rounded down.

    Parameters
    ----------
    problem : Problem
        Whole numbers of any unit.

    Returns
    -------
    Reduced
        Its plans are the plans of the original: sums of the blocks' sizes are
        whole multiples of the unit, so what a sheet has beyond that is of no use.
    """
    alike: dict[tuple[tuple[int, int], ...], list[int]] = {}
    for number, block in enumerate(problem.blocks):
        alike.setdefault(block.forms, []).append(number)
    along = _common(form[0] for forms in alike for form in forms)
    across = _common(form[1] for forms in alike for form in forms)
    blocks = tuple(
        Block(
            forms=tuple((a // along, c // across) for a, c in forms),
            count=sum(problem.blocks[number].count for number in numbers),
            members=(),
        )
        for forms, numbers in alike.items()
    )
    stocks = tuple(_reduced(kind, along, across, blocks) for kind in problem.stocks)
    return Reduced(
        problem=Problem(blocks=blocks, stocks=stocks, stages=problem.stages),
        units=(along, across),
        origin=tuple(map(tuple, alike.values())),
        counts=tuple(block.count for block in problem.blocks),
    )


def _reduced(kind: Stock, along: int, across: int, blocks: Sequence[Block]) -> Stock:
    """Reduce a sheet; one that holds no block at all is not to be used."""
    tall, wide = kind.along // along, kind.across // across
    useful = any(a <= tall and c <= wide for block in blocks for a, c in block.forms)
    return Stock(
        along=max(1, tall),
        across=max(1, wide),
        price=kind.price,
        most=kind.most if useful else 0,
    )


def _common(sizes: Iterable[int]) -> int:
    return gcd(*sizes)
