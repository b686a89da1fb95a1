"""Read a file of one row a key; of two sources the chosen one is in use."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from pricebook.errors import TableError
from pricebook.files.opening import read_csv
from pricebook.files.taking import Taker
from pricebook.rates import Row

R = TypeVar("R", bound=Row)
TAIL = ("date", "source")
"""Columns that every file of the price book ends with."""


def rows_of(
    path: Path,
    columns: tuple[str, ...],
    make: Callable[[Taker], R | None],
    optional: tuple[str, ...] = (),
) -> tuple[tuple[R, ...], list[R]]:
    """Read a file of one row a key; of two sources the chosen one is in use."""
    faults: list[str] = []
    by_key: dict[str, list[tuple[int, bool, R]]] = defaultdict(list)
    for line, cells in read_csv(path, columns, (*optional, "chosen")):
        t = Taker(f"{path} line {line}", cells, faults)
        chosen = t.flag("chosen", False)
        row = make(t)
        if row is not None:
            by_key[row.key].append((line, chosen, row))
    used: list[R] = []
    spare: list[R] = []
    for key, found in by_key.items():
        taken = pick(path, key, found, faults)
        if taken is not None:
            used.append(taken)
            spare += [row for _, _, row in found if row is not taken]
    if faults:
        raise TableError(*faults)
    return tuple(used), spare


def pick(
    path: Path, key: str, found: list[tuple[int, bool, R]], faults: list[str]
) -> R | None:
    """Return the row in use among those of one key, or note why none is."""
    if len(found) == 1:
        return found[0][2]
    picks = [row for _, chosen, row in found if chosen]
    if len(picks) == 1 and len({row.source for _, _, row in found}) == len(found):
        return picks[0]
    lines = " and ".join(str(line) for line, _, _ in found)
    faults.append(
        f'{path} lines {lines}: two rows have the key "{key}"; rename one, or for '
        "two sources of one figure write yes under chosen on one of them."
    )
    return None


def tail(t: Taker) -> dict[str, Any]:
    """Take the columns that every row has: key, date and source."""
    return {"key": t.text("key"), "dated": t.day("date"), "source": t.text("source")}
