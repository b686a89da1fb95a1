"""Open a workbook that came back and hand out its sheets cell by cell."""

from __future__ import annotations

import io
import warnings
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import ParseError
from xml.parsers.expat import ExpatError

from pricebook.errors import ReportError
from pricebook.returned.cells import Cell
from pricebook.returned.extent import (
    Extent,
    column_letters,
    extent,
    may_reach_far,
)
from pricebook.returned.package import BROKEN_ARCHIVE, read_package

MOST_COLUMNS = 500
MOST_ROWS = 60_000
MOST_ROWS_ANY_SHEET = 1_000_000
_KINDS = {"s": "text", "n": "number", "b": "yes or no", "d": "date", "f": "formula"}
_KINDS |= {"e": "error", "inlineStr": "text"}
_BROKEN = (
    *BROKEN_ARCHIVE, ArithmeticError, AssertionError, AttributeError, LookupError,
    TypeError, ParseError, ExpatError,
)  # fmt: skip
"""What a reader of workbooks raises on a broken one."""


@contextmanager
def broken_is_named(path: Path) -> Iterator[None]:
    """Turn whatever a broken part raises into one sentence, without noise."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # other programs' dialects, not our concern
        try:
            yield
        except ReportError:
            raise
        except _BROKEN as error:
            raise ReportError(
                f"{path} is damaged inside ({type(error).__name__}); open it in a "
                "spreadsheet program, save it again as .xlsx, and give that file."
            ) from None


class Book:
    """A workbook that came back, open for reading.

    Parameters
    ----------
    path : Path
        The file; its bytes are read once, so it is never locked nor written to.

    Raises
    ------
    ReportError
        If it is not a sound .xlsx workbook.
    """

    def __init__(self, path: Path) -> None:
        import openpyxl

        self.path = path
        data = read_package(path)
        with broken_is_named(path):
            self._archive = zipfile.ZipFile(io.BytesIO(data))
            self._book: Any = openpyxl.load_workbook(
                io.BytesIO(data), read_only=True, keep_links=False
            )
            self._sheets = {
                sheet.title: sheet
                for sheet in self._book.worksheets
                if hasattr(sheet, "_worksheet_path")
            }

    @property
    def names(self) -> tuple[str, ...]:
        """Names of its sheets."""
        return tuple(self._sheets)

    def close(self) -> None:
        """Let go of the file's bytes."""
        self._book.close()
        self._archive.close()

    def far_faults(self, names: Iterable[str]) -> Iterator[str]:
        """Find cells so far out that a sheet could not be read to its end."""
        for name in names:
            part = self._sheets[name]._worksheet_path
            with broken_is_named(self.path):
                if not may_reach_far(self._archive, part):
                    continue
                found = extent(self._archive, part)
            if found.columns > MOST_COLUMNS or found.rows > MOST_ROWS_ANY_SHEET:
                yield self._far_fault(name, found)

    def rows(self, name: str, most_rows: int = MOST_ROWS) -> list[tuple[Cell, ...]]:
        """Return the rows of a sheet that hold something.

        Parameters
        ----------
        name : str
            The sheet.
        most_rows : int
            The last row that may hold something.

        Returns
        -------
        list of tuple of Cell
            Rows from the top; the cells of each from column A.

        Raises
        ------
        ReportError
            If a cell stands beyond the last row or column allowed.
        """
        sheet = self._sheets[name]
        with broken_is_named(self.path):
            try:
                reach = extent(self._archive, sheet._worksheet_path)
            except ReportError as error:
                raise ReportError(f'{self.path}: sheet "{name}": {error}.') from None
            if reach.columns > MOST_COLUMNS or reach.rows > most_rows:
                raise ReportError(self._far_fault(name, reach))
            if not reach.rows:
                return []
            found = sheet.iter_rows(
                min_row=1, max_row=reach.rows, min_col=1, max_col=reach.columns
            )
            every = [_cells(number, row) for number, row in enumerate(found, start=1)]
        return [row for row in every if any(cell.kind != "empty" for cell in row)]

    def _far_fault(self, name: str, reach: Extent) -> str:
        return (
            f'{self.path}: sheet "{name}", cell {reach.farthest}: found something far '
            "outside the table; delete what stands there and save the file again."
        )


def _cells(number: int, row: Sequence[Any]) -> tuple[Cell, ...]:
    return tuple(
        _cell(f"{column_letters(column)}{number}", cell.value, cell.data_type)
        for column, cell in enumerate(row, start=1)
    )


def _cell(ref: str, value: object, data_type: str) -> Cell:
    if value is None:
        return Cell(ref)
    kind = _KINDS.get(data_type, "text")
    if kind == "formula":
        value = getattr(value, "text", value)  # an array formula is an object
    return Cell(ref, value, kind)
