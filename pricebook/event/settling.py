"""Settle the evening: every lot to the cent, and the papers that follow."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from pricebook.event.controls import controls
from pricebook.event.papers import invoices, ledger, payouts, receipts
from pricebook.event.plan import Event
from pricebook.event.result_checks import in_order
from pricebook.event.results import Counted, Result
from pricebook.event.return_lines import return_lines
from pricebook.event.settlement import Settlement
from pricebook.event.settling_lots import settle_lots, with_card_fees


def settle(
    event: Event, results: Iterable[Result], counted: Counted | None = None
) -> Settlement:
    """Settle an event: every lot to the cent, and the papers that follow.

    Parameters
    ----------
    event : Event
        The event; its sales tax must be set.
    results : iterable of Result
        One for each lot, in any order.
    counted : Counted, optional
        Money as two people counted it, apart from the bids.

    Returns
    -------
    Settlement
        The same for the same input.

    Raises
    ------
    MoneyError
        If the sales tax is not set.
    SpecError
        With a sentence for each result that cannot be right.

    Notes
    -----
    A lot that is paid is split by its order of deductions, with a card fee only if
    it was paid by card; each lot counts as a payment of its own, until the fees that
    were charged are counted: those are then shared out over the lots. An unpaid lot is
    split too, but nothing of it is paid out and it is no cash raised. A sale made
    void stays in the ledger with a row that reverses it. Buyers are paddle numbers.

    Examples
    --------
    >>> from datetime import date, datetime
    >>> from pricebook.event import Lot
    >>> from pricebook.proceeds import Rest, SalesTax, Share
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     sales_tax=SalesTax("nobody", base="none"),
    ...     deductions=(Share("guild", 0.05), Rest("the Share")),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ... )
    >>> done = settle(spring, [Result(lot="1", state="sold", hammer_cents=12000,
    ...                               paddle="4", paid=True, method="cash")])
    >>> done.raised_cents, done.spent_cents, done.net_cents, done.is_clean
    (12000, 600, 11400, True)
    """
    counted = counted or Counted()
    by_rule = settle_lots(event, in_order(event, results))
    lots = with_card_fees(event, by_rule, counted.card_fees_cents)
    done = Settlement(
        event=event,
        lots=lots,
        counted=counted,
        card_fees_by_rule_cents=sum(lot.card_fee_cents for lot in by_rule),
        ledger=ledger(lots),
        invoices=invoices(lots),
        receipts=receipts(lots),
        payouts=payouts(lots),
        lines=return_lines(event, lots),
    )
    return replace(done, controls=controls(done))
