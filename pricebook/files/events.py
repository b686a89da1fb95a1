"""Read an event file and a file of results: TOML, money as typed text."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import time
from pathlib import Path
from typing import Any

from pricebook.bidding import Ladder, ladder_of
from pricebook.errors import SpecError
from pricebook.event import (
    Candidate,
    Cost,
    Event,
    Gift,
    NetPaysFor,
    Ticket,
)
from pricebook.files.lot_pieces import with_pieces
from pricebook.files.lots import lot, moment, rules
from pricebook.files.opening import read_toml
from pricebook.files.taking import Taker
from pricebook.proceeds import SalesTax


def read_event(path: str | Path) -> Event:
    """Read an event file.

    Parameters
    ----------
    path : str or Path
        A TOML file such as those in data/events/.

    Returns
    -------
    Event
        The event, checked. A lot that states no story, maker, owner or picture
        has its piece's.

    Raises
    ------
    SpecError
        With one sentence for every fault of the file.
    TableError
        If the file cannot be opened or is not TOML.
    """
    file = Path(path)
    table = with_pieces(read_toml(file), str(file), file.parent)
    return event_from_table(table, str(file))


def event_from_table(table: Mapping[str, Any], where: str) -> Event:
    """Make an event of the tables of an event file.

    Parameters
    ----------
    table : mapping
        The tables, as TOML gives them.
    where : str
        How sentences name the file.

    Returns
    -------
    Event
        The event, checked.

    Raises
    ------
    SpecError
        With one sentence for every fault.
    """
    faults: list[str] = []
    whole = Taker(where, table, faults)
    values = _head(whole) | _lists(whole, where, faults)
    made = whole.build(Event, **values)
    if made is None:
        raise SpecError(*faults)
    return made


def _head(t: Taker) -> dict[str, Any]:
    """Take what stands at the top of the file, and its single tables."""
    values: dict[str, Any] = {
        "key": t.text("key"),
        "name": t.text("name"),
        "charity": t.text("charity"),
        "place": t.text("place", ""),
        "on": t.day("on"),
        "bidding_opens": moment(t, "bidding_opens", time.min),
        "catalogue_published": moment(t, "catalogue_published", time.max, None),
        "target_cents": t.money("target", None),
        "common": t.number("common", 0.0),
        "turnout": t.number("turnout", 0.0),
        "tax_note": t.text("tax_note", ""),
        "deductions": rules(t, "deductions"),
        "limits": _limits(t),
    }
    signers = t.words("sign_off", None)
    return values | ({} if signers is None else {"sign_off": signers})


def _lists(whole: Taker, where: str, faults: list[str]) -> dict[str, Any]:
    """Take every table that makes a value of its own."""
    values: dict[str, Any] = {}
    for key, read_table in _TABLES.items():
        found = whole.table(key)
        if found is not None:
            values[key] = read_table(Taker(f"{where} [{key}]", found, faults))
    for key, read in _LISTS.items():
        takers = [
            Taker(f"{where} [[{key}]] {number}", row, faults)
            for number, row in enumerate(whole.tables(key), start=1)
        ]
        values[key] = tuple(read(taker) for taker in takers)
    return values


def _limits(t: Taker) -> tuple[tuple[str, Any], ...] | None:
    """Take the limits: plain numbers, the money in units."""
    found = t.table("limits") or {}
    pairs = []
    for key, value in found.items():
        if isinstance(value, bool) or not isinstance(value, int | float):
            t.fault(f"limits.{key}", "is not a number; write digits.")
        pairs.append((str(key), value))
    return tuple(pairs)


def _sales_tax(t: Taker) -> SalesTax | None:
    return t.build(
        SalesTax,
        payee=t.text("payee"),
        rate=t.number("rate", None),
        base=t.text("base", None),
    )


def _ladder(t: Taker) -> Ladder | None:
    """Take a ladder: the name of one, or rows of its own."""
    name, rows = t.text("name", ""), t.tables("rows")
    steps = []
    for number, row in enumerate(rows, start=1):
        faults: list[str] = []
        r = Taker(f"{t.where} row {number}", row, faults)
        steps.append((r.money("up_to", None), r.money("step")))
        r.build(tuple)
        for sentence in faults:
            t.fault("rows", sentence.removeprefix(f"{t.where} "))
    if bool(name) == bool(rows):
        t.fault("name", "or rows: give one of the two.")
    return t.build(lambda: ladder_of(steps or name))


def _candidate(t: Taker) -> Candidate | None:
    needs = []
    for key, value in (t.table("needs") or {}).items():
        if isinstance(value, bool) or not isinstance(value, int | float):
            t.fault(f"needs.{key}", "is not a number; write digits.")
        needs.append((key, value))
    return t.build(
        Candidate,
        name=t.text("name"),
        piece=t.text("piece", ""),
        as_is_cents=t.money("as_is", None),
        finished_cents=t.money("finished", None),
        cost_cents=t.money("cost", None),
        needs=tuple(needs),
        most=t.whole("most", 1),
    )


def _cost(t: Taker) -> Cost | None:
    return t.build(
        Cost,
        item=t.text("item"),
        amount_cents=t.money("amount"),
        line=t.text("line"),
        lot=t.text("lot", ""),
    )


def _ticket(t: Taker) -> Ticket | None:
    return t.build(
        Ticket,
        item=t.text("item"),
        price_cents=t.money("price"),
        value_cents=t.money("value"),
        count=t.whole("count"),
    )


def _gift(t: Taker) -> Gift | None:
    return t.build(
        Gift,
        item=t.text("item"),
        value_cents=t.money("value"),
        by=t.text("by"),
        kind=t.text("kind"),
    )


def _net_pays_for(t: Taker) -> NetPaysFor | None:
    return t.build(
        NetPaysFor,
        unit=t.text("unit"),
        cost_cents=t.money("cost"),
        stated_by=t.text("stated_by"),
        stated_on=t.day("stated_on"),
    )


_TABLES = {"sales_tax": _sales_tax, "ladder": _ladder}
_LISTS = {
    "lots": lot,
    "candidates": _candidate,
    "costs": _cost,
    "tickets": _ticket,
    "gifts": _gift,
    "net_pays_for": _net_pays_for,
}
