"""The money that two people count, apart from the bids."""

from __future__ import annotations

from pricebook.event.book import COUNTED_LABELS
from pricebook.workbook.cells import Cell, a1, text
from pricebook.workbook.event_values import BookValues
from pricebook.workbook.page import Page

_HOW = (
    "Two people count together, before anyone looks at the results, with the float "
    "taken out; what was not counted stays empty. Money for lots alone: what came for "
    "tickets and as gifts is counted apart. The control totals compare."
)


def write_counted(page: Page, values: BookValues) -> dict[str, str]:
    """Write the sheet for the money counted.

    Parameters
    ----------
    page : Page
        An empty page.
    values : BookValues
        What was counted so far.

    Returns
    -------
    dict of str to str
        Where each amount stands, by the field it fills.
    """
    event = values.event
    page.title("Money counted", f"{event.name}, {event.on}.")
    page.note(_HOW)
    page.skip()
    found: dict[str, str] = {}
    first = page.row
    for field, label in COUNTED_LABELS.items():
        value = getattr(values.counted, field)
        if field.endswith("_cents"):
            cell = Cell(None if value is None else value / 100, "money input")
        else:
            cell = Cell(value or None, "text input")
        row = page.line([text(label), cell], points=20)
        found[field] = f"{page.own}!{a1(row, 1, fixed=True)}"
    amounts = sum(field.endswith("_cents") for field in COUNTED_LABELS)
    top = a1(first, 1)
    page.sheet.data_validation(
        first,
        1,
        first + amounts - 1,
        1,
        {
            "validate": "custom",
            "value": f"=AND(ISNUMBER({top}),{top}>=0,ROUND({top},2)={top})",
            "error_message": "An amount is a number with at most two decimals.",
        },
    )
    page.sheet.protect("", {"format_columns": True, "format_rows": True})
    page.done(f"{event.name}: money counted", landscape=False)
    return found
