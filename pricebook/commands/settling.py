"""Everything that one settlement reads and works out; nothing is written."""

from __future__ import annotations

import argparse
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from pricebook.commands.common import Bar, all_of, day_of
from pricebook.commands.events import event_of
from pricebook.commands.forecast import EVENINGS, evening_of
from pricebook.commands.learning import Learnt, learn
from pricebook.cost import Shop
from pricebook.errors import PricebookError
from pricebook.event import (
    BoardReport,
    Counted,
    Event,
    Result,
    Settlement,
    board_report,
    settle,
)
from pricebook.files import read_shop
from pricebook.files.events import read_event
from pricebook.files.market import read_market
from pricebook.files.places import shop_folder
from pricebook.files.totals import TotalsRecord, read_totals, totals_record
from pricebook.files.used import read_used
from pricebook.forecast import Evening
from pricebook.records import Year, roll_up

_FORECAST_LOTS = 200
"""Up to here all evenings are drawn; beyond, fewer, so that the work stays the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Everything that one settlement tells.

    Parameters
    ----------
    done : Settlement
        The settlement.
    report : BoardReport
        What the board is told.
    learnt : Learnt
        Records for next time.
    record : TotalsRecord
        The totals that a year is added up from.
    year : Year or None
        The year, when totals of other events were given.
    unclean : tuple of str
        Events of the year whose control totals did not all pass.
    shop : Shop
        The price book.
    """

    done: Settlement
    report: BoardReport
    learnt: Learnt
    record: TotalsRecord
    year: Year | None
    unclean: tuple[str, ...]
    shop: Shop


def settled(given: argparse.Namespace, bar: Bar) -> Settled:
    """Read everything that the command names, and settle.

    Parameters
    ----------
    given : Namespace
        The command line.
    bar : Bar
        Shows how far it is.

    Returns
    -------
    Settled
        The same for the same files: without a day, prices are those of the event's
        own.

    Raises
    ------
    PricebookError
        If a file cannot be used.
    """
    path, returned = Path(given.event), Path(given.returned)
    bar(1, 5, "reading")
    event = read_event(path)
    named = [lot.piece for lot in event.lots] + [c.piece for c in event.candidates]
    if any(named):
        on = day_of(given.on) if given.on else event.on
        event = event_of(path, given.shop, on)
    folder = shop_folder(given.shop, path)
    results, counted = read_results_of(returned, event)
    used = read_used(given.used, event) if given.used else ()
    earlier = all_of(partial(read_totals, name) for name in given.year)
    bar(2, 5, "settling")
    done = settle(event, results, counted)
    record = totals_record(done)
    year = roll_up([x.totals for x in (*earlier, record)]) if earlier else None
    shop = read_shop(folder)
    learnt = learn(done, path, shop, read_market(folder), used)
    bar(3, 5, "drawing evenings")
    return Settled(
        done=done,
        report=_report(done),
        learnt=learnt,
        record=record,
        year=year,
        unclean=tuple(x.totals.name for x in (*earlier, record) if not x.is_clean),
        shop=shop,
    )


def _report(done: Settlement) -> BoardReport:
    """Report with the forecast; money that came is settled without one as well."""
    try:
        return board_report(done, forecast_of(done.event))
    except PricebookError as error:
        said = tuple(f"No forecast: {fault}" for fault in error.faults)
        report = board_report(done)
        return replace(report, cautions=(*report.cautions, *said))


def read_results_of(path: Path, event: Event) -> tuple[tuple[Result, ...], Counted]:
    """Read results and the money counted from a workbook, or from a TOML file.

    Parameters
    ----------
    path : Path
        What came back; it is never written to.
    event : Event
        The event.

    Returns
    -------
    (tuple of Result, Counted)
        In the order of the catalogue.

    Raises
    ------
    PricebookError
        With a sentence for everything that cannot be right.
    """
    if path.suffix.lower() == ".toml":
        from pricebook.files.results import read_counted, read_results

        return read_results(path, event), read_counted(path, event)
    from pricebook.returned import read_book

    came = read_book(path, event)
    return came.results, came.counted


def forecast_of(event: Event) -> Evening | None:
    """Draw what the evening might have raised, if all lots say who may bid."""
    if not all(lot.demand for lot in event.lots):
        return None
    fewer = EVENINGS * _FORECAST_LOTS // max(len(event.lots), _FORECAST_LOTS)
    return evening_of(event, max(fewer, 1_000))
