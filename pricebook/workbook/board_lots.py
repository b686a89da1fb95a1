"""What lies behind the board's report: lots, who gets what, payouts, receipts."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.event import SettledLot
from pricebook.event.board import BoardReport
from pricebook.event.naming import some_lots
from pricebook.event.papers import LedgerRow, PaddleReceipt, Payout
from pricebook.receipts import PRACTITIONER
from pricebook.workbook.cells import EMPTY, Cell, a1, money, money_formula, span, text
from pricebook.workbook.page import Page

_LOTS = ("Lot", "Title", "State", "Paddle", "Hammer price", "Premium", "Sales tax",
         "Charged", "Paid", "Owed", "To others", "To the charity", "Paid by",
         "If not sold", "Note")  # fmt: skip
_SPLIT = ("Lot", "To", "For", "Amount", "How")
_PAYOUTS = ("To", "", "Due", "When unpaid lots are paid", "Lots")
_RECEIPTS = ("No", "Paddle", "Lots", "Paid", "Gift part", "Deductible at most",
             "Papers due")  # fmt: skip
_LEDGER = ("Lot", "Paddle", "Entry", "Hammer price", "Premium", "Sales tax",
           "Charged", "Why, by whom, when")  # fmt: skip


def write_settled_lots(page: Page, report: BoardReport) -> None:
    """Write every lot as it was settled, unsold ones with what becomes of them.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title("Lots settled", f"{report.title}, {report.held_on}: to the cent.")
    page.heads(_LOTS, range(4, 12))
    first = page.row
    for settled in report.lots:
        page.line(_lot(settled, page.row))
    _sums(page, first, range(4, 12), [_lot_cents(x) for x in report.lots], 1)
    page.done(f"{report.title}: lots settled")


def _lot_cents(settled: SettledLot) -> tuple[int, ...]:
    """Return the amounts of a lot, all 0 where no sale stands [cents]."""
    split = settled.split if settled.is_sold else None
    return (
        settled.hammer_cents,
        split.premium_cents if split else 0,
        split.tax_cents if split else 0,
        settled.charged_cents,
        settled.received_cents,
        settled.unpaid_cents,
        settled.costs_cents,
        settled.charity_cents,
    )


def _lot(settled: SettledLot, row: int) -> list[Cell]:
    result, amounts = settled.result, _lot_cents(settled)
    cells = [
        text(settled.key, "bold"),
        text(settled.lot.title),
        text(result.state),
        text(result.paddle),
    ]
    if settled.is_sold:
        cells += [money(cents) for cents in amounts]
        cells[7] = money_formula(f"SUM({a1(row, 4)}:{a1(row, 6)})", amounts[3])
        cells[9] = money_formula(f"{a1(row, 7)}-{a1(row, 8)}", amounts[5])
    else:
        cells += [EMPTY] * len(amounts)
    return [*cells, text(result.method), text(settled.becomes), text(result.note)]


def write_who_gets_what(page: Page, report: BoardReport) -> None:
    """Write the split of every lot sold, a line a payee, with how it was found.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title(
        "Who gets what",
        "Every lot sold, in the order of deductions; an unpaid lot's parts are due "
        "when it is paid.",
    )
    page.heads(_SPLIT, (3,))
    first, amounts = page.row, []
    for settled in report.lots:
        lines = settled.split.lines if settled.split and settled.is_sold else ()
        for line in lines:
            how = line.how if settled.is_paid else f"{line.how}; when it is paid"
            words = [text(settled.key, "bold"), text(line.payee), text(line.label)]
            page.line([*words, money(line.amount_cents), text(how)])
            amounts.append((line.amount_cents,))
    _sums(page, first, (3,), amounts, 1)
    page.done(f"{report.title}: who gets what", landscape=False)


def write_payouts(page: Page, report: BoardReport) -> None:
    """Write what each payee gets.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title("Payouts", f"{report.title}, {report.held_on}: by payee.")
    page.heads(_PAYOUTS, (2, 3))
    first = page.row
    for payout in report.payouts:
        page.line(_payout(payout))
    amounts = [(x.due_cents, x.pending_cents) for x in report.payouts]
    _sums(page, first, (2, 3), amounts, 0)
    page.done(f"{report.title}: payouts", landscape=False)


def _payout(payout: Payout) -> list[Cell]:
    what = "the charity" if payout.is_charity else "tax" if payout.is_tax else ""
    return [
        text(payout.payee),
        text(what),
        money(payout.due_cents),
        money(payout.pending_cents),
        text(some_lots(payout.lots)),
    ]


def write_receipts(page: Page, report: BoardReport) -> None:
    """Write the receipts by paddle, gift and deductible part apart.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title("Receipts", "By paddle, for lots that are paid; hammer prices alone.")
    page.heads(_RECEIPTS, (3, 4, 5))
    first = page.row
    for receipt in report.receipts:
        page.line(_receipt(receipt))
    amounts = [
        (x.paid_cents, x.gift_cents or 0, x.deductible_cents or 0)
        for x in report.receipts
    ]
    _sums(page, first, (3, 4, 5), amounts, 1)
    page.skip()
    page.note(PRACTITIONER)
    page.done(f"{report.title}: receipts", landscape=False)


def _receipt(receipt: PaddleReceipt) -> list[Cell]:
    due = [
        word
        for word, is_due in (
            ("disclosure", receipt.disclosure),
            ("acknowledgment", receipt.acknowledgment),
        )
        if is_due
    ]
    gift, deductible = receipt.gift_cents, receipt.deductible_cents
    return [
        Cell(receipt.number, "whole"),
        text(receipt.paddle),
        text(some_lots([lot.key for lot in receipt.lots])),
        money(receipt.paid_cents),
        text("no value", "text right") if gift is None else money(gift),
        text("not stated", "text right") if deductible is None else money(deductible),
        text(", ".join(due) or "none"),
    ]


def write_ledger(page: Page, report: BoardReport) -> None:
    """Write every sale, and under one made void the row that takes it back.

    Parameters
    ----------
    page : Page
        An empty page.
    report : BoardReport
        What the board is told.
    """
    page.title("Ledger", "Every sale as it was made; one made void stays and is "
               "taken back by a row of its own.")  # fmt: skip
    page.heads(_LEDGER, range(3, 7))
    first = page.row
    for row in report.ledger:
        page.line(_entry(row, page.row))
    amounts = [
        (x.hammer_cents, x.premium_cents, x.tax_cents, x.charged_cents)
        for x in report.ledger
    ]
    _sums(page, first, range(3, 7), amounts, 0)
    page.done(f"{report.title}: ledger")


def _entry(row: LedgerRow, at: int) -> list[Cell]:
    return [
        text(row.lot, "bold"),
        text(row.paddle),
        text(row.kind),
        money(row.hammer_cents),
        money(row.premium_cents),
        money(row.tax_cents),
        money_formula(f"SUM({a1(at, 3)}:{a1(at, 5)})", row.charged_cents),
        text(row.words),
    ]


def _sums(
    page: Page,
    first: int,
    columns: Sequence[int],
    amounts: Sequence[tuple[int, ...]],
    words: int,
) -> None:
    """Write the sums of columns of money below their rows, if there are rows."""
    if not amounts:
        page.note("None.")
        return
    cells: list[Cell] = [EMPTY] * (max(columns) + 1)
    cells[words] = text("In all", "")
    for column, parts in zip(columns, zip(*amounts, strict=True), strict=True):
        where = span(first, page.row - 1, column)
        cells[column] = money_formula(f"SUM({where})", sum(parts))
    page.line(cells, "result")
