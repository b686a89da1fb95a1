"""Open a file and take values out of it, noting every fault on the way."""

from __future__ import annotations

import csv
import io
import tomllib
from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any, TypeVar

from pricebook import lengths, money
from pricebook.errors import PricebookError, TableError, nearest

T = TypeVar("T")
MOST_BYTES = 4_000_000
"""No file of a shop or a piece comes near this; a larger one is a mistake."""

_MISSING = object()


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
        raise TableError(f"{path} is larger than 4 MB; no file of this kind is.")
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
        Line number and cells by column, blanks stripped.

    Raises
    ------
    TableError
        With every fault of the file's shape.
    """
    text = read_text(path)
    wanted, extra = list(columns), list(optional)
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    faults, rows = [], []
    try:
        head = [cell.strip() for cell in next(reader)]
        faults += _head_faults(path, head, wanted, extra)
        for cells in reader:
            if not any(cell.strip() for cell in cells):
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
        faults.append(f"{path} line {reader.line_num}: not CSV ({error}).")
    if faults:
        raise TableError(*faults)
    return rows


def _head_faults(
    path: Path, head: list[str], wanted: list[str], extra: list[str]
) -> list[str]:
    known = [*wanted, *extra]
    faults = [
        f'{path} line 1: column "{name}" is missing.'
        for name in wanted
        if name not in head
    ]
    faults += [
        f'{path} line 1: column "{name}" is not known; {nearest(name, known)}'
        for name in head
        if name not in known
    ]
    faults += [
        f'{path} line 1: column "{name}" stands twice.'
        for name in sorted({n for n in head if head.count(n) > 1})
    ]
    return faults


class Taker:
    """Takes values out of one table by key and notes what is wrong with them.

    Parameters
    ----------
    where : str
        How a sentence names the table: file, and table or line.
    table : mapping
        The values.
    faults : list of str
        Where the sentences go; shared by all takers of a file.

    Notes
    -----
    A value with a fault is taken as None; `build` then makes nothing of it, so
    that a whole file is read before it is refused.
    """

    def __init__(self, where: str, table: Mapping[str, Any], faults: list[str]) -> None:
        self.where = where
        self._table = table
        self._faults = faults
        self._start = len(faults)
        self._taken: set[str] = set()

    def fault(self, key: str, sentence: str) -> None:
        """Note what is wrong with one key."""
        self._faults.append(f"{self.where}: {key} {sentence}")

    def has(self, key: str) -> bool:
        """Tell whether a key is there with something in it."""
        return self._table.get(key, "") != ""

    def _take(self, key: str, read: Callable[[Any], T], default: Any = _MISSING) -> Any:
        self._taken.add(key)
        if not self.has(key):
            if default is _MISSING:
                self.fault(key, "is missing; write it.")
                return None
            return default
        try:
            return read(self._table[key])
        except PricebookError as error:
            for sentence in error.faults:
                self._faults.append(f"{self.where}: {key}: {sentence}")
            return None

    def text(self, key: str, default: Any = _MISSING) -> Any:
        """Take a text."""
        return self._take(key, _text, default)

    def length(self, key: str, default: Any = _MISSING) -> Any:
        """Take a length with its unit. [mm]."""
        return self._take(key, lengths.read, default)

    def lengths(self, key: str, default: Any = _MISSING) -> Any:
        """Take a list of lengths. [mm]."""
        return self._take(
            key, lambda v: tuple(lengths.read(item) for item in _list(v)), default
        )

    def money(self, key: str, default: Any = _MISSING) -> Any:
        """Take an amount of money. [cents]."""
        return self._take(key, money.read, default)

    def number(self, key: str, default: Any = _MISSING) -> Any:
        """Take a number."""
        return self._take(key, _number, default)

    def whole(self, key: str, default: Any = _MISSING) -> Any:
        """Take a whole number."""
        return self._take(key, _whole, default)

    def flag(self, key: str, default: Any = _MISSING) -> Any:
        """Take a yes or a no."""
        return self._take(key, _flag, default)

    def day(self, key: str, default: Any = _MISSING) -> Any:
        """Take a date."""
        return self._take(key, _day, default)

    def words(self, key: str, default: Any = _MISSING) -> Any:
        """Take a list of texts."""
        return self._take(
            key, lambda v: tuple(_text(item) for item in _list(v)), default
        )

    def pairs(self, key: str, default: Any = _MISSING) -> Any:
        """Take a table of texts as pairs."""
        return self._take(
            key, lambda v: tuple((k, _text(w)) for k, w in _mapping(v).items()), default
        )

    def table(self, key: str) -> Mapping[str, Any] | None:
        """Take a table, or None when it is not there."""
        found: Mapping[str, Any] | None = self._take(key, _mapping, None)
        return found

    def tables(self, key: str) -> list[Mapping[str, Any]]:
        """Take a list of tables; none when it is not there."""
        found = self._take(key, lambda v: [_mapping(item) for item in _list(v)], [])
        return list(found or [])

    def build(self, make: Callable[..., T], **values: Any) -> T | None:
        """Make a value of what was taken, or nothing when any of it was wrong.

        Parameters
        ----------
        make : callable
            What makes the value and may refuse it.
        **values
            Its arguments.

        Returns
        -------
        object or None
            The value; None after a fault, which has been noted.
        """
        for key in self._table:
            if key not in self._taken:
                self.fault(f'"{key}"', f"is not known; {nearest(key, self._taken)}")
        if len(self._faults) > self._start:
            return None
        try:
            return make(**values)
        except PricebookError as error:
            self._faults += [f"{self.where}: {sentence}" for sentence in error.faults]
            return None


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TableError(f"{value!r} is not text; put it in quotes.")
    return value.strip()


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise TableError(f"{value!r} is not a list; write [ ... ].")
    return value


def _mapping(value: Any) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise TableError(f"{value!r} is not a table of keys and values.")
    return value


def _number(value: Any) -> float:
    if isinstance(value, str):
        try:
            value = float(value) if value.isascii() and "_" not in value else None
        except ValueError:
            value = None
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TableError("that is not a number; write digits, such as 12 or 0.5.")
    if value != value or value in (float("inf"), float("-inf")):
        raise TableError("that is not a finite number; write digits.")
    return float(value)


def _whole(value: Any) -> int:
    number = _number(value)
    if number != int(number):
        raise TableError(f"{number:g} is not a whole number; write 1, 2, 3 ...")
    return int(number)


def _flag(value: Any) -> bool:
    words = {"yes": True, "no": False, True: True, False: False}
    if isinstance(value, str | bool) and value in words:
        return words[value]
    raise TableError(f"{value!r} is neither yes nor no.")


def _day(value: Any) -> date:
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    try:
        return date.fromisoformat(value)
    except (TypeError, ValueError):
        raise TableError(
            f'"{value}" is not a date; write year, month, day: 2026-03-14.'
        ) from None
