"""What each piece of a batch pays for sheets that they share."""

from __future__ import annotations

from collections.abc import Mapping

from pricebook.errors import LayoutError, shown
from pricebook.money import share_out
from pricebook.veneer.plan import Layout


def shares(layout: Layout, alone: Mapping[str, int]) -> dict[str, int]:
    """Share the cost of a batch's sheets: by area, nobody paying more than alone.

    Parameters
    ----------
    layout : Layout
        The plan of the batch.
    alone : mapping of piece to cents
        What the sheets of each piece would cost by themselves. [cents]

    Returns
    -------
    dict of piece to cents
        Sums to the cost of the layout exactly. [cents]

    Raises
    ------
    LayoutError
        If a piece of the layout has no cost alone, or the batch costs more than
        all pieces alone: then lay them out one by one.

    Notes
    -----
    Each sheet goes by the area cut from it, waste in proportion, by largest
    remainder. What a piece would pay beyond its cost alone is shared by the area of
    the pieces that still pay less than alone, again and again until none is over.
    """
    if not isinstance(layout, Layout) or not isinstance(alone, Mapping):
        raise LayoutError(
            "shares takes a layout and what each piece costs alone, not "
            f"{shown(layout)} and {shown(alone)}."
        )
    areas: dict[str, int] = {}
    owed: dict[str, int] = {}
    for plan in layout.sheets:
        cut: dict[str, int] = {}
        for placed in plan.placed:
            area = round(placed.along_mm * placed.across_mm * 100)
            cut[placed.face.piece] = cut.get(placed.face.piece, 0) + area
        parts = share_out(plan.worth_cents, list(cut.values()))
        for (piece, area), part in zip(cut.items(), parts, strict=True):
            areas[piece] = areas.get(piece, 0) + area
            owed[piece] = owed.get(piece, 0) + part
    missing = [piece for piece in owed if piece not in alone]
    if missing:
        raise LayoutError(
            f'no cost alone is given for "{missing[0]}"; give one for each piece.'
        )
    if sum(owed.values()) > sum(alone[piece] for piece in owed):
        raise LayoutError(
            "together the pieces cost more than each alone; lay them out one by one."
        )
    return _capped(owed, areas, alone)


def _capped(
    owed: dict[str, int], areas: dict[str, int], alone: Mapping[str, int]
) -> dict[str, int]:
    """Move what is above the cost alone to pieces that have room."""
    while True:
        over = sum(max(0, cents - alone[piece]) for piece, cents in owed.items())
        if not over:
            return owed
        owed = {piece: min(cents, alone[piece]) for piece, cents in owed.items()}
        room = [piece for piece, cents in owed.items() if cents < alone[piece]]
        parts = share_out(over, [areas[piece] for piece in room])
        for piece, part in zip(room, parts, strict=True):
            owed[piece] += part
