"""A batch at one look: a line a piece, each figure taken from its cost sheet."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.cost.lines import CostSheet
from pricebook.workbook.cells import Cell, span, text
from pricebook.workbook.cost_page import Totals
from pricebook.workbook.page import Page
from pricebook.workbook.safe import quoted

COLUMNS = (
    ("cash_to_buy", "Cash to buy"),
    ("used_up", "Used up"),
    ("gifts_in_kind", "Gifts in kind"),
    ("time_given", "Time given"),
    ("full_cost", "Full cost"),
    ("left", "Left over as stock"),
)


def write_summary(
    page: Page, sheets: Sequence[CostSheet], totals: Sequence[Totals]
) -> None:
    """Write a line a piece, and the sums of the batch.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.
    totals : sequence of Totals
        Where the totals of each stand.
    """
    on, shop = sheets[0].on, sheets[0].settings.shop
    page.title("Pieces together", f"{shop}, prices as of {on}.")
    heads = ("Piece", *(words for _, words in COLUMNS), "Hours")
    page.heads(heads, right=range(1, len(heads)))
    first = page.row
    for sheet, where in zip(sheets, totals, strict=True):
        cells = [
            Cell(
                getattr(sheet, f"{key}_cents") / 100,
                "money",
                f"={quoted(where.sheet)}!{where.cells[key]}",
            )
            for key, _ in COLUMNS
        ]
        page.line([text(sheet.piece), *cells, Cell(sheet.hours, "number")])
    page.line(_in_all(sheets, first, page.row - 1), "result")
    page.skip()
    page.note(
        "Cash is what there is to pay now; used up, gifts in kind and time given are "
        "three bases, and only their sum is the full cost. Time given is never "
        "deductible. Pieces of a batch share sheets, rolls and packs."
    )
    page.done("Pieces together")


def _in_all(sheets: Sequence[CostSheet], first: int, last: int) -> list[Cell]:
    """Return the sums of the rows of all pieces."""
    cells = [text("All pieces")]
    for column, (key, _) in enumerate(COLUMNS, 1):
        cents = sum(getattr(sheet, f"{key}_cents") for sheet in sheets)
        formula = f"=ROUND(SUM({span(first, last, column)}),2)"
        cells.append(Cell(cents / 100, "money", formula))
    hours = sum(sheet.hours for sheet in sheets)
    return [*cells, Cell(hours, "number", f"=SUM({span(first, last, len(cells))})")]
