"""All sheets of a layout on one page, to one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from matplotlib.figure import Figure

from pricebook.charts.lettering import readable, wrapped
from pricebook.charts.sheet_drawing import Pen, draw_parts
from pricebook.charts.sheet_marks import marks_on
from pricebook.charts.style import (
    EDGE_PT,
    TITLE_LINE_PT,
    WIDTH_PT,
    font,
    house,
    page,
    says_so,
    title_lines,
)
from pricebook.veneer.layout import Layout, SheetPlan

_CAPTION, _CAPTION_LINE_PT = 7.5, 10.0
_NOTE = "A name or a size that has no room here stands on its sheet's own drawing."
_GAP_PT = 14.0
_MOST_PT = 700.0
_MOST_COLUMNS = 4


@dataclass(frozen=True, slots=True)
class _Tile:
    """Sheets that are cut alike, with their caption."""

    plan: SheetPlan
    caption: tuple[str, ...]

    def height(self, scale: float) -> float:
        """Return the room of caption and drawing. [pt]."""
        words = len(self.caption) * _CAPTION_LINE_PT + 4.0
        return words + self.plan.sheet.across_mm * scale + _GAP_PT


@house()
def layout_overview(layout: Layout, lengths: str) -> Figure:
    """Draw all sheets of a layout on one page, to one scale.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    Figure
        A small drawing a sheet, in columns where there are many; sheets cut alike
        are drawn once and counted in the caption. Names and sizes stand where they
        have room: each sheet's own drawing tells them all.
    """
    if not layout.sheets:
        return says_so("No sheet is needed.", "No face of the piece is veneered.")
    alike = _alike(layout.sheets)
    shared = len({p.face.piece for s in layout.sheets for p in s.placed}) > 1
    for columns in range(1, _MOST_COLUMNS + 1):
        wide = (WIDTH_PT - 2 * EDGE_PT - (columns - 1) * _GAP_PT) / columns
        scale = wide / max(plan.sheet.along_mm for plan in layout.sheets)
        tiles = [_tile(plans, wide, shared) for plans in alike]
        rows = [tiles[i : i + columns] for i in range(0, len(tiles), columns)]
        tall = sum(max(tile.height(scale) for tile in row) for row in rows)
        if tall <= _MOST_PT:
            break
    return _drawn(layout, rows, (wide, scale, tall), lengths)


def _drawn(
    layout: Layout,
    rows: Sequence[Sequence[_Tile]],
    room: tuple[float, float, float],
    lengths: str,
) -> Figure:
    wide, scale, tall = room
    title = _title(layout)
    head = EDGE_PT + len(title_lines(title)) * TITLE_LINE_PT + 6.0
    figure, axes, top = page(head + tall + EDGE_PT + _CAPTION_LINE_PT, title)
    axes.text(EDGE_PT, EDGE_PT, _NOTE, fontproperties=font(_CAPTION), va="bottom")
    pieces = {p.face.piece: None for plan in layout.sheets for p in plan.placed}
    colours = {piece: number for number, piece in enumerate(pieces)}
    y = top - 6.0
    for row in rows:
        for number, tile in enumerate(row):
            x = EDGE_PT + number * (wide + _GAP_PT)
            words = "\n".join(tile.caption)
            axes.text(x, y, words, fontproperties=font(_CAPTION, text=words), va="top")
            foot = y - tile.height(scale) + _GAP_PT
            marks = marks_on(tile.plan, scale, lengths, with_cuts=False)
            # a letter would need a legend, for which there is no room here
            named = tuple(mark for mark in marks.marks if not mark.bold)
            draw_parts(
                Pen(axes, x, foot, scale),
                tile.plan,
                replace(marks, marks=named),
                colours,
            )
        y -= max(tile.height(scale) for tile in row)
    return figure


def _title(layout: Layout) -> str:
    sheets, faces = len(layout.sheets), sum(len(p.placed) for p in layout.sheets)
    return (
        f"{sheets} sheet{'s give' if sheets > 1 else ' gives'} {faces} "
        f"face{'s' if faces > 1 else ''}: {layout.verdict}."
    )


def _alike(plans: Sequence[SheetPlan]) -> list[list[SheetPlan]]:
    """Gather sheets of one row of the price book that are cut alike."""
    found: dict[object, list[SheetPlan]] = {}
    for plan in plans:
        places = tuple(
            (p.face.piece, p.face.name, round(p.along_at_mm), round(p.across_at_mm))
            for p in plan.placed
        )
        found.setdefault((plan.sheet.key, places), []).append(plan)
    return list(found.values())


def _tile(plans: Sequence[SheetPlan], wide: float, shared: bool) -> _Tile:
    numbers = ", ".join(str(plan.number) for plan in plans)
    which = f"Sheet {numbers}" if len(plans) == 1 else f"Sheets {numbers}, all alike"
    words = f"{which}: {readable(plans[0].sheet.key)}"
    if shared:
        pieces = dict.fromkeys(placed.face.piece for placed in plans[0].placed)
        words += f", {readable(', '.join(pieces))}"
    return _Tile(plans[0], wrapped(words, wide, _CAPTION))
