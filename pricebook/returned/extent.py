"""How far the cells of a sheet reach, found without unpacking the grid."""

from __future__ import annotations

import re
import zipfile
from dataclasses import dataclass, field
from typing import Any
from xml.parsers import expat

from pricebook.errors import ReportError

_REF = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_FAR = re.compile(rb"r=[\"'](?:[A-Z]{3}[0-9]+|[A-Z]+[0-9]{7})[\"']")
_CHUNK = 1 << 20
_OVERLAP = 64


@dataclass(slots=True)
class Extent:
    """The last row and column that hold something.

    Parameters
    ----------
    rows, columns : int
        The last ones, counted from 1.
    farthest : str
        The cell that reaches farthest.
    """

    rows: int = 0
    columns: int = 0
    farthest: str = ""
    _at: str = field(default="", repr=False)
    _row: int = field(default=0, repr=False)
    _column: int = field(default=0, repr=False)
    _last_row: int = field(default=0, repr=False)

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Note where the reading stands, and what is in the cell."""
        name = tag.rpartition(":")[2]
        if name == "row":
            self._start_row(attributes.get("r", ""))
        elif name == "c":
            self._start_cell(attributes.get("r", ""))
        elif name in ("v", "f", "is"):
            self._note()

    def _start_row(self, number: str) -> None:
        self._row = int(number) if number.isdecimal() else self._row + 1
        self._column = 0
        if self._row <= self._last_row:
            raise ReportError(
                f"row {self._row} stands after row {self._last_row}; open the file "
                "in a spreadsheet program and save it again"
            )
        self._last_row = self._row

    def _start_cell(self, ref: str) -> None:
        found = _REF.fullmatch(ref)
        if found is None:
            self._column += 1
            self._at = ""
            return
        self._at, self._row = ref, int(found[2])
        self._column = column_number(found[1])

    def _note(self) -> None:
        if self._row > self.rows or self._column > self.columns:
            self.farthest = self._at or f"{column_letters(self._column)}{self._row}"
        self.rows = max(self.rows, self._row)
        self.columns = max(self.columns, self._column)


def column_number(letters: str) -> int:
    """Return the number of a column.

    Examples
    --------
    >>> column_number("A"), column_number("AA"), column_number("XFD")
    (1, 27, 16384)
    """
    number = 0
    for letter in letters:
        number = 26 * number + ord(letter) - 64
    return number


def column_letters(number: int) -> str:
    """Return the letters of a column.

    Examples
    --------
    >>> column_letters(1), column_letters(27), column_letters(16384)
    ('A', 'AA', 'XFD')
    """
    letters = ""
    while number > 0:
        number, rest = divmod(number - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def extent(archive: zipfile.ZipFile, part: str) -> Extent:
    """Find how far a sheet's cells reach.

    Parameters
    ----------
    archive : ZipFile
        The workbook.
    part : str
        The sheet's part.

    Returns
    -------
    Extent
        Only cells that hold a value or a formula count, not mere formats. What the
        sheet says of its own size is not trusted.

    Raises
    ------
    ReportError
        If rows are out of order.
    """
    found = Extent()
    parser: Any = expat.ParserCreate()
    parser.StartElementHandler = found.start
    with archive.open(part) as stream:
        parser.ParseFile(stream)
    return found


def may_reach_far(archive: zipfile.ZipFile, part: str) -> bool:
    """Tell quickly whether a sheet names a cell near the end of the grid."""
    before = b""
    with archive.open(part) as stream:
        while chunk := stream.read(_CHUNK):
            if _FAR.search(before + chunk):
                return True
            before = chunk[-_OVERLAP:]
    return False
