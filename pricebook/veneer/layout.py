"""Faces by name on sheets by name: the plan that the bench works from."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pricebook.errors import LayoutError, finite, raise_all, shown
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
from pricebook.veneer.reading import read_stages, rows

__all__ = [
    "Layout",
    "PlacedFace",
    "Rest",
    "SheetCut",
    "SheetPlan",
    "cut_list",
    "lay_out",
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
    most = read_stages(stages)
    _refuse_what_is_none(faces, stock, smallest_mm, lengths, progress)
    groups = sorted({(f.veneer, f.species) for f in faces}, reverse=True)
    problems: list[FaceBlocks] = []
    faults: list[str] = []
    for veneer, species in groups:
        own = [f for f in faces if (f.veneer, f.species) == (veneer, species)]
        sheets = [s for s in stock if (s.veneer, s.species) == (veneer, species)]
        try:
            problems.append(FaceBlocks.of(own, sheets, most, lengths))
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


def _refuse_what_is_none(
    faces: object, stock: object, smallest_mm: object, lengths: object, progress: object
) -> None:
    """Refuse arguments of the wrong kind, all at once."""
    faults: list[str] = []
    for what, kind, values in (("faces", Face, faces), ("stock", Sheet, stock)):
        faults += [
            f"{what} holds {shown(one)}; each must be a {kind.__name__}."
            for one in rows(values, what, faults)
            if not isinstance(one, kind)
        ]
    smallest = finite(smallest_mm)
    if smallest is None or smallest < 0:
        faults.append(f"smallest_mm is {shown(smallest_mm)}; it must be 0 or more.")
    if lengths not in ("in", "mm"):
        faults.append(f'lengths is {shown(lengths)}; it is "in" or "mm".')
    if progress is not None and not callable(progress):
        faults.append(f"progress is {shown(progress)}; give a function or None.")
    raise_all(LayoutError, faults)
