"""What a layout is made of: sheets, blocks to cut, cuts and the answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Placement = tuple[int, int, int]
"""A part: its index, its offset along the grain, its offset across the grain."""

Direction = Literal["across", "along"]
"""A cut "across" runs across the grain, one "along" runs with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One straight cut from edge to edge of what lies on the bench.

    Parameters
    ----------
    sheet : int
        Which sheet of the plan, from 0.
    direction : "across" or "along"
        Across the grain or along it.
    at : int
        Where, measured from the sheet's corner: along the grain for a cut
        across, across the grain for a cut along. [the unit of the parts]
    start, end : int
        Where the cut begins and ends, measured the other way. [same]
    """

    sheet: int
    direction: Direction
    at: int
    start: int
    end: int

    @property
    def length(self) -> int:
        """How long the cut is. [the unit of the parts]."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """A rectangle that is left when all cuts are made.

    Parameters
    ----------
    sheet : int
        Which sheet of the plan, from 0.
    along_at, across_at : int
        Offset of its corner on the sheet. [the unit of the parts]
    along, across : int
        Its size. [the unit of the parts]
    """

    sheet: int
    along_at: int
    across_at: int
    along: int
    across: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Parts laid out on sheets, with the cost and the proof.

    Parameters
    ----------
    cost_cents : int
        What the sheets cost together. [cents]
    least_possible_cents : int
        What any plan costs at the least. [cents]
    sheets : tuple of (int, tuple of placements)
        For each sheet used, which one of the sheets offered, and its parts as
        (part index, offset along, offset across).
    cuts : tuple of Cut
        In bench order: sheet after sheet, each cut from edge to edge of the
        piece in which it lies.
    offcuts : tuple of Offcut
        All that is left, sheet after sheet.
    """

    cost_cents: int
    least_possible_cents: int
    sheets: tuple[tuple[int, tuple[Placement, ...]], ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...] = ()

    @property
    def proven(self) -> bool:
        """Whether no plan can cost less."""
        return self.cost_cents == self.least_possible_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A part, or a matched run of parts, that is cut as one rectangle.

    Parameters
    ----------
    forms : tuple of (int, int)
        The sizes (along, across) it may be cut in: one when the grain is fixed.
    count : int
        How many are needed.
    members : tuple of placements
        The parts inside, placed from the block's corner.
    sizes : tuple of (int, int)
        The size of each member of a run; empty for a part by itself.
    """

    forms: tuple[tuple[int, int], ...]
    count: int
    members: tuple[Placement, ...]
    sizes: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A size of sheet on offer: along, across, price, and how many at most."""

    along: int
    across: int
    price: int
    most: int | None = None


@dataclass(frozen=True, slots=True)
class Pattern:
    """One sheet with blocks on it.

    Parameters
    ----------
    stock : int
        Which size of sheet.
    blocks : tuple of (block, form, offset along, offset across)
        What lies on it.
    """

    stock: int
    blocks: tuple[tuple[int, int, int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Blocks to cut and sheets to cut them from, all in whole numbers."""

    blocks: tuple[Block, ...]
    stocks: tuple[Stock, ...]
    stages: int | None = None


class NoRoomError(Exception):
    """The sheets there are cannot hold everything; says which blocks are left over.

    Parameters
    ----------
    left_over : tuple of int
        The blocks that the fullest plan leaves out.
    """

    def __init__(self, left_over: tuple[int, ...]) -> None:
        super().__init__(left_over)
        self.left_over = left_over
