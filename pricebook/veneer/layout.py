"""Faces by name on sheets by name: the plan that the bench works from."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pricebook.errors import LayoutError, raise_all
from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer.face_blocks import FaceBlocks
from pricebook.veneer.plan import (
    Layout,
    PlacedFace,
    Rest,
    SheetCut,
    SheetPlan,
    cut_list,
)
from pricebook.veneer.sharing import shares

__all__ = [
    "Layout",
    "PlacedFace",
    "Rest",
    "SheetCut",
    "SheetPlan",
    "cut_list",
    "lay_out",
    "shares",
]


def lay_out(
    faces: Sequence[Face],
    stock: Sequence[Sheet],
    *,
    smallest_mm: float = 150.0,
    stages: int | None = None,
    lengths: str = "in",
    progress: Callable[[int, int, str], None] | None = None,
) -> Layout:
    """Lay faces out on the sheets of the price book at the least cost.

    Parameters
    ----------
    faces : sequence of Face
        Faces of one piece or of several that share sheets.
    stock : sequence of Sheet
        What can be bought and what lies in the rack.
    smallest_mm : float
        A rest with a side shorter than this is waste. [mm]
    stages : int or None
        How often the direction of the cuts may change, plus one: 2 or 3, a last
        trim being free; None: any number. [-]
    lengths : str
        "in" or "mm": how a refusal prints sizes.
    progress : callable or None
        Called with steps done, steps in all, and words.

    Returns
    -------
    Layout
        Sheets, faces, cuts and rests, with the proof of the cost.

    Raises
    ------
    LayoutError
        If a face or a run fits no sheet of its species and veneer, cannot be
        centred on any, or the sheets on hand do not suffice and none may be
        bought: by name, with what would help.

    Notes
    -----
    Sheets in the rack come first: the plan that pays the least for sheets is taken;
    of those the one that takes the least value from the rack, then the one with the
    fewest sheets, then the one with the largest rest. Show and backing veneer, and
    each species, are laid out apart. The strip of a matched run belongs to the run
    alone. A centred face lies with its centre line on the centre line of the
    sheet's figure; it is never turned.
    """
    if stages not in (None, 2, 3):
        raise LayoutError(f"stages is {stages!r}; it is 2, 3 or None for any number.")
    groups = sorted({(f.veneer, f.species) for f in faces}, reverse=True)
    problems: list[FaceBlocks] = []
    faults: list[str] = []
    for veneer, species in groups:
        own = [f for f in faces if (f.veneer, f.species) == (veneer, species)]
        sheets = [s for s in stock if (s.veneer, s.species) == (veneer, species)]
        try:
            problems.append(FaceBlocks.of(own, sheets, stages, lengths))
        except LayoutError as error:
            faults += error.faults
    raise_all(LayoutError, faults)
    plans: list[SheetPlan] = []
    cash, rack = 0, 0
    for problem in problems:
        found, least_cash, least_value = problem.solve(
            len(plans), smallest_mm, progress
        )
        plans += found
        cash += least_cash
        rack += least_value
    return Layout(
        sheets=tuple(plans), least_possible_cents=cash + rack, least_rack_cents=rack
    )
