"""A page of text set in columns: lines are made first, then placed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes

from pricebook.charts.lettering import readable, width_of, wrapped
from pricebook.charts.style import INK, font

SIZE, SMALL, HEAD = 7.5, 6.5, 8.5
_LEAD = 1.27
_GAP_PT = 6.0


@dataclass(frozen=True, slots=True)
class Cell:
    """A text on a line.

    Parameters
    ----------
    at : float
        Where it begins, or ends if it is set to the right. [pt]
    text : str
        The text; it fits.
    right, bold : bool
        How it is set.
    """

    at: float
    text: str
    right: bool = False
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a page.

    Parameters
    ----------
    cells : tuple of Cell
        Its texts.
    size : float
        Size of the type. [pt]
    rule : float
        Width of a rule below it, 0 for none. [pt]
    """

    cells: tuple[Cell, ...] = ()
    size: float = SIZE
    rule: float = 0.0

    @property
    def height(self) -> float:
        """What it takes of the page. [pt]."""
        return self.size * _LEAD + (2.0 if self.rule else 0.0)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table on a page.

    Parameters
    ----------
    head : str
        Its head.
    width : float
        How wide it is. [pt]
    right : bool
        Whether it is set to the right: figures.
    """

    head: str
    width: float
    right: bool = False


def height_of_all(lines: Sequence[Line]) -> float:
    """Return how much of the page some lines take. [pt]."""
    return sum(line.height for line in lines)


def gap(height: float = 5.0) -> Line:
    """Return an empty line of a height. [pt]."""
    return Line((), height / _LEAD)


def heading(text: str, width: float) -> list[Line]:
    """Return a heading with a rule below it."""
    return [
        gap(),
        Line(
            (Cell(0.0, _short(text, width, HEAD, bold=True), bold=True),), HEAD, width
        ),
    ]


def paragraph(
    text: str, width: float, *, size: float = SIZE, bold: bool = False, most: int = 3
) -> list[Line]:
    """Break a text into lines; what is too long ends in three points."""
    found = _capped(text, width, size, bold, most)
    return [Line((Cell(0.0, line, bold=bold),), size) for line in found]


def noted(
    label: str, figures: Sequence[str], how: str, width: float, figure_width: float
) -> list[Line]:
    """Return a label, its figures to the right, and small below it what they mean."""
    room = width - len(figures) * figure_width
    rows = _capped(label, room - _GAP_PT, SIZE, False, 2)
    cells = [Cell(0.0, rows[0])]
    cells += [
        Cell(
            room + (n + 1) * figure_width, _short(text, figure_width, SIZE), right=True
        )
        for n, text in enumerate(figures)
    ]
    more = [Line((Cell(0.0, text),)) for text in rows[1:]]
    below = _capped(how, width - 8.0, SMALL, False, 2) if how else ()
    return [Line(tuple(cells)), *more, *(Line((Cell(8.0, t),), SMALL) for t in below)]


def table(
    columns: Sequence[Column], rows: Sequence[Sequence[str]], *, size: float = SMALL
) -> list[list[Line]]:
    """Set a table, its head first; a list of lines for each row.

    Parameters
    ----------
    columns : sequence of Column
        The columns, from the left.
    rows : sequence of sequence of str
        The cells.
    size : float
        Size of the type. [pt]

    Returns
    -------
    list of lists of Line
        Head, then the rows; a cell takes two lines at most.
    """
    head = _row(columns, [column.head for column in columns], size, bold=True)
    width = sum(column.width for column in columns)
    last = Line(head[-1].cells, size, width)
    return [[*head[:-1], last], *(_row(columns, row, size) for row in rows)]


def _row(
    columns: Sequence[Column], cells: Sequence[str], size: float, bold: bool = False
) -> list[Line]:
    texts = [
        _capped(text, column.width - _GAP_PT, size, bold, 2)
        for column, text in zip(columns, cells, strict=True)
    ]
    deepest = max(len(rows) for rows in texts)
    lines: list[list[Cell]] = [[] for _ in range(deepest)]
    left = 0.0
    for column, rows in zip(columns, texts, strict=True):
        at = left + column.width if column.right else left
        for number, text in enumerate(rows):
            lines[number].append(Cell(at, text, column.right, bold))
        left += column.width
    return [Line(tuple(line), size) for line in lines]


def _capped(
    text: str, width: float, size: float, bold: bool, most: int
) -> tuple[str, ...]:
    lines = wrapped(readable(text), width, size, bold=bold) or ("",)
    if len(lines) <= most:
        return lines
    last = _short(" ".join(lines[most - 1 : most + 1]), width, size, bold=bold)
    return (*lines[: most - 1], last)


def _short(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return a text that fits, three points in place of what does not."""
    kept = readable(text)
    if width_of(kept, size, bold=bold) <= width:
        return kept
    while kept and width_of(f"{kept} ...", size, bold=bold) > width:
        kept = kept[: len(kept) - max(1, len(kept) // 40)].rstrip()
    return f"{kept} ..."


def place(axes: Axes, lines: Sequence[Line], left: float, top: float) -> float:
    """Draw lines downwards from a point.

    Parameters
    ----------
    axes : Axes
        A page in points.
    lines : sequence of Line
        The lines.
    left, top : float
        Where they begin. [pt]

    Returns
    -------
    float
        Where the next thing may begin. [pt]
    """
    for line in lines:
        base = top - line.size * 0.95
        for cell in line.cells:
            axes.text(
                left + cell.at,
                base,
                cell.text,
                fontproperties=font(line.size, bold=cell.bold, text=cell.text),
                ha="right" if cell.right else "left",
                va="baseline",
            )
        top -= line.height
        if line.rule:
            axes.plot(
                [left, left + line.rule], [top + 1.4] * 2, color=INK, linewidth=0.5
            )
    return top
