"""The tables behind the board's report: pieces, control totals, event lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pricebook.event.board import BoardReport
from pricebook.event.board_values import PieceRow, ReturnRow
from pricebook.event.control import Control
from pricebook.workbook.cells import (
    EMPTY,
    Cell,
    a1,
    money,
    money_formula,
    span,
    text,
)
from pricebook.workbook.page import Page

PIECE_HEADS = (
    "Lot",
    "Title",
    "State",
    "Hammer price",
    "Fair market value",
    "Estimate from",
    "to",
    "Against it",
    "Used up",
    "Gifts in kind",
    "Time given",
    "Full cost",
    "Hammer over used up",
    "Hammer over full cost",
    "Charity's part",
    "Hours",
)
HAMMER, USED, GIFTS, TIME, FULL, OVER_USED, OVER_FULL, MINE = (
    3,
    8,
    9,
    10,
    11,
    12,
    13,
    14,
)
_RIGHT = (HAMMER, 4, 5, 6, *range(USED, len(PIECE_HEADS)))
_SUMMED = (HAMMER, USED, GIFTS, TIME, FULL, MINE)


def write_pieces(page: Page, report: BoardReport) -> None:
    """Write each piece against its cost and its estimate.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title(
        "Pieces", f"{report.title}, {report.held_on}: against cost and estimate."
    )
    page.heads(PIECE_HEADS, _RIGHT)
    first = page.row
    for row in report.pieces:
        page.line(_piece(row, page.row))
    if report.pieces:
        page.line(_piece_sums(report.pieces, first, page.row - 1), "result")
    page.done(f"{report.title}: pieces")


def _or_blank(cents: int | None) -> Cell:
    return EMPTY if cents is None else money(cents)


def _piece(row: PieceRow, at: int) -> list[Cell]:
    """Return the cells of a piece; what is not known stays blank."""
    hammer, used = a1(at, HAMMER), a1(at, USED)
    parts = (row.used_up_cents, row.gifts_cents, row.time_cents)
    return [
        text(row.lot, "bold"),
        text(row.title),
        text(row.state if row.is_paid or row.state != "sold" else "sold, unpaid"),
        _or_blank(row.hammer_cents),
        _or_blank(row.fair_market_value_cents),
        _or_blank(row.estimate_low_cents),
        _or_blank(row.estimate_high_cents),
        text(row.against_estimate),
        *(_or_blank(cents) for cents in parts),
        _formula(f"SUM({used}:{a1(at, TIME)})", row.full_cents),
        _formula(f"{hammer}-{used}", row.over_used_up_cents),
        _formula(f"{hammer}-{a1(at, FULL)}", row.over_full_cents),
        money(row.charity_cents),
        EMPTY if row.hours is None else Cell(round(row.hours, 2), "number"),
    ]


def _formula(formula: str, cents: int | None) -> Cell:
    return EMPTY if cents is None else money_formula(formula, cents)


def _piece_sums(rows: Sequence[PieceRow], first: int, last: int) -> list[Cell]:
    sums = {
        HAMMER: sum(row.hammer_cents or 0 for row in rows),
        USED: sum(row.used_up_cents or 0 for row in rows),
        GIFTS: sum(row.gifts_cents or 0 for row in rows),
        TIME: sum(row.time_cents or 0 for row in rows),
        FULL: sum(row.full_cents or 0 for row in rows),
        MINE: sum(row.charity_cents for row in rows),
    }
    cells: list[Cell] = [EMPTY] * len(PIECE_HEADS)
    cells[1] = text("All lots", "")
    for column in _SUMMED:
        cells[column] = money_formula(f"SUM({span(first, last, column)})", sums[column])
    return cells


def write_board_controls(page: Page, report: BoardReport) -> None:
    """Write the control totals, each verdict a formula of its two sides.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title("Control totals", f"{report.title}, {report.held_on}.")
    page.note(report.verdict, "text bold")
    page.skip()
    heads = ("What must hold", "One way", "", "Another way", "", "Verdict")
    page.heads(heads, (2, 4))
    for control in report.controls:
        page.line(_control(control, page.row))
    page.done(f"{report.title}: control totals")


def _control(control: Control, at: int) -> list[Cell]:
    def side(value: int) -> Cell:
        return money(value) if control.is_money else Cell(value, "whole")

    same = f'=IF(ROUND({a1(at, 2)}-{a1(at, 4)},2)=0,"PASS","FAIL")'
    return [
        text(control.name),
        text(control.left_words),
        side(control.left),
        text(control.right_words),
        side(control.right),
        Cell(control.verdict, "check", same),
    ]


def write_return_lines(page: Page, report: BoardReport) -> None:
    """Write the event lines of the public return, as a tie-out for the accountant.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title(
        "Event lines", "A worksheet for the charity's accountant, not the return."
    )
    page.heads(("Line", "What it holds", "To the cent", "Whole units"), (2, 3))
    if not report.return_lines:
        page.note("A value is missing, so no event line is stated; see the cautions.")
    at: dict[str, str] = {}
    cents = {row.line: row.cents for row in report.return_lines}
    for row in report.return_lines:
        here = a1(page.row, 2)
        formula = next(_adding_up(row, at, cents), "")
        at[row.line] = here
        exact = money_formula(formula, row.cents) if formula else money(row.cents)
        whole = Cell(row.whole, "units", f"=ROUND({here},0)")
        page.line([text(row.line, "bold"), text(row.label), exact, whole])
    page.skip()
    for caution in report.cautions:
        page.note(caution)
    page.done(f"{report.title}: event lines", landscape=False)


_SIDES = {"3": ("1", "2"), "11": ("3", "10")}
"""A line that is one line less another."""

_PARTS = ("4", "5", "6", "7", "8", "9")
"""Lines that line 10 adds up."""


def _adding_up(
    row: ReturnRow, at: Mapping[str, str], cents: Mapping[str, int]
) -> Iterator[str]:
    """Yield the formula of a line, if it comes to what the line holds."""
    sides = _SIDES.get(row.line, ())
    if sides and all(side in at for side in sides):
        first, second = sides
        if cents[first] - cents[second] == row.cents:
            yield f"{at[first]}-{at[second]}"
    parts = [part for part in _PARTS if part in at]
    if row.line == "10" and sum(cents[part] for part in parts) == row.cents:
        yield "+".join(at[part] for part in parts) or "0"
    other = row.label.rpartition("must equal line ")[2]
    if other != row.label and other in at and cents[other] == row.cents:
        yield at[other]
