"""What `settle --json` answers: money as text with units and cents, keys that stay."""

from __future__ import annotations

from typing import Any

from pricebook.commands.learning_text import learning_answer
from pricebook.commands.settling import Settled
from pricebook.commands.years import year_answer
from pricebook.event import (
    BoardReport,
    Control,
    PaddleReceipt,
    Payout,
    SettledLot,
    Settlement,
)
from pricebook.money import show


def settle_answer(found: Settled) -> dict[str, Any]:
    """Return a settlement as one JSON object.

    Parameters
    ----------
    found : Settled
        The settlement.

    Returns
    -------
    dict
        Keys event, key, on, clean, verdict, controls, lots, unpaid, unsold, refunds,
        receipts, payouts, cash, rates, gifts_and_hours, net_pays_for, forecast,
        return_lines, cautions, records, year.
    """
    done, report = found.done, found.report
    return {
        "event": report.title,
        "key": done.event.key,
        "on": report.held_on,
        "clean": report.is_clean,
        "verdict": report.verdict,
        "controls": [_control(control) for control in report.controls],
        "lots": [_lot(settled) for settled in done.lots],
        **_papers(done),
        **_board(report),
        "cautions": list(report.cautions),
        "records": learning_answer(found.learnt),
        "year": year_answer(found.year),
    }


def _amount(cents: int | None) -> str | None:
    return None if cents is None else show(cents)


def _control(control: Control) -> dict[str, Any]:
    left: str | int = control.left
    right: str | int = control.right
    if control.is_money:
        left, right = show(control.left), show(control.right)
    return {
        "name": control.name,
        "verdict": control.verdict,
        "left": left,
        "left_words": control.left_words,
        "right": right,
        "right_words": control.right_words,
    }


def _lot(settled: SettledLot) -> dict[str, Any]:
    split = settled.split
    receipt = settled.receipt
    return {
        "lot": settled.key,
        "title": settled.lot.title,
        "state": settled.result.state,
        "paddle": settled.result.paddle,
        "hammer": _amount(split.hammer_cents if split else None),
        "premium": _amount(split.premium_cents if split else None),
        "tax": _amount(split.tax_cents if split else None),
        "charged": show(settled.charged_cents),
        "received": show(settled.received_cents),
        "owed": show(settled.unpaid_cents),
        "paid": settled.is_paid,
        "method": settled.result.method,
        "split": [
            {
                "to": x.payee,
                "for": x.label,
                "amount": show(x.amount_cents),
                "how": x.how,
            }
            for x in (split.lines if split and settled.is_sold else ())
        ],
        "to_others": show(settled.costs_cents),
        "to_the_charity": show(settled.charity_cents),
        "gift": _amount(receipt.gift_cents if receipt else None),
        "deductible": _amount(receipt.deductible_cents if receipt else None),
        "against_estimate": settled.against_estimate,
        "becomes": settled.becomes,
        "note": settled.result.note,
    }


def _papers(done: Settlement) -> dict[str, Any]:
    return {
        "unpaid": [
            {"lot": x.key, "paddle": x.result.paddle, "owed": show(x.unpaid_cents)}
            for x in done.unpaid
        ],
        "unsold": [
            {"lot": x.key, "state": x.result.state, "becomes": x.becomes}
            for x in done.unsold
        ],
        "refunds": [
            {"lot": x.key, "paddle": x.result.paddle, "amount": show(x.refund_cents)}
            for x in done.refunds
        ],
        "receipts": [_receipt(receipt) for receipt in done.receipts],
        "payouts": [_payout(payout) for payout in done.payouts],
        "cash": {
            "raised": show(done.raised_cents),
            "spent": show(done.spent_cents),
            "net": show(done.net_cents),
            "unpaid": show(done.unpaid_cents),
            "charged": show(done.charged_cents),
            "hammer": show(done.hammer_cents),
        },
    }


def _receipt(receipt: PaddleReceipt) -> dict[str, Any]:
    return {
        "number": receipt.number,
        "paddle": receipt.paddle,
        "lots": [lot.key for lot in receipt.lots],
        "paid": show(receipt.paid_cents),
        "gift": _amount(receipt.gift_cents),
        "deductible": _amount(receipt.deductible_cents),
        "disclosure": receipt.disclosure,
        "acknowledgment": receipt.acknowledgment,
        "words": list(receipt.words),
    }


def _payout(payout: Payout) -> dict[str, Any]:
    return {
        "to": payout.payee,
        "due": show(payout.due_cents),
        "pending": show(payout.pending_cents),
        "lots": list(payout.lots),
        "is_charity": payout.is_charity,
        "is_tax": payout.is_tax,
    }


def _board(report: BoardReport) -> dict[str, Any]:
    return {
        "money": [
            {"label": x.label.strip(), "amount": show(x.cents), "how": x.how}
            for x in report.money
        ],
        "rates": [
            {"label": x.label, "figure": x.figure, "how": x.how} for x in report.rates
        ],
        "gifts_and_hours": [
            {"label": x.label, "amount": show(x.cents), "how": x.how}
            for x in report.gifts_and_hours
        ],
        "net_pays_for": [
            {
                "unit": x.unit,
                "count": x.count,
                "left": show(x.left_cents),
                "cost": show(x.cost_cents),
                "stated_by": x.stated_by,
                "stated_on": x.stated_on.isoformat(),
            }
            for x in report.net_pays_for
        ],
        "forecast": [
            {"label": x.label, "figure": x.figure, "how": x.how}
            for x in report.forecast
        ],
        "return_lines": [
            {"line": x.line, "label": x.label, "amount": show(x.cents)}
            for x in report.return_lines
        ],
    }
