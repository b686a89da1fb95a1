"""What the fundraiser's workbook looks like: the one place for its names.

The writer lays the workbook out by these names, and the reader of what comes back
looks for nothing else. A sheet may have more columns than named here; the reader
finds a column by its head, a row by its lot, and the event by its key, so rows and
columns may move.

- Sheet `RESULTS`: above the table a cell `EVENT_KEY_LABEL` with the event's key in
  the cell to its right; a row of heads (`COLUMNS`, each with its `head`); a row a
  lot below it. A row whose lot cell is `TOTAL` holds sums and is not read.
- Sheet `COUNTED`: a label of `COUNTED_LABELS` in a cell, its amount or name in the
  cell to its right.
- Every sheet of `SHEETS` is there when it comes back; more may be.
"""

from __future__ import annotations

from dataclasses import dataclass

CATALOGUE = "Catalogue"
BID_SHEETS = "Bid sheets"
RESULTS = "Results"
COUNTED = "Money counted"
SPLIT = "Split"
CONTROLS = "Control totals"
COSTS = "Costs"
SOURCES = "Sources"
SHEETS = (
    CATALOGUE,
    BID_SHEETS,
    RESULTS,
    COUNTED,
    SPLIT,
    CONTROLS,
    COSTS,
    SOURCES,
)
EVENT_KEY_LABEL = "Event key"
TOTAL = "Total"
YES, NO = "yes", "no"


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the results sheet.

    Parameters
    ----------
    name : str
        What the code calls it.
    head : str
        What its head says.
    is_input : bool
        Whether the fundraiser fills it in.
    hint : str
        What the writer shows beside a cell of it.

    Examples
    --------
    >>> COLUMNS[0].head
    'Lot'
    """

    name: str
    head: str
    is_input: bool
    hint: str = ""


COLUMNS = (
    Column("lot", "Lot", False),
    Column("title", "Title", False),
    Column("opening", "Opening bid", False),
    Column("reserve", "Reserve", False),
    Column(
        "state", "State", True, "sold, passed, withdrawn or void; a price means sold"
    ),
    Column("hammer", "Hammer price", True, "an amount with at most two decimals"),
    Column("paddle", "Paddle", True, "the buyer's paddle number"),
    Column("paid", "Paid", True, "yes, no, or the part that was paid"),
    Column("method", "Method", True, "cash, cheque or card"),
    Column("on", "Date", True, "when it was paid, or made void"),
    Column("initials", "Initials", True, "of who made it void"),
    Column("note", "Note", True, "anything a reader should know"),
)
"""Columns of the results sheet, from the left."""

HEADS = {column.name: column.head for column in COLUMNS}
COUNTED_LABELS = {
    "cash_cents": "Cash counted",
    "cheque_cents": "Cheques counted",
    "card_deposit_cents": "Card deposits at the bank",
    "card_fees_cents": "Card fees charged",
    "first_counter": "Counted by",
    "second_counter": "And counted by",
}
"""Labels of the sheet of money counted, by the field they fill; all may stay empty."""
