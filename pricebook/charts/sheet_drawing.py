"""One sheet to scale: outline, faces, cuts, offcuts, grain and centre line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import Lettering, width_of
from pricebook.charts.sheet_marks import (
    BAND_PT,
    Mark,
    SheetMarks,
    box_on_sheet,
    centre_mm,
    has_centred,
)
from pricebook.charts.style import (
    BLUE,
    FAINT,
    GREEN,
    INK,
    ORANGE,
    PINK,
    RED,
    SKY,
    YELLOW,
    Colour,
    font,
    tint,
)
from pricebook.lengths import show
from pricebook.veneer.layout import SheetPlan

PIECE_COLOURS = (SKY, YELLOW, GREEN, ORANGE, PINK, BLUE, RED)
DIMENSION_PT = 12.0
"""Room for a dimension outside the band of cut numbers. [pt]"""
AROUND_PT = BAND_PT + DIMENSION_PT
CENTRE_DASHES = (10.0, 3.0, 2.0, 3.0)
KEEP_HATCH, WASTE_HATCH = "//", "xxxxx"
_SMALL = 7.0


@dataclass(frozen=True, slots=True)
class Pen:
    """Axes with the place of a sheet's corner on them.

    Parameters
    ----------
    axes : Axes
        Axes in points.
    x, y : float
        The sheet's lower left corner. [pt]
    scale : float
        How many points a millimetre takes. [pt/mm]
    """

    axes: Axes
    x: float
    y: float
    scale: float

    def fill(
        self,
        boxes: Iterable[Box],
        ground: str | Colour,
        *,
        edge: str = "none",
        width: float = 0.0,
        hatch: str | None = None,
    ) -> None:
        """Draw rectangles in one style."""
        corners = [box.moved(self.x, self.y).corners for box in boxes]
        drawn = PolyCollection(
            corners, facecolors=ground, edgecolors=edge, linewidths=width, hatch=hatch
        )
        self.axes.add_collection(drawn, autolim=False)

    def lines(
        self,
        ends: Iterable[tuple[float, float, float, float]],
        width: float,
        *,
        colour: str | Colour = INK,
        dashes: tuple[float, ...] = (),
    ) -> None:
        """Draw straight lines in one style."""
        moved = [
            [(a + self.x, b + self.y), (c + self.x, d + self.y)] for a, b, c, d in ends
        ]
        drawn = LineCollection(
            moved,
            colors=[colour],
            linewidths=width,
            linestyles=[(0, dashes)] if dashes else "solid",
        )
        self.axes.add_collection(drawn, autolim=False)

    def write(self, mark: Mark) -> None:
        """Write words at their place."""
        words = mark.words
        ground = {"facecolor": "white", "edgecolor": "none", "pad": 1.0}
        text = "\n".join(words.lines)
        self.axes.text(
            self.x + mark.x,
            self.y + mark.y,
            text,
            fontproperties=font(words.size, bold=mark.bold, text=text),
            ha="center",
            va="center",
            rotation=90 if words.turned else 0,
            bbox=ground if mark.boxed else None,
        )

    def arrows(self, ends: Iterable[tuple[float, float, float]]) -> None:
        """Draw level lines with a head at both ends."""
        found = list(ends)
        self.lines([(a, y, b, y) for a, b, y in found], 0.7)
        for side, marker in ((0, "<"), (1, ">")):
            self.axes.plot(
                [self.x + end[side] for end in found],
                [self.y + end[2] for end in found],
                linestyle="none",
                marker=marker,
                markersize=2.6,
                color=INK,
            )


def draw_sheet(
    pen: Pen, plan: SheetPlan, marks: SheetMarks, lengths: str, colours: dict[str, int]
) -> None:
    """Draw one sheet with its size and all that is written on it."""
    draw_parts(pen, plan, marks, colours)
    _dimensions(pen, plan, lengths)


def draw_parts(
    pen: Pen, plan: SheetPlan, marks: SheetMarks, colours: dict[str, int]
) -> None:
    """Draw faces, rests, cuts and words of one sheet."""
    scale = pen.scale
    for piece, number in colours.items():
        faces = [p for p in plan.placed if p.face.piece == piece]
        boxes = [box_on_sheet(placed, scale) for placed in faces]
        colour = tint(PIECE_COLOURS[number % len(PIECE_COLOURS)], 0.35)
        pen.fill(boxes, colour, edge=INK, width=0.5)
    for usable, hatch in ((True, KEEP_HATCH), (False, WASTE_HATCH)):
        rests = [box_on_sheet(r, scale) for r in plan.rests if r.usable is usable]
        pen.fill(rests, "white", edge=FAINT, width=0.4, hatch=hatch)
    _frame(pen, plan)
    pen.arrows(marks.arrows)
    for mark in marks.marks:
        pen.write(mark)


def _frame(pen: Pen, plan: SheetPlan) -> None:
    """Draw runs, cuts, the outline, the corner and the figure's centre line."""
    scale = pen.scale
    pen.fill(run_boxes(plan, scale), "none", edge=INK, width=2.0)
    cuts = [
        (c.at_mm, c.start_mm, c.at_mm, c.end_mm)
        if c.direction == "across"
        else (c.start_mm, c.at_mm, c.end_mm, c.at_mm)
        for c in plan.cuts
    ]
    scaled = [(a * scale, b * scale, c * scale, d * scale) for a, b, c, d in cuts]
    pen.lines(scaled, 1.0)
    along, across = plan.sheet.along_mm * scale, plan.sheet.across_mm * scale
    pen.fill([Box(0, 0, along, across)], "none", edge=INK, width=1.6)
    pen.fill([Box(-2.5, -2.5, 2.5, 2.5)], INK)
    if has_centred(plan):
        y = centre_mm(plan) * scale
        ends = [(-BAND_PT, y, along + BAND_PT, y)]
        pen.lines(ends, 0.9, colour=RED, dashes=CENTRE_DASHES)


