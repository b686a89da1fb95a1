"""A settlement as plain text: controls, lots, papers, the board's figures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import wrap

from pricebook.commands.learning_text import learning_text
from pricebook.commands.settling import Settled
from pricebook.commands.years import year_text
from pricebook.cost.printing import text_table
from pricebook.event import (
    Amount,
    BoardReport,
    Compared,
    PaddleReceipt,
    SettledLot,
    Settlement,
)
from pricebook.event.naming import some_lots
from pricebook.money import show
from pricebook.receipts import PRACTITIONER

_WIDTH = 100
_MOST_LOTS = 24
"""So many lots are named on a line of a table."""


def settle_text(found: Settled, kept: Sequence[str] = ()) -> str:
    """Print a settlement.

    Parameters
    ----------
    found : Settled
        The settlement.
    kept : sequence of str
        What was added to the price book.

    Returns
    -------
    str
        Plain text; a part without anything to say says none.
    """
    done, report = found.done, found.report
    parts = [
        f"{report.title}, {report.held_on}: settled for {report.charity}\n"
        + said([report.verdict]),
        f"Control totals\n{said(control.words for control in report.controls)}",
        *_lots(done),
        f"Unpaid\n{said(report.unpaid)}",
        _receipts(done),
        _payouts(done),
        f"Not sold, and what becomes of it\n{said(report.unsold)}",
        f"To be paid back\n{said(report.refunds)}",
        *_board(report),
        f"Before using a figure\n{said(report.cautions)}",
        learning_text(found.learnt),
    ]
    if found.year is not None:
        parts.append(year_text(found.year, found.unclean))
    if kept:
        parts.append(f"Kept in the price book\n{said(kept)}")
    return "\n\n".join(parts)


def plain(text: str) -> str:
    r"""Return what a person typed in one line, without what moves a cursor.

    Examples
    --------
    >>> plain("Low\n dresser \x1b[2J")
    'Low dresser [2J'
    """
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def said(words: Iterable[str]) -> str:
    """Print sentences, one a line or more; none is said to be none."""
    lines = [
        line
        for word in words
        for line in wrap(
            plain(word), _WIDTH, initial_indent="  ", subsequent_indent="      "
        )
    ]
    return "\n".join(lines) or "  none"


def _table(
    head: Sequence[str], rows: Sequence[Sequence[str]], right: Iterable[int]
) -> str:
    """Print a table, or that there is nothing to put into it."""
    return text_table(head, rows, right=right) if rows else said([])


def _lots(done: Settlement) -> list[str]:
    head = ("lot", "title", "state", "paddle", "hammer", "premium", "tax", "charged",
            "paid", "owed", "to others", "to the charity")  # fmt: skip
    rows = [_lot(settled) for settled in done.lots]
    rows.append(
        (
            "", "in all", "", "", show(done.hammer_cents),
            show(sum(x.premium_cents for x in done.invoices)),
            show(sum(x.tax_cents for x in done.invoices)), show(done.charged_cents),
            show(done.charged_cents - done.unpaid_cents), show(done.unpaid_cents),
            show(done.deductions_cents), show(sum(x.charity_cents for x in done.lots)),
        )
    )  # fmt: skip
    splits = [
        (x.key, plain(line.payee), plain(line.label), show(line.amount_cents),
         line.how if x.is_paid else f"{line.how}; when it is paid")
        for x in done.lots
        if x.is_sold and x.split
        for line in x.split.lines
    ]  # fmt: skip
    return [
        f"Lots\n{text_table(head, rows, right=range(4, 12))}",
        "Who gets what of each lot sold\n"
        + _table(("lot", "to", "for", "amount", "how"), splits, right=(3,)),
    ]


def _lot(settled: SettledLot) -> tuple[str, ...]:
    words = (
        settled.key,
        plain(settled.lot.title),
        settled.result.state,
        settled.result.paddle,
    )
    split = settled.split
    if split is None or not settled.is_sold:
        return (*words, *[""] * 8)
    return (
        *words,
        show(split.hammer_cents),
        show(split.premium_cents),
        show(split.tax_cents),
        show(split.charged_cents),
        show(settled.received_cents),
        show(settled.unpaid_cents),
        show(settled.costs_cents),
        show(settled.charity_cents),
    )


def _receipts(done: Settlement) -> str:
    rows = [
        (
            str(receipt.number),
            receipt.paddle,
            some_lots([lot.key for lot in receipt.lots], _MOST_LOTS),
            show(receipt.paid_cents),
            amount(receipt.gift_cents, "no value stated"),
            amount(receipt.deductible_cents, "not stated"),
            papers_due(receipt),
        )
        for receipt in done.receipts
    ]
    head = ("no", "paddle", "lots", "paid, no tax", "gift part", "deductible at most")
    table = _table((*head, "due"), rows, right=(0, 3, 4, 5))
    return f"Receipts\n{table}\n{said([PRACTITIONER])}"


def amount(cents: int | None, otherwise: str = "") -> str:
    """Print an amount, or a word when there is none."""
    return otherwise if cents is None else show(cents)


def papers_due(receipt: PaddleReceipt) -> str:
    """Say which papers a receipt calls for."""
    due = []
    if receipt.disclosure:
        due.append("disclosure")
    if receipt.acknowledgment:
        due.append("acknowledgment")
    return ", ".join(due) or "none"


def _payouts(done: Settlement) -> str:
    rows = [
        (
            plain(payout.payee),
            "the charity" if payout.is_charity else "tax" if payout.is_tax else "",
            show(payout.due_cents),
            show(payout.pending_cents),
            some_lots(payout.lots, _MOST_LOTS),
        )
        for payout in done.payouts
    ]
    head = ("to", "", "due", "when unpaid lots are paid", "lots")
    return f"Payouts\n{_table(head, rows, right=(2, 3))}"


def _board(report: BoardReport) -> list[str]:
    lines = [(row.line, row.label, show(row.cents)) for row in report.return_lines]
    event_lines = text_table(("line", "", "amount"), lines, right=(2,))
    return [
        f"Cash\n{_amounts(report.money)}",
        f"Cost to raise a dollar\n{_compared(report.rates)}",
        "Given, at stated value: never in the cash figures\n"
        + _amounts(report.gifts_and_hours),
        f"What the net pays for\n{said(row.words for row in report.net_pays_for)}",
        f"Forecast against what came\n{_compared(report.forecast)}",
        "Event lines of the public return, for the charity's accountant\n"
        + (event_lines if lines else "  none"),
    ]


def _amounts(rows: Iterable[Amount]) -> str:
    cells = [(row.label, show(row.cents), f"{row.whole:,}", row.how) for row in rows]
    head = ("", "amount", "in whole units", "what it is made of")
    return text_table(head, cells, right=(1, 2))


def _compared(rows: Iterable[Compared]) -> str:
    cells = [(row.label, row.figure or "none", row.how) for row in rows]
    return _table(("", "figure", "of"), cells, right=(1,))
