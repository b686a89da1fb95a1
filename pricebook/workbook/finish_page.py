"""The finish: every kind of coat with its films, and what all build together."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.cost.finish_text import COAT_HEADS, build_words, coat_rows
from pricebook.cost.lines import CostSheet
from pricebook.finish.words import area
from pricebook.workbook.cells import text
from pricebook.workbook.page import Page

_RIGHT = (1, 3, 4, 5, 6)


def write_finish(page: Page, sheets: Sequence[CostSheet]) -> None:
    """Write the coats of every piece that gets a finish.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.
    """
    page.title("Finish", "Films are wet as laid on and dry when the coat has cured.")
    page.heads([words.capitalize() for words in COAT_HEADS], _RIGHT)
    for sheet in sheets:
        _piece(page, sheet)
    page.done(", ".join(sheet.piece for sheet in sheets) + ": finish")


def _piece(page: Page, sheet: CostSheet) -> None:
    plan = sheet.finish
    if plan is None:
        page.note(f"{sheet.piece}: no finish.")
        return
    coated = area(plan.rows[0].area_m2, plan.lengths)
    page.line(
        [text(f"{sheet.piece}: {plan.system.name}, {coated} a coat", "")], "group"
    )
    for row in coat_rows(plan):
        page.line(
            [
                text(words, "text right" if column in _RIGHT else "text")
                for column, words in enumerate(row)
            ]
        )
    build = build_words(plan)
    page.note(f"{build[:1].upper()}{build[1:]}")
