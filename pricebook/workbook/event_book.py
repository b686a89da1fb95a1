"""The fundraiser's workbook: catalogue, bid sheets, results, split, controls."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from pricebook.event import Counted, Event, Result
from pricebook.event.book import (
    BID_SHEETS,
    CATALOGUE,
    CONTROLS,
    COSTS,
    COUNTED,
    RESULTS,
    SHEETS,
    SOURCES,
    SPLIT,
)
from pricebook.workbook.bid_sheets import write_bid_sheets
from pricebook.workbook.book import Book, foot, workbook_path
from pricebook.workbook.catalogue_page import PICTURE_WIDTH, write_catalogue
from pricebook.workbook.controls_page import Places, write_controls
from pricebook.workbook.counted_page import write_counted
from pricebook.workbook.event_costs_page import write_event_costs
from pricebook.workbook.event_sources_page import write_event_sources
from pricebook.workbook.event_values import BookValues, book_values
from pricebook.workbook.results_page import place_results, write_results
from pricebook.workbook.split_columns import (
    place_columns,
    place_split,
    widths_of,
)
from pricebook.workbook.split_page import write_split
from pricebook.workbook.styles import WIDTHS

Progress = Callable[[int, int, str], None]


def write_book(
    path: Path | str,
    event: Event,
    *,
    results: Iterable[Result] = (),
    counted: Counted | None = None,
    pictures: Mapping[str, bytes] | None = None,
    currency: str = "$",
    paper: str = "Letter",
    version: str | None = None,
    progress: Progress | None = None,
) -> Path:
    """Write the fundraiser's workbook of an event, ready to fill in.

    Parameters
    ----------
    path : Path or str
        Where it shall stand.
    event : Event
        The event.
    results : iterable of Result
        Results that are known already.
    counted : Counted, optional
        Money that was counted already.
    pictures : mapping of str to bytes, optional
        PNG or JPEG pictures by the number of the lot.
    currency : str
        The sign in front of money.
    paper : {"Letter", "A4"}
        What it is printed on.
    version : str, optional
        The package's version at the foot of every page; its own if left out.
    progress : callable, optional
        Called with sheets done, sheets in all, and the sheet's name.

    Returns
    -------
    Path
        The path.

    Raises
    ------
    SpecError
        If a result cannot be right.
    ReportError
        If a text cannot stand in a cell, a picture cannot be shown, or the file
        cannot be written.

    Notes
    -----
    The sheets and heads are those of `event.book`. Every formula carries the value
    that the package computed. While the sales tax is not set, nothing is totalled
    and the split says so.
    """
    file = workbook_path(path)
    values = book_values(event, results, counted)
    book = Book(
        f"{event.name}, {event.on}",
        currency=currency,
        paper=paper,
        on=event.on,
        foot=foot(event.charity, version),
    )
    _write(book, values, dict(pictures or {}), progress or _quiet)
    return book.save(file)


def _quiet(done: int, whole: int, words: str) -> None:
    """Say nothing."""


def _write(
    book: Book, values: BookValues, pictures: Mapping[str, bytes], tell: Progress
) -> None:
    """Write the sheets in their order, and tell of each."""
    event, whole = values.event, len(SHEETS)
    more = (PICTURE_WIDTH,) if pictures else ()
    write_catalogue(book.page(CATALOGUE, (*WIDTHS[CATALOGUE], *more)), event, pictures)
    tell(1, whole, CATALOGUE)
    write_bid_sheets(book, event)
    tell(2, whole, BID_SHEETS)
    results_page = book.page(RESULTS, WIDTHS[RESULTS])
    counted = write_counted(book.page(COUNTED, WIDTHS[COUNTED]), values)
    split_page = book.page(SPLIT, widths_of(place_columns(values)))
    controls_page = book.page(CONTROLS, WIDTHS[CONTROLS])
    costs = write_event_costs(book.page(COSTS, WIDTHS[COSTS]), event)
    split, results = (
        place_split(split_page, values),
        place_results(results_page, values),
    )
    write_results(results_page, values, split)
    tell(4, whole, RESULTS)
    write_split(split_page, values, split, results, costs.documented)
    tell(6, whole, SPLIT)
    places = Places(results=results, split=split, costs=costs, counted=counted)
    write_controls(controls_page, values, places)
    write_event_sources(book.page(SOURCES, WIDTHS[SOURCES + " of an event"]), values)
    tell(whole, whole, SOURCES)
