"""The board's report on one sheet: verdict, money, rates, what the net pays for."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.event.board import BoardReport
from pricebook.event.board_values import Amount, Compared
from pricebook.money import show
from pricebook.workbook.cells import EMPTY, Cell, a1, money, money_formula, text
from pricebook.workbook.page import Page, lines_of

CENTS, WHOLE = 1, 2
_RAISED, _SPENT, _NET = "Cash raised", "Cash spent", "Net"
_SIGN_POINTS = 22.0
_VERDICT_POINTS = 20.0
_VERDICT_SHARE = 0.7
"""Share of the letters of a line that fit in the larger, bold type."""


def write_board_page(page: Page, report: BoardReport) -> None:
    """Write the report that the board reads.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title(report.title, f"{report.charity}, {report.held_on}.")
    lines = lines_of(report.verdict, sum(page.widths) * _VERDICT_SHARE)
    page.merged(report.verdict, "text bold ruled", lines * _VERDICT_POINTS)
    page.skip()
    page.heads(("Money", "To the cent", "Whole units", "How it was found"), (1, 2))
    _money(page, report.money)
    _compared(page, "Cost to raise", report.rates)
    page.line([text("Given, never in the cash above", "")], "group")
    for row in report.gifts_and_hours:
        _amount(page, row)
    _pays_for(page, report)
    _compared(page, "Against the forecast", report.forecast)
    _sentences(page, "Not yet paid", report.unpaid)
    _sentences(page, "Not sold", report.unsold)
    _sentences(page, "To be paid back", report.refunds)
    _sentences(page, "Before using a figure", report.cautions)
    page.line([text("Signed", "")], "group")
    for whom in report.sign_off:
        page.line([text(whom), *[Cell(None, "line")] * 3], points=_SIGN_POINTS)
    page.done(f"{report.title}, {report.held_on}", landscape=False, one=True)


def _money(page: Page, rows: Sequence[Amount]) -> None:
    """Write the money; the net is a formula where it is raised less spent."""
    cents = {row.label: row.cents for row in rows}
    at: dict[str, str] = {}
    for row in rows:
        at[row.label] = a1(page.row, CENTS)
        sides = (_RAISED, _SPENT)
        is_net = row.label == _NET and all(side in at for side in sides)
        if is_net and cents[_RAISED] - cents[_SPENT] == row.cents:
            _amount(page, row, f"{at[_RAISED]}-{at[_SPENT]}", "result")
            page.skip()
        else:
            _amount(page, row)


def _amount(page: Page, row: Amount, formula: str = "", look: str = "") -> None:
    """Write an amount to the cent and in whole units, rounded once."""
    exact = money_formula(formula, row.cents) if formula else money(row.cents)
    whole = f"=ROUND({a1(page.row, CENTS)},0)"
    cells = [text(row.label), exact, Cell(row.whole, "units", whole)]
    page.line([*cells, text(row.how)], look)


def _compared(page: Page, words: str, rows: Sequence[Compared]) -> None:
    if not rows:
        return
    page.line([text(words, "")], "group")
    for row in rows:
        figure = text(row.figure or "none", "text right")
        page.line([text(row.label), figure, EMPTY, text(row.how)])


def _pays_for(page: Page, report: BoardReport) -> None:
    """Write what the net pays for, at the charity's own stated cost."""
    if not report.net_pays_for:
        return
    heads = ("What the net pays for", "Cost of one", "How many", "Stated by, on")
    page.subheads(heads, (1, 2))
    for row in report.net_pays_for:
        said = f"{row.stated_by}, {row.stated_on}; {_left(row.left_cents)}"
        count = Cell(row.count, "whole")
        page.line([text(row.unit), money(row.cost_cents), count, text(said)])


def _left(cents: int) -> str:
    return f"{show(cents)} left over"


def _sentences(page: Page, words: str, rows: Sequence[str]) -> None:
    if not rows:
        return
    page.line([text(words, "")], "group")
    for row in rows:
        page.note(row)
