"""One sheet, written from the top: lines of cells, heads, notes, and how it prints."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING, Protocol

from pricebook.workbook.cells import Cell, a1
from pricebook.workbook.safe import header_text, quoted, text_fault

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet


LINE_POINTS = 13.2
"""Height of a line of text. [points]"""

PLAIN_POINTS = 15.0
"""Height of a row that is not set. [points]"""

LEAST_POINTS = {"head": 19.0, "group": 21.0, "total": 19.0, "result": 19.0}
"""Height of rows that stand out, so that no rule touches their text. [points]"""

MOST_POINTS = 409.0
"""Height that a row may have. [points]"""

_PIXELS = 7
"""Width of a figure in the font of the sheets, of which 4 make 3 points. [pixels]"""

_LEAST_SCALE = 0.6
"""Type of 10 points, printed this much smaller, is still read with ease."""

_BOLD = 0.86
"""Share of the letters that fit when they are bold."""

_INDENT = 1.5
"""What an indent takes of a column. [characters]"""


def lines_of(words: str, width: float) -> int:
    """Return how many lines a text takes in a column, on the safe side.

    Parameters
    ----------
    words : str
        The text.
    width : float
        Width of the column. [characters]

    Returns
    -------
    int
        Lines. [-]

    Examples
    --------
    >>> lines_of("a short text", 30), lines_of("one two three four", 10)
    (1, 2)
    """
    room = max(1.0, width)
    count = 0
    for paragraph in words.split("\n"):
        count, used = count + 1, 0
        for word in paragraph.split(" "):
            size = len(word)
            if used and used + 1 + size > room:
                count, used = count + 1, 0
            count += max(0, math.ceil(size / room) - 1)
            used += size + (1 if used else 0)
    return count


def _room(width: float, style: str) -> float:
    """Return how many letters of a style a column holds."""
    bold = {"head", "group", "total", "result", "bold"} & set(style.split())
    indent = _INDENT if "right" in style or "inset" in style else 0
    return (width - indent) * (_BOLD if bold else 1)


class Bound(Protocol):
    """What a sheet asks of the workbook that it is bound in."""

    faults: list[str]
    paper: str
    foot: str

    def format(self, names: str) -> Format:
        """Return a style by the words for it."""


class Page:
    """One sheet of a workbook, filled line by line.

    Parameters
    ----------
    book : Bound
        The workbook.
    sheet : Worksheet
        The writer's own sheet.
    name : str
        Its name.
    widths : sequence of float
        Widths of the columns. [characters]
    """

    def __init__(
        self, book: Bound, sheet: Worksheet, name: str, widths: Sequence[float]
    ) -> None:
        self.book = book
        self.sheet = sheet
        self.name = name
        self.widths = tuple(widths)
        self.row = 0
        self._heads: tuple[int, int] = (0, 0)
        self._breaks: list[int] = []
        self.height = 0.0
        for column, width in enumerate(self.widths):
            sheet.set_column(column, column, width, book.format(""))

    @property
    def own(self) -> str:
        """The name of the sheet as formulas write it."""
        return quoted(self.name)

    @property
    def last(self) -> int:
        """The last column, counted from 0."""
        return len(self.widths) - 1

    def title(self, words: str, under: str = "") -> None:
        """Write the title of the sheet, and a line under it."""
        points = 21.0 * lines_of(words, sum(self.widths) / 1.6)
        self.merged(words, "title text", points)
        if under:
            self.note(under, "subtitle text")
        self.skip()

    def heads(self, words: Sequence[str], right: Sequence[int] = ()) -> int:
        """Write the heads of the columns, and repeat them on every page printed."""
        row = self.subheads(words, right)
        self.sheet.freeze_panes(self.row, 0)
        self._heads = (row, row)
        return row

    def subheads(self, words: Sequence[str], right: Sequence[int] = ()) -> int:
        """Write heads further down, which are not repeated."""
        cells = [
            Cell(word, "text right" if column in right else "text")
            for column, word in enumerate(words)
        ]
        return self.line(cells, "head")

    def line(self, cells: Sequence[Cell], look: str = "", points: float = 0) -> int:
        """Write a row of cells, high enough for its text.

        Parameters
        ----------
        cells : sequence of Cell
            From the left.
        look : str
            Style that every cell of the row gets on top of its own.
        points : float
            Least height of the row. [points]

        Returns
        -------
        int
            The row, counted from 0.
        """
        row = self.row
        lines = 1
        for column, cell in enumerate(cells):
            self.put(row, column, cell, look)
            if isinstance(cell.value, str) and "text" in cell.style:
                room = _room(self.widths[column], f"{cell.style} {look}")
                lines = max(lines, lines_of(cell.value, room))
        if look:
            for column in range(len(cells), len(self.widths)):
                self.sheet.write_blank(row, column, None, self.book.format(look))
        least = LEAST_POINTS.get(look, points)
        self._height(row, max(least, lines * LINE_POINTS if lines > 1 else 0))
        self.row += 1
        return row

    def put(self, row: int, column: int, cell: Cell, look: str = "") -> None:
        """Write one cell where it belongs."""
        value, words = cell.value, cell.style
        if value == "" and not cell.formula:
            value, words = None, "" if words == "text" else words
        if value is None and not (words or look):
            return  # the column's own style is there already
        style = self.book.format(f"{words} {look}")
        if cell.formula:
            assert not isinstance(value, date)
            self.sheet.write_formula(row, column, cell.formula, style, value)
        elif value is None:
            self.sheet.write_blank(row, column, None, style)
        elif isinstance(value, str):
            self._text(row, column, value, style)
        elif isinstance(value, date):
            moment = datetime(value.year, value.month, value.day)  # noqa: DTZ001
            self.sheet.write_datetime(row, column, moment, style)
        else:
            self.sheet.write_number(row, column, value, style)

    def _text(self, row: int, column: int, words: str, style: Format) -> None:
        where = f'sheet "{self.name}", cell {a1(row, column)}'
        if fault := text_fault(where, words):
            self.book.faults.append(fault)
        else:
            self.sheet.write_string(row, column, words, style)

    def note(self, words: str, look: str = "note text") -> None:
        """Write a sentence over the whole width of the sheet."""
        lines = lines_of(words, sum(self.widths))
        self.merged(words, look, lines * LINE_POINTS)

    def merged(self, words: str, look: str, points: float) -> None:
        """Write a text over the whole width, in a row of a given height."""
        style = self.book.format(look)
        if self.last:
            self.sheet.merge_range(self.row, 0, self.row, self.last, "", style)
        self._text(self.row, 0, words, style)
        self._height(self.row, points)
        self.row += 1

    def skip(self, rows: int = 1) -> None:
        """Leave rows empty."""
        self.row += rows
        self.height += rows * PLAIN_POINTS

    def new_page(self) -> None:
        """Begin a new page of print here."""
        self._breaks.append(self.row)

    def _height(self, row: int, points: float) -> None:
        if points:
            self.sheet.set_row(row, min(points, MOST_POINTS))
        self.height += points or PLAIN_POINTS

    def _fits(self, landscape: bool) -> bool:
        """Tell whether the sheet may be set on one page without getting too small."""
        paper = (595.0, 842.0) if self.book.paper == "A4" else (612.0, 792.0)
        across, down = paper[::-1] if landscape else paper
        wide = sum(_PIXELS * width + 5 for width in self.widths) * 0.75
        scale = min(1.0, (across - 2 * 36.0) / wide, (down - 2 * 54.0) / self.height)
        return scale >= _LEAST_SCALE

    def done(
        self, head: str, *, landscape: bool = True, fit: bool = True, one: bool = False
    ) -> None:
        """Say how the sheet prints.

        Parameters
        ----------
        head : str
            What stands at the head of every page: the piece, the event.
        landscape : bool
            Whether the page lies on its side.
        fit : bool
            Whether it is made as narrow as a page; else pages break where asked.
        one : bool
            Whether it is set on one page, as long as that can still be read.
        """
        sheet = self.sheet
        sheet.set_paper(9 if self.book.paper == "A4" else 1)
        if landscape:
            sheet.set_landscape()
        else:
            sheet.set_portrait()
        if fit:
            sheet.fit_to_pages(1, int(one and self._fits(landscape)))
            sheet.repeat_rows(*self._heads)
        else:
            sheet.set_h_pagebreaks(self._breaks[:-1])
        sheet.print_area(0, 0, max(self.row - 1, 0), self.last)
        sheet.set_margins(left=0.5, right=0.5, top=0.75, bottom=0.75)
        sheet.set_header(f"&L{header_text(head)}&R{header_text(self.name)}")
        sheet.set_footer(f"&L{header_text(self.book.foot)}&RPage &P of &N")
