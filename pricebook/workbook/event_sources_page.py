"""Where the figures of an event come from: who stated each, when and how."""

from __future__ import annotations

from pricebook.event import Event
from pricebook.workbook.cells import EMPTY, Cell, day, money, text
from pricebook.workbook.event_values import BookValues
from pricebook.workbook.page import Page
from pricebook.workbook.split_columns import rule_words

PRACTICE = (
    "Values, taxes and receipts: a licensed practitioner and the charity's own books "
    "decide; this workbook only adds up."
)


def write_event_sources(page: Page, values: BookValues) -> None:
    """Write who stated each figure, when and how.

    Parameters
    ----------
    page : Page
        An empty page.
    values : BookValues
        The event and its lots.
    """
    event = values.event
    page.title("Sources", PRACTICE)
    page.heads(("What", "Figure", "Stated by", "On", "How"), (1,))
    for lot in event.lots:
        if lot.value is not None:
            cells = [
                text(f"Fair market value of lot {lot.key}"),
                money(lot.value.cents),
            ]
            cells += [text(lot.value.by), day(lot.value.on), text(lot.value.method)]
            page.line(cells)
    for row in event.net_pays_for:
        cells = [text(f"Cost of one {row.unit}"), money(row.cost_cents)]
        cells += [text(row.stated_by), day(row.stated_on)]
        page.line([*cells, text("the charity's own stated cost")])
    for what, how in _event_rows(event):
        page.line([text(what), EMPTY, EMPTY, EMPTY, text(how)])
    for place, words in enumerate(rule_words(values)):
        what = "Order of deductions" if place == 0 else ""
        page.line([Cell(what, "text"), EMPTY, EMPTY, EMPTY, text(words)])
    page.done(f"{event.name}: sources")


def _event_rows(event: Event) -> list[tuple[str, str]]:
    published = event.catalogue_published
    moment = f"{published:%Y-%m-%d %H:%M}" if published else "not stated"
    return [
        ("Catalogue published", moment),
        ("Bidding opens", f"{event.bidding_opens:%Y-%m-%d %H:%M}"),
        ("Ladder of bids", f"{event.ladder.name}, as the event file gives it"),
        ("Sales tax", event.tax_note or "no note is given"),
        ("Costs of the lots", "the event file, or the cost sheet of the lot's piece"),
    ]
