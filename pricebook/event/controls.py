"""Control totals: each figure found by two ways, PASS when both agree."""

from __future__ import annotations

from collections.abc import Iterator

from pricebook.event.control import Control
from pricebook.event.results import STATES
from pricebook.event.settlement import Settlement


def controls(done: Settlement) -> tuple[Control, ...]:
    """Work out the control totals of a settlement.

    Parameters
    ----------
    done : Settlement
        The settlement.

    Returns
    -------
    tuple of Control
        In the order in which a treasurer would tick them off.

    Notes
    -----
    The left side comes from the results, lot by lot; the right side from the papers
    made of them, or from the money that two people counted.
    """
    return (
        *_lot_controls(done),
        *_price_controls(done),
        *_split_controls(done),
        *_money_controls(done),
        *_gift_controls(done),
        *_paper_controls(done),
    )


def _lot_controls(done: Settlement) -> Iterator[Control]:
    states = [lot.result.state for lot in done.lots]
    yield Control(
        name="every lot has a result",
        left_words="in the catalogue",
        left=len(done.event.lots),
        right_words="sold, passed, withdrawn or void",
        right=sum(states.count(state) for state in STATES),
        is_money=False,
    )


def _price_controls(done: Settlement) -> Iterator[Control]:
    sold = [lot.result for lot in done.lots if lot.is_sold]
    yield Control(
        name="hammer prices are on the invoices",
        left_words="hammer prices of lots sold",
        left=sum(result.hammer_cents or 0 for result in sold),
        right_words="on the buyers' invoices",
        right=sum(invoice.hammer_cents for invoice in done.invoices),
    )
    yield Control(
        name="charged is hammer, premium and tax",
        left_words="charged on the invoices",
        left=sum(invoice.charged_cents for invoice in done.invoices),
        right_words="hammer, premium and tax in the ledger",
        right=sum(row.charged_cents for row in done.ledger),
    )
    reversed_lots = {row.lot for row in done.ledger if row.kind == "reversal"}
    voids = [lot.result for lot in done.lots if lot.is_void]
    yield Control(
        name="sales made void are taken back",
        left_words="hammer prices of lots made void",
        left=sum(result.hammer_cents or 0 for result in voids),
        right_words="kept and reversed in the ledger",
        right=sum(
            row.hammer_cents
            for row in done.ledger
            if row.kind == "sale" and row.lot in reversed_lots
        ),
    )


def _split_controls(done: Settlement) -> Iterator[Control]:
    splits = [lot.split for lot in done.lots if lot.split]
    yield Control(
        name="every lot's split foots",
        left_words="lots split",
        left=len(splits),
        right_words="whose parts make what was charged",
        right=sum(sum(x.amounts.values()) == x.charged_cents for x in splits),
        is_money=False,
    )
    yield Control(
        name="payouts make what was charged",
        left_words="charged for lots sold",
        left=done.charged_cents,
        right_words="paid out, kept and pending",
        right=sum(x.due_cents + x.pending_cents for x in done.payouts),
    )
    mine = sum(x.due_cents for x in done.payouts if x.is_charity)
    beside = done.tickets_cents + done.cash_gifts_cents - done.costs_cents
    yield Control(
        name="raised less spent is the net",
        left_words="cash raised less cash spent",
        left=done.raised_cents - done.spent_cents,
        right_words="the charity's part, tickets and gifts less costs",
        right=mine + beside,
    )


def _money_controls(done: Settlement) -> Iterator[Control]:
    got = done.received_by_method
    yield Control(
        name="charged is paid or owed",
        left_words="charged",
        left=done.charged_cents,
        right_words="cash, cheques, cards and unpaid",
        right=sum(got.values()) + done.unpaid_cents,
    )
    fees = done.card_fees_cents
    counted = done.counted
    pairs = (
        ("cash", got["cash"], counted.cash_cents),
        ("cheques", got["cheque"], counted.cheque_cents),
        ("card deposits", got["card"] - fees, counted.card_deposit_cents),
        ("card fees", fees, counted.card_fees_cents),
    )
    for word, from_lots, from_count in pairs:
        if from_count is not None:
            yield Control(
                name=f"{word} by the lots and as counted",
                left_words="by the lots",
                left=from_lots,
                right_words="counted apart from them",
                right=from_count,
            )


def _gift_controls(done: Settlement) -> Iterator[Control]:
    gifts = {lot.key: lot.gift_in_kind_cents or 0 for lot in done.event.lots}
    sold = sum(gifts[lot.key] for lot in done.lots if lot.is_sold)
    back = sum(gifts[lot.key] for lot in done.lots if lot.is_returned)
    kept = sum(
        gifts[lot.key] for lot in done.lots if not (lot.is_sold or lot.is_returned)
    )
    yield Control(
        name="pieces given are accounted for",
        left_words="given, at their value when received",
        left=sum(gifts.values()),
        right_words="sold, on hand and returned",
        right=sold + kept + back,
    )
    if done.lines is not None:
        on_hand = sum(
            gifts[x.key] for x in done.lots if not (x.is_paid or x.is_returned)
        )
        yield Control(
            name="event lines make the cash",
            left_words="lines 2 and 11 of the event lines",
            left=done.lines[2] + done.lines[11],
            right_words="net, and pieces on hand",
            right=done.net_cents + on_hand,
        )


def _paper_controls(done: Settlement) -> Iterator[Control]:
    paddles = {lot.result.paddle for lot in done.lots if lot.is_paid}
    yield Control(
        name="every paddle that paid has a receipt",
        left_words="paddles that paid",
        left=len(paddles),
        right_words="receipts",
        right=len({receipt.paddle for receipt in done.receipts}),
        is_money=False,
    )
    numbers = [receipt.number for receipt in done.receipts]
    yield Control(
        name="receipts are numbered without a gap",
        left_words="receipts",
        left=len(set(numbers)),
        right_words="highest number",
        right=max(numbers, default=0),
        is_money=False,
    )
