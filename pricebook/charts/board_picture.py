"""The board's report on one page, A4 or US Letter, readable without colour."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from pricebook.charts.board_foot import (
    LIMITS,
    Limits,
    cautions,
    controls,
    owed,
    said,
    sign_off,
    year_so_far,
)
from pricebook.charts.lettering import MARK
from pricebook.charts.page_lines import (
    SIZE,
    SMALL,
    Column,
    Line,
    gap,
    heading,
    height_of_all,
    noted,
    paragraph,
    place,
    table,
)
from pricebook.charts.style import DPI, PT_PER_IN, house, title_of
from pricebook.errors import SpecError, nearest
from pricebook.event import Amount, BoardReport, Compared, PieceRow
from pricebook.money import show
from pricebook.records import Year

PAPERS = {"Letter": (612.0, 792.0), "A4": (595.2756, 841.8898)}
"""Width and height. [pt]"""
_MARGIN_PT = 36.0
_BETWEEN_PT = 16.0
_FIGURE_PT = 62.0
_LEAST_PIECES_PT = 60.0
_MARKED = (
    f"{MARK} stands for a letter that no font of the machine that drew this page has; "
    "the workbook holds it."
)
_MOST_PIECES = 80
"""More than a page holds."""


def board_page(
    report: BoardReport, *, year: Year | None = None, paper: str = "Letter"
) -> Figure:
    """Set the board's report on one page.

    Parameters
    ----------
    report : BoardReport
        The report.
    year : Year, optional
        The events of the year, this one among them.
    paper : {"Letter", "A4"}
        The sheet of paper.

    Returns
    -------
    Figure
        The page. What does not fit is counted and said to be in the workbook;
        every amount is rounded to whole units once, from its cents.

    Raises
    ------
    SpecError
        If the paper is not known.
    """
    if paper not in PAPERS:
        raise SpecError(f'paper "{paper}" is not known; {nearest(str(paper), PAPERS)}')
    width, height = PAPERS[paper]
    figure = Figure(figsize=(width / PT_PER_IN, height / PT_PER_IN), dpi=DPI)
    FigureCanvasAgg(figure)
    figure.set_label(f"{report.title}, {report.held_on}: report to the board")
    axes = figure.add_axes((0, 0, 1, 1), label="page")
    axes.set_xlim(0, width)
    axes.set_ylim(0, height)
    axes.set_axis_off()
    with house():
        _fill(axes, report, year, width, height)
    return figure


def pdf_bytes(figure: Figure) -> bytes:
    """Return a page as a PDF; the same page gives the same bytes.

    Parameters
    ----------
    figure : Figure
        A page of this package.

    Returns
    -------
    bytes
        The file's contents.
    """
    if not isinstance(figure, Figure):
        raise SpecError(f"{figure!r} is no page; give what a chart returned.")
    kept = {
        "Title": title_of(figure),
        "Creator": None,
        "Producer": None,
        "CreationDate": None,
    }
    buffer = io.BytesIO()
    with house():
        figure.savefig(buffer, format="pdf", metadata=kept)
    return buffer.getvalue()


def _fill(
    axes: Axes, report: BoardReport, year: Year | None, width: float, height: float
) -> None:
    """Place everything but the pieces from both ends, then the pieces between."""
    full = width - 2 * _MARGIN_PT
    half = (full - _BETWEEN_PT) / 2
    left, right = _MARGIN_PT, _MARGIN_PT + half + _BETWEEN_PT
    top = place(axes, _title(report, full), left, height - _MARGIN_PT)
    top = min(
        place(axes, _money(report, half), left, top),
        place(axes, _beside(report, half), right, top),
    )
    room = top - _MARGIN_PT
    is_marked = _is_marked(report, year, full)
    for limits in LIMITS:
        foot = _foot(report, year, full, limits)
        if is_marked:
            foot.below[:0] = paragraph(_MARKED, full, size=SMALL, most=1)
        if room - foot.height >= _LEAST_PIECES_PT:
            break
    room -= foot.height
    top = place(axes, _pieces(report, full, room), left, top)
    top = min(
        place(axes, foot.left, left, top),
        place(axes, foot.right, right, top),
    )
    place(axes, foot.below, left, top)


def _is_marked(report: BoardReport, year: Year | None, full: float) -> bool:
    """Tell whether some letter of the page has no font on this machine."""
    foot = _foot(report, year, full, LIMITS[0])
    lines = [*_title(report, full), *_money(report, full), *_beside(report, full)]
    lines += [*_pieces(report, full, math.inf), *foot.left, *foot.right, *foot.below]
    return any(MARK in cell.text for line in lines for cell in line.cells)


@dataclass(frozen=True, slots=True)
class _Foot:
    """What stands below the pieces: two columns, then the whole width."""

    left: list[Line]
    right: list[Line]
    below: list[Line]

    @property
    def height(self) -> float:
        """What it takes of the page. [pt]."""
        columns = max(height_of_all(self.left), height_of_all(self.right))
        return columns + height_of_all(self.below)


def _foot(report: BoardReport, year: Year | None, full: float, limits: Limits) -> _Foot:
    half = (full - _BETWEEN_PT) / 2
    becomes = "Not sold, and what becomes of it"
    return _Foot(
        left=said("Unpaid, and to be paid back", owed(report), half, limits.said),
        right=said(becomes, report.unsold, half, limits.said),
        below=[
            *year_so_far(year, full, limits.rows),
            *controls(report, full, limits.said),
            *cautions(report, full, limits.caution_lines),
            *sign_off(report, full, limits.signed),
        ],
    )


def _title(report: BoardReport, width: float) -> list[Line]:
    name = f"{report.title}, {report.held_on}: report to the board"
    return [
        *paragraph(name, width, size=13.0, bold=True, most=2),
        *paragraph(report.charity, width, size=SIZE, most=1),
        gap(2.0),
        *paragraph(report.verdict, width, bold=True, most=3),
    ]


def _amounts(rows: Sequence[Amount], width: float) -> list[Line]:
    return [
        line
        for row in rows
        for line in noted(
            row.label.strip(),
            [show(row.cents), f"{row.whole:,}"],
            row.how,
            width,
            _FIGURE_PT,
        )
    ]


def _money(report: BoardReport, width: float) -> list[Line]:
    return [
        *heading("Cash: to the cent, and in whole units", width),
        *_amounts(report.money, width),
        *heading("Given, at stated value: never in the cash figures", width),
        *_amounts(report.gifts_and_hours, width),
    ]


def _compared(rows: Sequence[Compared], width: float) -> list[Line]:
    return [
        line
        for row in rows
        for line in noted(row.label, [row.figure or "none"], row.how, width, _FIGURE_PT)
    ]


def _beside(report: BoardReport, width: float) -> list[Line]:
    lines = [*heading("Cost to raise a dollar", width), *_compared(report.rates, width)]
    if report.net_pays_for:
        lines += heading("What the net pays for", width)
        for row in report.net_pays_for[:3]:
            lines += paragraph(row.words, width, most=3)
    if report.forecast:
        lines += heading("Forecast against what came", width)
        lines += _compared(report.forecast, width)
    return lines


_PIECES = (
    Column("lot", 26.0),
    Column("title", 128.0),
    Column("state", 47.0),
    Column("hammer", 48.0, right=True),
    Column("value", 44.0, right=True),
    Column("estimate", 72.0, right=True),
    Column("", 42.0, right=True),
    Column("charity", 46.0, right=True),
    Column("used up", 42.0, right=True),
    Column("full cost", 45.0, right=True),
)


def _pieces(report: BoardReport, width: float, room: float) -> list[Line]:
    spare = width - sum(column.width for column in _PIECES)
    columns = [
        replace(c, width=c.width + spare) if c.head == "title" else c for c in _PIECES
    ]
    lines = heading("Each piece, whole units: the money, its estimate, its cost", width)
    shown = [_piece(row) for row in report.pieces[:_MOST_PIECES]]
    head, *rows = table(columns, shown)
    rest = paragraph("and 9,999 more in the workbook", width, size=SMALL)
    room -= height_of_all([*lines, *head, *rest])
    taken = accumulate(height_of_all(row) for row in rows)
    kept = sum(height <= room for height in taken)
    lines += [*head, *(line for row in rows[:kept] for line in row)]
    if kept < len(report.pieces):
        more = f"and {len(report.pieces) - kept:,} more in the workbook"
        lines += paragraph(more, width, size=SMALL, most=1)
    return lines


def _piece(row: PieceRow) -> tuple[str, ...]:
    low, high = row.estimate_low_cents, row.estimate_high_cents
    estimate = f"{_whole(low)} to {_whole(high)}" if low is not None else ""
    state = "unpaid" if row.state == "sold" and not row.is_paid else row.state
    return (
        row.lot,
        row.title,
        state,
        _whole(row.hammer_cents),
        _whole(row.fair_market_value_cents),
        estimate,
        row.against_estimate,
        _whole(row.charity_cents),
        _whole(row.used_up_cents),
        _whole(row.full_cents),
    )


def _whole(cents: int | None) -> str:
    return "" if cents is None else f"{Amount(label='', cents=cents).whole:,}"
