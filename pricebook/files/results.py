"""Read what became of the lots from a TOML file, and the money that was counted."""

from __future__ import annotations

from pathlib import Path

from pricebook.errors import PricebookError, SpecError
from pricebook.event import Counted, Event, Result
from pricebook.event.result_checks import in_order
from pricebook.files.opening import read_toml
from pricebook.files.taking import Taker


def read_results(path: str | Path, event: Event) -> tuple[Result, ...]:
    """Read what became of each lot from a TOML file.

    Parameters
    ----------
    path : str or Path
        A TOML file with `event`, the event's key, and a `[[results]]` for each lot.
    event : Event
        The event.

    Returns
    -------
    tuple of Result
        In the order of the catalogue.

    Raises
    ------
    SpecError
        With one sentence for every fault: another event's results, an unknown or
        doubled lot, a price that cannot stand.
    TableError
        If the file cannot be opened or is not TOML.
    """
    return _read(path, event)[0]


def read_counted(path: str | Path, event: Event) -> Counted:
    """Read the money that was counted from a file of results.

    Parameters
    ----------
    path : str or Path
        A TOML file as for `read_results`, with a `[counted]` table.
    event : Event
        The event.

    Returns
    -------
    Counted
        The money counted; nothing where the file says nothing.

    Raises
    ------
    SpecError, TableError
        As for `read_results`.
    """
    return _read(path, event)[1]


def _read(path: str | Path, event: Event) -> tuple[tuple[Result, ...], Counted]:
    where, faults = str(path), list[str]()
    whole = Taker(where, read_toml(Path(path)), faults)
    key = whole.text("event")
    if key is not None and key != event.key:
        whole.fault("event", f'is "{key}"; these are not the results of {event.key}.')
    takers = [
        Taker(f"{where} [[results]] {number}", row, faults)
        for number, row in enumerate(whole.tables("results"), start=1)
    ]
    found = [_result(taker) for taker in takers]
    counted = _counted(
        Taker(f"{where} [counted]", whole.table("counted") or {}, faults)
    )
    made = whole.build(lambda: tuple(r for r in found if r is not None))
    if made is None or counted is None:
        raise SpecError(*faults)
    try:
        return in_order(event, made), counted
    except PricebookError as error:
        raise SpecError(*(f"{where}: {fault}" for fault in error.faults)) from None


def _result(t: Taker) -> Result | None:
    return t.build(
        Result,
        lot=t.text("lot"),
        state=t.text("state"),
        hammer_cents=t.money("hammer", None),
        paddle=t.text("paddle", ""),
        paid=t.flag("paid", False),
        amount_cents=t.money("amount", None),
        method=t.text("method", ""),
        on=t.day("on", None),
        initials=t.text("initials", ""),
        note=t.text("note", ""),
    )


def _counted(t: Taker) -> Counted | None:
    return t.build(
        Counted,
        cash_cents=t.money("cash", None),
        cheque_cents=t.money("cheques", None),
        card_deposit_cents=t.money("card_deposits", None),
        card_fees_cents=t.money("card_fees", None),
        first_counter=t.text("first_counter", ""),
        second_counter=t.text("second_counter", ""),
    )
