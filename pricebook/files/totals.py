"""Write and read the totals of a settled event, from which a year is added up."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pricebook import money
from pricebook.errors import TableError
from pricebook.event import Settlement, to_totals
from pricebook.files.opening import read_text
from pricebook.files.taking import Taker
from pricebook.files.writing import write_text
from pricebook.records import EventTotals

RECORD = "event totals"
_MONEY = ("raised", "cost", "gifts_in_kind", "time_given", "unpaid")
_COUNTS = ("lots_sold", "lots_passed", "lots_withdrawn", "lots_void")


@dataclass(frozen=True, slots=True, kw_only=True)
class TotalsRecord:
    """The totals of one event as a settlement left them.

    Parameters
    ----------
    totals : EventTotals
        The totals.
    is_clean : bool
        Whether every control total passed.
    """

    totals: EventTotals
    is_clean: bool


def totals_record(done: Settlement) -> TotalsRecord:
    """Return the totals record of a settlement."""
    return TotalsRecord(totals=EventTotals(**to_totals(done)), is_clean=done.is_clean)


def write_totals(path: Path, record: TotalsRecord) -> Path:
    """Write a totals record, whole or not at all.

    Parameters
    ----------
    path : Path
        Where it shall stand; a JSON file.
    record : TotalsRecord
        The record.

    Returns
    -------
    Path
        The path.
    """
    totals = record.totals
    answer: dict[str, Any] = {
        "record": RECORD,
        "name": totals.name,
        "on": totals.on.isoformat(),
        "clean": record.is_clean,
        **{key: money.show(getattr(totals, f"{key}_cents")) for key in _MONEY},
        **{key: getattr(totals, key) for key in _COUNTS},
    }
    return write_text(path, json.dumps(answer, ensure_ascii=False, indent=1) + "\n")


def read_totals(path: str | Path) -> TotalsRecord:
    """Read the totals record of an earlier settlement.

    Parameters
    ----------
    path : str or Path
        A file that `settle` wrote.

    Returns
    -------
    TotalsRecord
        The record.

    Raises
    ------
    TableError
        If the file is none, or with a sentence for each value that cannot be.
    """
    where, faults = str(path), list[str]()
    t = Taker(where, _object(Path(path)), faults)
    if t.text("record", "") != RECORD:
        raise TableError(
            f"{where} is no record of an event's totals; name the .totals.json file "
            "that its settlement wrote."
        )
    is_clean = t.flag("clean")
    totals = t.build(
        EventTotals,
        name=t.text("name"),
        on=t.day("on"),
        **{f"{key}_cents": t.money(key) for key in _MONEY},
        **{key: t.whole(key) for key in _COUNTS},
    )
    if totals is None:
        raise TableError(*faults)
    return TotalsRecord(totals=totals, is_clean=is_clean)


def _object(path: Path) -> dict[str, Any]:
    try:
        found = json.loads(read_text(path))
    except (json.JSONDecodeError, RecursionError):
        found = None
    if not isinstance(found, dict):
        raise TableError(
            f"{path} is not JSON with one object; name the .totals.json file that a "
            "settlement wrote."
        )
    return found
