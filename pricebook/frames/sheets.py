"""The layout as data frames and a sentence: places, sheets, cuts, offcuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pricebook.frames.building import CENTS, COUNT, NUMBER, TEXT, frame_of
from pricebook.lengths import show
from pricebook.veneer.layout import Layout

if TYPE_CHECKING:
    import pandas as pd


def layout_frame(layout: Layout, lengths: str = "in") -> pd.DataFrame:
    """Return where each face lies: the numbers of the layout's pictures.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.
    lengths : str
        "in" or "mm", the reader's choice, for `as_cut`.

    Returns
    -------
    pandas.DataFrame
        A row a face. Columns: `sheet` (int64), `stock` (string), `piece`, `face`
        (string), `along_at_mm`, `across_at_mm`, `along_mm`, `across_mm` (float64, as
        cut), `as_cut` (string).
    """
    columns = {
        "sheet": COUNT,
        "stock": TEXT,
        "piece": TEXT,
        "face": TEXT,
        "along_at_mm": NUMBER,
        "across_at_mm": NUMBER,
        "along_mm": NUMBER,
        "across_mm": NUMBER,
        "as_cut": TEXT,
    }
    rows = [
        [
            *(plan.number, plan.sheet.key, placed.face.piece, placed.name),
            *(placed.along_at_mm, placed.across_at_mm),
            *(placed.along_mm, placed.across_mm),
            size_words(placed.along_mm, placed.across_mm, lengths),
        ]
        for plan in layout.sheets
        for placed in plan.placed
    ]
    return frame_of(columns, rows)


def sheets_frame(layout: Layout) -> pd.DataFrame:
    """Return the sheets of a layout, what each is worth and how much of it is kept.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.

    Returns
    -------
    pandas.DataFrame
        A row a sheet. Columns: `sheet` (int64), `stock`, `from` (string: the rack or
        to buy), `along_mm`, `across_mm` (float64), `faces` (int64), `worth_cents`
        (int64), `area_m2`, `faces_m2`, `kept_m2` (float64).
    """
    columns = {
        "sheet": COUNT,
        "stock": TEXT,
        "from": TEXT,
        "along_mm": NUMBER,
        "across_mm": NUMBER,
        "faces": COUNT,
        "worth_cents": CENTS,
        "area_m2": NUMBER,
        "faces_m2": NUMBER,
        "kept_m2": NUMBER,
    }
    rows = [
        [
            *(plan.number, plan.sheet.key, "rack" if plan.from_rack else "to buy"),
            *(plan.sheet.along_mm, plan.sheet.across_mm, len(plan.placed)),
            *(plan.worth_cents, plan.m2),
            sum(p.along_mm * p.across_mm for p in plan.placed) / 1e6,
            plan.kept_m2,
        ]
        for plan in layout.sheets
    ]
    return frame_of(columns, rows)


def cuts_frame(layout: Layout) -> pd.DataFrame:
    """Return the cuts in bench order.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.

    Returns
    -------
    pandas.DataFrame
        A row a cut. Columns: `sheet`, `cut` (int64), `direction` (string), `at_mm`,
        `start_mm`, `end_mm` (float64, from the sheet's corner).
    """
    columns = {
        "sheet": COUNT,
        "cut": COUNT,
        "direction": TEXT,
        "at_mm": NUMBER,
        "start_mm": NUMBER,
        "end_mm": NUMBER,
    }
    rows = [
        [plan.number, number, cut.direction, cut.at_mm, cut.start_mm, cut.end_mm]
        for plan in layout.sheets
        for number, cut in enumerate(plan.cuts, start=1)
    ]
    return frame_of(columns, rows)


def offcuts_frame(layout: Layout) -> pd.DataFrame:
    """Return the offcuts that are worth keeping.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.

    Returns
    -------
    pandas.DataFrame
        A row an offcut. Columns: `sheet` (int64), `stock` (string), `along_mm`,
        `across_mm`, `area_m2` (float64).
    """
    columns = {
        "sheet": COUNT,
        "stock": TEXT,
        "along_mm": NUMBER,
        "across_mm": NUMBER,
        "area_m2": NUMBER,
    }
    rows = [
        [plan.number, plan.sheet.key, rest.along_mm, rest.across_mm, rest.m2]
        for plan in layout.sheets
        for rest in plan.rests
        if rest.usable
    ]
    return frame_of(columns, rows)


def layout_sentence(layout: Layout, lengths: str = "in") -> str:
    """Say in one sentence what a layout takes and leaves.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        Sheets, faces, cost with its proof, and the largest offcut.
    """
    if not layout.sheets:
        return "No sheet is needed: no face is veneered."
    faces = sum(len(plan.placed) for plan in layout.sheets)
    rests = [r for plan in layout.sheets for r in plan.rests if r.usable]
    left = "no offcut is worth keeping"
    if rests:
        best = max(rests, key=lambda rest: rest.m2)
        size = size_words(best.along_mm, best.across_mm, lengths)
        left = f"the largest offcut is {size}"
    sheets, each = len(layout.sheets), "s" if len(layout.sheets) > 1 else ""
    come = "1 face comes" if faces == 1 else f"{faces} faces come"
    return f"{come} out of {sheets} sheet{each} ({layout.verdict}); {left}."


def size_words(along_mm: float, across_mm: float, lengths: str) -> str:
    """Return a size along and across the grain."""
    return f"{show(along_mm, lengths)} x {show(across_mm, lengths)}"
