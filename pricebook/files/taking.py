"""Take values out of a table by key and note what is wrong with them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any, TypeVar

from pricebook import lengths, money
from pricebook.errors import PricebookError, TableError, finite, nearest, shown

T = TypeVar("T")
_MISSING = object()
_MOST_COUNTED = 1e9


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
        return bool(self._table.get(key, "") != "")

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

    def listed(self, key: str, default: Any = _MISSING) -> Any:
        """Take lengths in one text, set apart by semicolons. [mm]."""
        return self._take(
            key, lambda v: tuple(lengths.read(one) for one in v.split(";")), default
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

    def wholes(self, key: str, default: Any = _MISSING) -> Any:
        """Take a list of whole numbers."""
        return self._take(
            key, lambda v: tuple(_whole(item) for item in _list(v)), default
        )

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
        self._note_unknown()
        if len(self._faults) > self._start:
            return None
        try:
            return make(**values)
        except PricebookError as error:
            self._faults += [f"{self.where}: {sentence}" for sentence in error.faults]
            return None

    def build_row(self, make: Callable[..., T], **values: Any) -> T | None:
        """Make a value of single figures and texts, and tell all that is wrong.

        Parameters
        ----------
        make : callable
            What makes the value and may refuse it.
        **values
            Its arguments, none of them made of others.

        Returns
        -------
        object or None
            The value; None after a fault. What else can be told of the values that
            were taken is told too.
        """
        self._note_unknown()
        if len(self._faults) == self._start:
            return self.build(make, **values)
        try:
            make(**values)
        except PricebookError as error:
            # a value taken as None has had its sentence already
            told = [f for f in error.faults if "None" not in f]
            self._faults += [f"{self.where}: {sentence}" for sentence in told]
        except (TypeError, AttributeError):
            pass  # with a value missing it cannot be looked at any further
        return None

    def _note_unknown(self) -> None:
        known = sorted(self._taken)
        for key in self._table:
            if key not in self._taken:
                self._taken.add(key)
                self.fault(f'"{key}"', f"is not known; {nearest(key, known)}")


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TableError(f"{shown(value)} is not text; put it in quotes.")
    return value.strip()


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise TableError(f"{shown(value)} is not a list; write [ ... ].")
    return value


def _mapping(value: Any) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise TableError(f"{shown(value)} is not a table of keys and values.")
    return value


def _number(value: Any) -> float:
    said = value
    if isinstance(value, str):
        try:
            value = float(value) if value.isascii() and "_" not in value else None
        except ValueError:
            value = None
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TableError(
            f"{shown(said)} is not a number; write digits, such as 12 or 0.5."
        )
    number = finite(value)
    if number is None:
        raise TableError(f"{shown(said)} is not a finite number; write digits.")
    return number


def _whole(value: Any) -> int:
    number = _number(value)
    if number != int(number):
        raise TableError(f"{number:g} is not a whole number; write 1, 2, 3 ...")
    if abs(number) > _MOST_COUNTED:
        raise TableError(f"{number:g} is more than can be counted here; check it.")
    return int(number)


def _flag(value: Any) -> bool:
    words = {"yes": True, "no": False, True: True, False: False}
    if isinstance(value, str | bool) and value in words:
        return words[value]
    raise TableError(f"{shown(value)} is neither yes nor no.")


def _day(value: Any) -> date:
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    try:
        return date.fromisoformat(value)
    except (TypeError, ValueError):
        raise TableError(
            f"{shown(value)} is not a date; write year, month, day: 2026-03-14."
        ) from None
