"""The layout as pictures: one a sheet, and all sheets on one page."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import Lettering, readable, width_of, wrapped
from pricebook.charts.sheet_drawing import (
    AROUND_PT,
    CENTRE_DASHES,
    KEEP_HATCH,
    WASTE_HATCH,
    Pen,
    draw_sheet,
    run_boxes,
)
from pricebook.charts.sheet_marks import Mark, has_centred, marks_on
from pricebook.charts.style import (
    EDGE_PT,
    FAINT,
    INK,
    RED,
    TITLE_LINE_PT,
    WIDTH_PT,
    font,
    house,
    page,
    title_lines,
)
from pricebook.errors import LayoutError
from pricebook.veneer.layout import Layout, SheetPlan

_TALLEST_PT = 430.0
_NOTE, _NOTE_LINE_PT = 7.5, 10.0
_KEY_PT = 16.0


@house()
def layout_figure(plan: SheetPlan, lengths: str) -> Figure:
    """Draw one sheet to scale, as it is cut.

    Parameters
    ----------
    plan : SheetPlan
        The sheet.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    Figure
        Outline, faces with name and size as cut, grain arrows, cuts numbered in
        bench order, offcuts hatched with their sizes, waste cross-hatched, and the
        centre line of the figure where a face is centred on it.

    Notes
    -----
    What has no room for its name gets a letter and a line below the drawing; what
    has no room for a letter is told by its place. Names are broken, turned and set
    down to 6.5 pt, never smaller.
    """
    scale = _scale(plan, WIDTH_PT - 2 * EDGE_PT - 2 * AROUND_PT, _TALLEST_PT)
    marks = marks_on(plan, scale, lengths)
    title = _title(plan)
    notes = [_about(plan), *marks.legend]
    columns = _columns(notes)
    deep = max(len(column) for column in columns) * _NOTE_LINE_PT
    tall = plan.sheet.across_mm * scale + 2 * AROUND_PT
    head = EDGE_PT + len(title_lines(title)) * TITLE_LINE_PT
    figure, axes, top = page(head + tall + _KEY_PT + deep + EDGE_PT, title)
    left = (WIDTH_PT - plan.sheet.along_mm * scale) / 2
    pen = Pen(axes, left, top - tall + AROUND_PT, scale)
    pieces = dict.fromkeys(placed.face.piece for placed in plan.placed)
    draw_sheet(pen, plan, marks, lengths, {p: i for i, p in enumerate(pieces)})
    _key(axes, plan, top - tall - _KEY_PT / 2)
    _write_columns(axes, columns, top - tall - _KEY_PT)
    return figure


def layout_figures(layout: Layout, lengths: str) -> tuple[Figure, ...]:
    """Draw every sheet of a layout.

    Parameters
    ----------
    layout : Layout
        The plan of all sheets.
    lengths : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    tuple of Figure
        One a sheet, in bench order; see `layout_figure`.

    Raises
    ------
    LayoutError
        If there is no sheet to draw.
    """
    if not layout.sheets:
        raise LayoutError(
            "the layout has no sheet to draw; a piece without veneer needs none."
        )
    return tuple(layout_figure(plan, lengths) for plan in layout.sheets)


def _scale(plan: SheetPlan, width: float, height: float) -> float:
    return min(width / plan.sheet.along_mm, height / plan.sheet.across_mm)


def _title(plan: SheetPlan) -> str:
    count = len(plan.placed)
    faces = "1 face" if count == 1 else f"{count} faces"
    sheet = plan.sheet
    told = sheet.species.casefold().split()[-1:] == [sheet.veneer]
    veneer = sheet.species if told else f"{sheet.species} {sheet.veneer}"
    return f"Sheet {plan.number}, {veneer} veneer, gives {faces}."


def _about(plan: SheetPlan) -> str:
    where = "from the rack" if plan.from_rack else "to buy"
    return (
        f"{readable(plan.sheet.key)}, {where}. Sizes are as cut, overhang included, "
        "along x across the grain; places are measured from the marked corner."
    )


def _columns(notes: list[str]) -> list[list[str]]:
    """Set the first note across the page and the others in two columns."""
    whole, half = WIDTH_PT - 2 * EDGE_PT, WIDTH_PT / 2 - 1.5 * EDGE_PT
    first = list(wrapped(notes[0], whole, _NOTE))
    columns: list[list[str]] = [first.copy(), [""] * len(first)]
    for note in notes[1:]:
        shorter = min(columns, key=len)
        shorter += wrapped(readable(note), half, _NOTE)
    return columns


def _write_columns(axes: Axes, columns: list[list[str]], top: float) -> None:
    for number, lines in enumerate(columns):
        x = EDGE_PT + number * (WIDTH_PT / 2 - EDGE_PT / 2)
        for row, line in enumerate(lines):
            y = top - (row + 0.5) * _NOTE_LINE_PT
            if line:
                axes.text(
                    x, y, line, fontproperties=font(_NOTE, text=line), va="center"
                )


def _key(axes: Axes, plan: SheetPlan, y: float) -> None:
    """Explain the drawing's own signs in one row."""
    x = EDGE_PT
    for sign, words in _signs(plan):
        pen = Pen(axes, x, y, 1.0)
        _draw_sign(pen, sign)
        axes.text(x + 24.0, y, words, fontproperties=font(7.0), va="center")
        x += 24.0 + width_of(words, 7.0) + 10.0


def _signs(plan: SheetPlan) -> list[tuple[str, str]]:
    found = [("corner", "corner"), ("arrow", "grain")]
    if plan.cuts:
        found.append(("cut", "cut, in order"))
    if any(rest.usable for rest in plan.rests):
        found.append((KEEP_HATCH, "offcut to keep"))
    if any(not rest.usable for rest in plan.rests):
        found.append((WASTE_HATCH, "waste"))
    if run_boxes(plan, 1.0):
        found.append(("run", "matched run"))
    if has_centred(plan):
        found.append(("centre", "centre of the figure"))
    return found


def _draw_sign(pen: Pen, sign: str) -> None:
    box = Box(0, -4, 20, 4)
    if sign == "corner":
        pen.fill([Box(8, -2.5, 13, 2.5)], INK)
    elif sign == "arrow":
        pen.arrows([(1.0, 19.0, 0.0)])
    elif sign == "cut":
        pen.lines([(0, 0, 20, 0)], 1.0)
        pen.write(Mark(10, 0, Lettering(("1",), 6.5), boxed=True, bold=True))
    elif sign == "centre":
        pen.lines([(0, 0, 20, 0)], 0.9, colour=RED, dashes=CENTRE_DASHES)
    elif sign == "run":
        pen.fill([box], "none", edge=INK, width=2.0)
    else:
        pen.fill([box], "white", edge=FAINT, width=0.4, hatch=sign)
