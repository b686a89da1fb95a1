"""Open a file as text, TOML or CSV, or say plainly why it cannot be."""

from __future__ import annotations

import csv
import io
import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from pricebook.errors import TableError, nearest, raise_all

MOST_BYTES = 40_000_000
"""An event of 10,000 lots holds a tenth of this; a larger file is a mistake."""


def read_text(path: Path) -> str:
    """Return the text of a file, or say plainly why there is none.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str
        Its text.

    Raises
    ------
    TableError
        If it is missing, a folder, empty, too large, or not UTF-8 text.
    """
    if path.is_dir():
        raise TableError(f"{path} is a folder; name a file in it.")
    if not path.exists():
        raise TableError(f"{path} does not exist; check the name.")
    if path.stat().st_size > MOST_BYTES:
        raise TableError(f"{path} is larger than 40 MB; no file of this kind is.")
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TableError(
            f"{path} is not UTF-8 text (byte {error.start}); save it as UTF-8."
        ) from None
    except OSError as error:
        raise TableError(f"{path} cannot be opened: {error.strerror}.") from None
    if not text.strip():
        raise TableError(f"{path} is empty; write something into it.")
    return text


def read_toml(path: Path) -> dict[str, Any]:
    """Return the tables of a TOML file.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    dict
        Its tables.

    Raises
    ------
    TableError
        If it cannot be opened or is not TOML; the sentence names the line.
    """
    try:
        return tomllib.loads(read_text(path))
    except tomllib.TOMLDecodeError as error:
        raise TableError(f"{path} is not TOML: {error}.") from None


def read_csv(
    path: Path, columns: Iterable[str], optional: Iterable[str] = ()
) -> list[tuple[int, dict[str, str]]]:
    """Return the rows of a CSV file with their line numbers.

    Parameters
    ----------
    path : Path
        The file.
    columns, optional : iterable of str
        Columns that must be there, and those that may be.

    Returns
    -------
    list of (int, dict)
        Line number and cells by column, blanks stripped. Empty lines and lines
        that begin with # are left out.

    Raises
    ------
    TableError
        With every fault of the file's shape.
    """
    text = read_text(path)
    wanted, extra = list(columns), list(optional)
    reader = csv.reader(without_comments(text), strict=True)
    faults, rows = [], []
    head: list[str] = []
    last = 0
    try:
        for cells in reader:
            last = reader.line_num
            if not any(cell.strip() for cell in cells):
                continue
            if not head:
                head = [cell.strip() for cell in cells]
                where = f"{path} line {reader.line_num}"
                raise_all(TableError, _head_faults(where, head, wanted, extra))
                continue
            if len(cells) != len(head):
                faults.append(
                    f"{path} line {reader.line_num}: {len(cells)} cells under "
                    f"{len(head)} columns; quote a cell that holds a comma."
                )
                continue
            row = dict(zip(head, (cell.strip() for cell in cells), strict=True))
            rows.append((reader.line_num, row))
    except csv.Error as error:
        faults.append(f"{path} line {last + 1}: {_not_csv(error)}")
    if not head and not faults:
        faults.append(f"{path} has no row of columns; write {','.join(wanted)}.")
    if faults:
        raise TableError(*faults)
    return rows


def without_comments(text: str) -> Iterator[str]:
    r"""Yield the lines of a CSV text, comments left empty so that lines count right.

    Parameters
    ----------
    text : str
        The text.

    Yields
    ------
    str
        Each line with its ending; nothing but the ending for a line that begins
        with # outside a quoted cell.

    Examples
    --------
    >>> list(without_comments('a,b\n# why\n1,"2\n# 3"\n'))
    ['a,b\n', '\n', '1,"2\n', '# 3"\n']
    """
    quoted = False
    for line in io.StringIO(text, newline=""):
        if not quoted and line.startswith("#"):
            yield line[len(line.rstrip("\r\n")) :]
            continue
        quoted ^= line.count('"') % 2 == 1
        yield line


def _not_csv(error: csv.Error) -> str:
    if "unexpected end" in str(error):
        return "a quotation mark is opened and never closed; close it, or leave it out."
    return f"not CSV ({error})."


def _head_faults(
    where: str, head: list[str], wanted: list[str], extra: list[str]
) -> list[str]:
    known = [*wanted, *extra]
    faults = [
        f'{where}: column "{name}" is missing.' for name in wanted if name not in head
    ]
    faults += [
        f'{where}: column "{name}" is not known; {nearest(name, known)}'
        for name in head
        if name not in known
    ]
    faults += [
        f'{where}: column "{name}" stands twice.'
        for name in sorted({n for n in head if head.count(n) > 1})
    ]
    return faults
