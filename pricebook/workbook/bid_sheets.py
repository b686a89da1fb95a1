"""One printable bid sheet a lot, with the rungs of its ladder to sign beside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pricebook.bidding import Ladder
from pricebook.errors import PricebookError
from pricebook.event import Event, Lot
from pricebook.event.book import BID_SHEETS
from pricebook.workbook.book import Book
from pricebook.workbook.cells import EMPTY, Cell, money, text
from pricebook.workbook.page import LINE_POINTS, Page, lines_of

LOTS_A_SHEET = 1000
"""A sheet of a workbook takes 1,023 page breaks."""

WIDTHS = (14.5, 13.5, 11.5, 2.0, 14.5, 11.5, 11.5)
RUNGS, LONGEST_STORY = 28, 9
_ROW_POINTS = 30.0
_PAGE_POINTS = 655.0
"""What a page of Letter holds between its margins, with room to spare. [points]"""

_HEADS = ("Bid", "Paddle", "Initials", "", "Bid", "Paddle", "Initials")
_HOW = (
    "Write your paddle beside the lowest bid that is free; a bid once written stands. "
    "Above the last line, ask the desk for a second sheet."
)


def write_bid_sheets(book: Book, event: Event) -> Sequence[Page]:
    """Write the bid sheets, on as many sheets of the workbook as they take.

    Parameters
    ----------
    book : Book
        The workbook.
    event : Event
        The event.

    Returns
    -------
    sequence of Page
        The pages written.
    """
    pages = []
    for start in range(0, len(event.lots), LOTS_A_SHEET):
        name = BID_SHEETS if start == 0 else f"{BID_SHEETS} {start // LOTS_A_SHEET + 1}"
        page = book.page(name, WIDTHS)
        for lot in event.lots[start : start + LOTS_A_SHEET]:
            _one(page, event, lot)
            page.new_page()
        page.done(f"{event.name}: bid sheets", landscape=False, fit=False)
        pages.append(page)
    return pages


def rungs_of(ladder: Ladder, opening_cents: int, most: int = RUNGS) -> tuple[int, ...]:
    """Return the first rungs of a ladder from an opening bid.

    Parameters
    ----------
    ladder : Ladder
        The ladder.
    opening_cents : int
        The opening bid, a rung. [cents]
    most : int
        How many rungs at most. [-]

    Returns
    -------
    tuple of int
        Rising; fewer where the ladder ends. [cents]

    Examples
    --------
    >>> from pricebook.bidding import TEN_PERCENT
    >>> rungs_of(TEN_PERCENT, 28_000, 3)
    (28000, 30000, 32000)
    """
    found = [opening_cents]
    while len(found) < most and ladder.top_cents != found[-1]:
        try:
            found.append(ladder.next_bid(found[-1]))
        except PricebookError:
            break
    return tuple(found)


def _one(page: Page, event: Event, lot: Lot) -> None:
    """Write the sheet of one lot: what it is, its figures, its rungs."""
    wide, height = sum(WIDTHS), page.height
    page.line([text(f"Lot {lot.key}", "poster")], points=34)
    page.merged(lot.title, "title text", 21.0 * lines_of(lot.title, wide / 1.6))
    if lot.maker:
        page.note(f"Made by {lot.maker}")
    story = lot.story
    if lines_of(story, wide) > LONGEST_STORY:
        story = "Its story stands in the catalogue."
    if story:
        page.note(story, "note subtitle")
    page.skip()
    page.line(_figure_heads(lot), points=2 * LINE_POINTS)
    page.line(_figures(lot), points=20)
    page.skip()
    page.line([Cell(head, "head text" if head else "") for head in _HEADS])
    left = _PAGE_POINTS - (page.height - height) - 4 * LINE_POINTS
    most = min(RUNGS, 2 * int(left / _ROW_POINTS))
    for cells in _rungs(event.ladder, lot, most):
        page.line(cells, points=_ROW_POINTS)
    page.note(_HOW)
    page.note(f"{event.name}, for {event.charity}, {event.on}.", "note subtitle")


def _figure_heads(lot: Lot) -> list[Cell]:
    words = ("Fair market value", "Estimate from", "to", "", "Opening bid")
    cells = [text(word, "text bold right") for word in words]
    if lot.reserve_cents is not None:
        cells.append(text("with a reserve", "text"))
    return cells


def _figures(lot: Lot) -> list[Cell]:
    low, high = lot.estimate_low_cents, lot.estimate_high_cents
    stated = (lot.fair_market_value_cents, low, high)
    cells = [text("not stated") if cents is None else money(cents) for cents in stated]
    return [*cells, EMPTY, money(lot.opening_cents, "large")]


def _rungs(ladder: Ladder, lot: Lot, most: int) -> Iterator[list[Cell]]:
    """Yield the rows of the ladder, in two columns read downwards."""
    rungs = rungs_of(ladder, lot.opening_cents, most)
    half = (len(rungs) + 1) // 2
    blank = Cell(None, "ruled")
    for place in range(half):
        cells = [money(rungs[place], "ruled"), blank, blank, EMPTY]
        if place + half < len(rungs):
            cells += [money(rungs[place + half], "ruled"), blank, blank]
        yield cells
