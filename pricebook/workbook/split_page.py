"""The live split: who gets what of each lot, as soon as its price is filled in."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from pricebook.workbook.cells import EMPTY, Cell, money_formula, span, text
from pricebook.workbook.event_values import BookValues
from pricebook.workbook.page import Page
from pricebook.workbook.results_page import ResultCells
from pricebook.workbook.split_columns import TITLE, Columns, SplitCells, rule_words
from pricebook.workbook.split_row import SplitRow, amounts_of


def write_split(
    page: Page,
    values: BookValues,
    cells: SplitCells,
    results: ResultCells,
    documented: Callable[[int], str],
) -> None:
    """Write the split.

    Parameters
    ----------
    page : Page
        An empty page.
    values : BookValues
        The lots, and what is known of them.
    cells : SplitCells
        Where it goes.
    results : ResultCells
        Where the results stand.
    documented : callable
        Where the documented cost of a lot stands, by its place from 1.
    """
    event, columns = values.event, cells.columns
    page.title("Split", f"{event.name}, {event.on}: filled by the results sheet.")
    page.note(
        "The order of deductions: each takes no more than those before it have left.",
        "bold text",
    )
    for sentence in rule_words(values):
        page.note(sentence)
    page.skip()
    page.heads(columns.heads, columns.money)
    assert page.row == cells.first
    for place, one in enumerate(values.lots, 1):
        row = SplitRow(one, columns, page.row, results)
        page.line(row.cells(place, documented(place)))
    _sums(page, values, cells)
    page.sheet.protect("", {"format_columns": True, "format_rows": True})
    page.done(f"{event.name}: split")


def column_sums(
    values: BookValues, columns: Columns, *, paid: bool
) -> Mapping[int, int]:
    """Return the sums of the money columns, of all lots or of those paid in full.

    Parameters
    ----------
    values : BookValues
        The lots.
    columns : Columns
        Which column holds what.
    paid : bool
        Whether only lots that are paid in full count.

    Returns
    -------
    mapping of int to int
        Cents by column. [cents]
    """
    found = dict.fromkeys(columns.money, 0)
    for one in values.lots:
        if paid and not (one.settled and one.settled.is_paid):
            continue
        for column, cents in amounts_of(one, columns).items():
            if column in found:
                found[column] += cents
    return found


def _sums(page: Page, values: BookValues, cells: SplitCells) -> None:
    """Write the totals, of all lots and of those that are paid in full."""
    columns = cells.columns
    rows = (cells.first, cells.last)
    whole = column_sums(values, columns, paid=False)
    page.line(
        _total(columns, "Total", whole, [f"SUM({span(*rows, c)})" for c in whole]),
        "total",
    )
    if not values.can_total:
        return
    full = span(*rows, columns.full)
    paid = column_sums(values, columns, paid=True)
    formulas = [f'SUMIF({full},"yes",{span(*rows, c)})' for c in paid]
    page.line(_total(columns, "Of lots paid in full", paid, formulas), "result")


def _total(
    columns: Columns, words: str, sums: Mapping[int, int], formulas: Sequence[str]
) -> list[Cell]:
    found = [EMPTY] * len(columns.heads)
    found[TITLE] = text(words, "")
    for (column, cents), formula in zip(sums.items(), formulas, strict=True):
        found[column] = money_formula(formula, cents)
    return found
