"""What all commands share: the day, the price book, JSON, words on the way."""

from __future__ import annotations

import argparse
import json
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

from pricebook.cost.shop import Shop
from pricebook.errors import PricebookError, TableError, UnitError
from pricebook.files import read_shop
from pricebook.files.places import shop_folder

T = TypeVar("T")


def day_of(text: str | None, name: str = "--on") -> date:
    """Return a day that a person wrote, or today.

    Parameters
    ----------
    text : str or None
        Year, month, day; None: today.
    name : str
        The option, for the refusal.

    Returns
    -------
    date
        The day.

    Raises
    ------
    UnitError
        If it is no date.
    """
    if text is None:
        return date.today()  # noqa: DTZ011 - the maker's own day is meant
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise UnitError(
            f'{name} "{text}" is not a date; write year, month, day: 2026-03-14.'
        ) from None


def shop_of(given: argparse.Namespace, near: Path) -> Shop:
    """Return the price book of a command."""
    return read_shop(shop_folder(given.shop, near))


def all_of(reads: Iterable[Callable[[], T]]) -> list[T]:
    """Read several things and refuse with the faults of all of them.

    Parameters
    ----------
    reads : iterable of callable
        Each reads one thing or raises.

    Returns
    -------
    list
        What was read.

    Raises
    ------
    TableError
        With the sentences of every read that failed.
    """
    found: list[T] = []
    faults: list[str] = []
    for read in reads:
        try:
            found.append(read())
        except PricebookError as error:
            faults += error.faults
    if faults:
        raise TableError(*faults)
    return found


@contextmanager
def in_files(files: Iterable[tuple[str, Path]]) -> Iterator[None]:
    """Name the file of a piece in every refusal that names the piece.

    Parameters
    ----------
    files : iterable of (str, Path)
        Each piece's name, and the file that it was read from.

    Raises
    ------
    PricebookError
        What was refused, each sentence after its file; where there is one file
        only, every sentence.
    """
    named: dict[str, list[str]] = {}
    for name, path in files:
        named.setdefault(name, []).append(str(path))
    try:
        yield
    except PricebookError as error:
        faults = [_in_file(fault, named) for fault in error.faults]
        raise type(error)(*faults) from None


def _in_file(fault: str, named: dict[str, list[str]]) -> str:
    for name, paths in named.items():
        own = fault.removeprefix(f"{name}: ")
        if own != fault or f'"{name}"' in fault or len(named) == 1:
            where = " and ".join(paths)
            return own if own.startswith(where) else f"{where}: {own}"
    return fault


def print_json(value: Any) -> None:  # noqa: ANN401 - any JSON value
    """Print one JSON object on standard output."""
    print(json.dumps(value, ensure_ascii=False, indent=1))


def file_name(words: Sequence[str]) -> str:
    """Return a plain file name for some names.

    Parameters
    ----------
    words : sequence of str
        Names as people wrote them.

    Returns
    -------
    str
        Lower case letters, digits and underscores.

    Examples
    --------
    >>> file_name(["Low dresser"]), file_name(["../x", "b"])
    ('low_dresser', 'x_and_1_more')
    """
    first = re.sub(r"[^a-z0-9]+", "_", words[0].lower()).strip("_") or "piece"
    more = f"_and_{len(words) - 1}_more" if len(words) > 1 else ""
    return f"{first[:60]}{more}"


class Bar:
    """A progress bar on standard error, drawn only for a person at a screen."""

    def __init__(self) -> None:
        self._shown = False

    def __call__(self, done: int, total: int, words: str) -> None:
        """Show how far the work is."""
        if not sys.stderr.isatty() or total <= 0:
            return
        filled = 30 * min(done, total) // total
        bar = "#" * filled + "." * (30 - filled)
        print(f"\r{bar} {words[:40]:40}", end="", file=sys.stderr, flush=True)
        self._shown = True

    def close(self) -> None:
        """Clear the bar."""
        if self._shown:
            print("\r" + " " * 75 + "\r", end="", file=sys.stderr, flush=True)
