"""A result at every pair of two figures, as a table with tinted cells."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.collections import PolyCollection
from matplotlib.figure import Figure

from pricebook.charts.boxes import Box
from pricebook.charts.lettering import readable, width_of, wrapped
from pricebook.charts.style import (
    EDGE_PT,
    INK,
    SKY,
    TITLE_LINE_PT,
    WIDTH_PT,
    font,
    house,
    page,
    tint,
    title_lines,
)
from pricebook.errors import SpecError
from pricebook.frames.drivers import Pairs, grid_sentence, in_money, pair_words

_HEAD_SIZE = 8.0
_CELL_PT = 20.0
_LINE_PT = 11.0
_ROW_NAME_PT = 90.0
_GAP_PT = 8.0


@dataclass(frozen=True, slots=True)
class _Cells:
    """The words of a grid, and where they go."""

    rows: tuple[str, ...]
    columns: tuple[str, ...]
    results: tuple[tuple[str, ...], ...]
    across: tuple[str, ...]
    down: tuple[str, ...]

    @property
    def left(self) -> float:
        """Left end of the cells. [pt]."""
        words = (*self.down, *self.rows)
        return EDGE_PT + 12.0 + max(width_of(w, _HEAD_SIZE, bold=True) for w in words)

    @property
    def wide(self) -> float:
        """Width of a cell. [pt]."""
        return (WIDTH_PT - EDGE_PT - self.left) / len(self.columns)

    @property
    def heads_pt(self) -> float:
        """Height of the heads above the cells, and of the gap over them. [pt]."""
        down = max(20.0, len(self.down) * _LINE_PT + 6.0)
        return _GAP_PT + len(self.across) * _LINE_PT + down

    @property
    def size(self) -> float:
        """Size of type that fits every cell. [pt]."""
        every = [*self.columns, *(word for row in self.results for word in row)]
        for size in (8.0, 7.0, 6.5):
            if all(width_of(w, size, bold=True) <= self.wide - 4.0 for w in every):
                return size
        raise SpecError(
            "so many columns of such numbers do not fit on a page; give fewer values."
        )

    def box(self, row: int, column: int, top: float) -> Box:
        """Return the place of a cell."""
        x, y = self.left + column * self.wide, top - (row + 1) * _CELL_PT
        return Box(x, y, x + self.wide, y + _CELL_PT)


@house()
def grid(values: Pairs, *, words_of: Callable[[float], str] = in_money) -> Figure:
    """Draw a result at every pair of two figures, as a table with tinted cells.

    Parameters
    ----------
    values : Pairs
        The results.
    words_of : callable
        Prints a result; money in cents by default.

    Returns
    -------
    Figure
        The number stands in each cell; a darker cell is a higher result.

    Raises
    ------
    SpecError
        If the numbers are too many or too long for the width of a page.
    """
    title = grid_sentence(values, words_of)
    rows, columns = pair_words(values)
    cells = _Cells(
        rows=rows,
        columns=columns,
        results=tuple(tuple(map(words_of, row)) for row in values.results),
        across=wrapped(readable(values.column_name), 300.0, _HEAD_SIZE, bold=True),
        down=wrapped(readable(values.row_name), _ROW_NAME_PT, _HEAD_SIZE, bold=True),
    )
    size = cells.size
    head = EDGE_PT + len(title_lines(title)) * TITLE_LINE_PT + cells.heads_pt
    figure, axes, top = page(head + _CELL_PT * len(cells.rows) + EDGE_PT, title)
    under = top - cells.heads_pt
    _tint_cells(axes, values, cells, under)
    _write_heads(axes, cells, top, size)
    for row, words in enumerate(cells.results):
        for column, word in enumerate(words):
            x, y = cells.box(row, column, under).middle
            axes.text(x, y, word, fontproperties=font(size), ha="center", va="center")
    return figure


def _write_heads(axes: Axes, cells: _Cells, top: float, size: float) -> None:
    under = top - cells.heads_pt
    middle = (cells.left + WIDTH_PT - EDGE_PT) / 2
    _bold(axes, (middle, top - _GAP_PT), cells.across, ("center", "top"))
    _bold(axes, (cells.left - 6.0, under + 4.0), cells.down, ("right", "bottom"))
    for number, words in enumerate(cells.rows):
        y = cells.box(number, 0, under).middle[1]
        _bold(axes, (cells.left - 6.0, y), (words,), ("right", "center"))
    for number, words in enumerate(cells.columns):
        x = cells.box(0, number, under).middle[0]
        _bold(axes, (x, under + 4.0), (words,), ("center", "bottom"), size)


def _bold(
    axes: Axes,
    at: tuple[float, float],
    lines: Sequence[str],
    stands: tuple[str, str],
    size: float = _HEAD_SIZE,
) -> None:
    (x, y), (ha, va) = at, stands
    words = "\n".join(lines)
    axes.text(
        x, y, words, fontproperties=font(size, bold=True, text=words), ha=ha, va=va
    )


def _tint_cells(axes: Axes, values: Pairs, cells: _Cells, top: float) -> None:
    """Tint each cell by its result, the highest darkest."""
    results = [result for row in values.results for result in row]
    low, span = min(results), (max(results) - min(results)) or 1.0
    boxes = [
        cells.box(row, column, top).corners
        for row in range(len(cells.rows))
        for column in range(len(cells.columns))
    ]
    tints = [tint(SKY, 0.75 * (result - low) / span) for result in results]
    drawn = PolyCollection(boxes, facecolors=tints, edgecolors=INK, linewidths=0.5)
    axes.add_collection(drawn, autolim=False)
