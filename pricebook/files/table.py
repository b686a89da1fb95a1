"""A CSV file that is changed row by row, everything else kept as it was written."""

from __future__ import annotations

import csv
import io
import os
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from pricebook.errors import ReportError, TableError
from pricebook.files.opening import read_text, without_comments


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One row as it stands in the file, or a comment or an empty line.

    Parameters
    ----------
    raw : str
        The text with its line ending.
    cells : mapping of str to str, or None
        Cells by column, blanks stripped; None for anything that is no row.
    """

    raw: str
    cells: Mapping[str, str] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The text of a CSV file, record by record.

    Parameters
    ----------
    path : Path
        The file.
    text : str
        What it said when it was read.
    head : tuple of str
        Its columns.
    records : tuple of Record
        Rows, comments and empty lines in their order, the row of columns too.
    ending : str
        How its lines end.
    """

    path: Path
    text: str
    head: tuple[str, ...]
    records: tuple[Record, ...]
    ending: str = "\n"

    def rows(self) -> Iterator[tuple[int, Mapping[str, str]]]:
        """Yield each row's place among the records, and its cells."""
        for place, record in enumerate(self.records):
            if record.cells is not None:
                yield place, record.cells

    def cells(self, place: int) -> Mapping[str, str]:
        """Return the cells of the row at a place among the records."""
        return self.records[place].cells or {}

    def with_cells(self, place: int, **cells: str) -> Table:
        """Return the table with some cells of one row changed.

        Parameters
        ----------
        place : int
            The row's place among the records.
        **cells : str
            New text by column.

        Returns
        -------
        Table
            Every other row, comment and empty line is as it was.
        """
        new = {**self.cells(place), **cells}
        record = Record(raw=self._line(new), cells=new)
        records = (*self.records[:place], record, *self.records[place + 1 :])
        return replace(self, records=records)

    def with_row(self, **cells: str) -> Table:
        """Return the table with a row more at its end.

        Parameters
        ----------
        **cells : str
            Text by column; columns left out are empty.

        Returns
        -------
        Table
            The table.
        """
        last = self.records[-1]
        first = self.records[:-1]
        if not last.raw.endswith(("\n", "\r")):
            last = replace(last, raw=last.raw + self.ending)
        new = Record(raw=self._line(cells), cells=cells)
        return replace(self, records=(*first, last, new))

    def _line(self, cells: Mapping[str, str]) -> str:
        out = io.StringIO()
        writer = csv.writer(out, lineterminator=self.ending)
        writer.writerow([cells.get(column, "") for column in self.head])
        return out.getvalue()

    def __str__(self) -> str:
        """Return the whole text."""
        return "".join(record.raw for record in self.records)


def read_table(path: Path) -> Table:
    """Read a CSV file so that it can be changed and written back.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    Table
        Its rows, comments and empty lines.

    Raises
    ------
    TableError
        If it cannot be read.
    """
    text = read_text(path)
    records: list[Record] = []
    head: tuple[str, ...] = ()
    for raw, cells in _parsed(path, text):
        if cells is None:
            records.append(Record(raw=raw, cells=None))
        elif not head:
            head = tuple(cells)
            records.append(Record(raw=raw, cells=None))
        else:
            found = dict(zip(head, cells, strict=False))
            records.append(Record(raw=raw, cells=found))
    ending = "\r\n" if "\r\n" in text else "\n"
    return Table(path=path, text=text, head=head, records=tuple(records), ending=ending)


def _parsed(path: Path, text: str) -> Iterator[tuple[str, list[str] | None]]:
    """Yield the text of each record with its cells; None for what is no row."""
    lines = list(io.StringIO(text, newline=""))
    reader = csv.reader(without_comments(text), strict=True)
    before = 0
    try:
        for cells in reader:
            raw = "".join(lines[before : reader.line_num])
            before = reader.line_num
            stripped = [cell.strip() for cell in cells]
            yield raw, stripped if any(stripped) else None
    except csv.Error as error:
        raise TableError(f"{path} line {reader.line_num}: not CSV ({error}).") from None


def write_all(tables: Iterable[Table]) -> None:
    """Write several changed files so that all of them change, or none.

    Parameters
    ----------
    tables : iterable of Table
        The files as they shall be.

    Raises
    ------
    ReportError
        If one cannot be written, or no longer says what it said when it was read.

    Notes
    -----
    All are written beside their files first and renamed then; where a rename
    fails, those before it are put back.
    """
    changed = list(tables)
    parts: list[tuple[Path, Path, bytes]] = []
    try:
        for table in changed:
            path = table.path.resolve()
            parts.append((path, *_beside(table, path)))
        _rename_all(parts)
    except OSError as error:
        name = error.filename or changed[0].path
        raise ReportError(
            f"{name} cannot be written: {error.strerror}; nothing was changed."
        ) from None
    finally:
        for _, part, _ in parts:
            part.unlink(missing_ok=True)


def _beside(table: Table, path: Path) -> tuple[Path, bytes]:
    """Write a table beside its file; return where, and what the file says now."""
    before = path.read_bytes()
    if before.decode("utf-8-sig") != table.text:
        raise ReportError(
            f"{table.path} was changed while it was being worked on; try again."
        )
    mark = b"\xef\xbb\xbf" if before.startswith(b"\xef\xbb\xbf") else b""
    handle, name = tempfile.mkstemp(prefix=".part-", dir=path.parent)
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(mark + str(table).encode())
        part.chmod(path.stat().st_mode)
    except OSError:
        part.unlink(missing_ok=True)
        raise
    return part, before


def _rename_all(parts: list[tuple[Path, Path, bytes]]) -> None:
    done: list[tuple[Path, bytes]] = []
    try:
        for path, part, before in parts:
            part.replace(path)
            done.append((path, before))
    except OSError:
        for path, before in done:
            path.write_bytes(before)
        raise