def _dimensions(pen: Pen, plan: SheetPlan, lengths: str) -> None:
    """Write the sheet's own size outside it, with the way of the grain."""
    along, across = plan.sheet.along_mm * pen.scale, plan.sheet.across_mm * pen.scale
    top = across + BAND_PT + DIMENSION_PT / 2 - 1.0
    words = f"{show(plan.sheet.along_mm, lengths)} along the grain"
    half = width_of(words, _SMALL) / 2 + 4.0
    pen.write(Mark(along / 2, top, Lettering((words,), _SMALL)))
    if along / 2 > half + 8.0:
        middle = along / 2
        pen.arrows([(3.0, middle - half, top), (middle + half, along - 3.0, top)])
    side = show(plan.sheet.across_mm, lengths)
    longer = f"{side} across"
    words = longer if width_of(longer, _SMALL) < across else side
    left = -BAND_PT - DIMENSION_PT / 2 + 1.0
    pen.write(Mark(left, across / 2, Lettering((words,), _SMALL, turned=True)))


def run_boxes(plan: SheetPlan, scale: float) -> list[Box]:
    """Return a rectangle round each matched run that lies in one piece."""
    runs: dict[tuple[str, str], list[Box]] = {}
    for placed in plan.placed:
        if placed.face.run:
            name = (placed.face.piece, placed.face.run)
            runs.setdefault(name, []).append(box_on_sheet(placed, scale))
    return [whole for boxes in runs.values() for whole in _whole(boxes)]


def _whole(boxes: list[Box]) -> list[Box]:
    whole = Box(
        min(box.left for box in boxes),
        min(box.bottom for box in boxes),
        max(box.right for box in boxes),
        max(box.top for box in boxes),
    )
    area = sum(box.width * box.height for box in boxes)
    fills = area > 0.98 * whole.width * whole.height
    return [whole] if len(boxes) > 1 and fills else []
