"""Settle the evening: every lot to the cent, and the papers that follow."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from pricebook.event.controls import Control, controls
from pricebook.event.papers import (
    Invoice,
    LedgerRow,
    PaddleReceipt,
    Payout,
    invoices,
    ledger,
    payouts,
    receipts,
)
from pricebook.event.plan import Event
from pricebook.event.result_checks import in_order
from pricebook.event.results import METHODS, Counted, Result
from pricebook.event.return_lines import return_lines
from pricebook.event.settled import SettledLot
from pricebook.event.settling_lots import settle_lots, with_card_fees
from pricebook.receipts import EventLines


@dataclass(frozen=True, slots=True, kw_only=True)
class Settlement:
    """An evening settled: who bought, who owes, who gets what, what was raised.

    Parameters
    ----------
    event : Event
        The event.
    lots : tuple of SettledLot
        In the order of the catalogue.
    counted : Counted
        Money as it was counted apart from the bids.
    ledger : tuple of LedgerRow
        Every sale, and the rows that reverse one.
    invoices : tuple of Invoice
        By paddle.
    receipts : tuple of PaddleReceipt
        By paddle, for what was paid.
    payouts : tuple of Payout
        By payee, the charity and the tax included.
    lines : EventLines or None
        Event lines of the public return; None while a value is missing.
    card_fees_by_rule_cents : int
        Card fees as the rule reckons them, before those charged were known. [cents]
    controls : tuple of Control
        Control totals.
    """

    event: Event
    lots: tuple[SettledLot, ...]
    counted: Counted
    ledger: tuple[LedgerRow, ...]
    invoices: tuple[Invoice, ...]
    receipts: tuple[PaddleReceipt, ...]
    payouts: tuple[Payout, ...]
    lines: EventLines | None
    card_fees_by_rule_cents: int = 0
    controls: tuple[Control, ...] = ()

    @property
    def is_clean(self) -> bool:
        """Whether every control total passes."""
        return all(control.passes for control in self.controls)

    @property
    def sold(self) -> tuple[SettledLot, ...]:
        """Lots sold, paid or not."""
        return tuple(lot for lot in self.lots if lot.is_sold)

    @property
    def unpaid(self) -> tuple[SettledLot, ...]:
        """Lots sold and not paid in full."""
        return tuple(lot for lot in self.lots if lot.is_sold and not lot.is_paid)

    @property
    def unsold(self) -> tuple[SettledLot, ...]:
        """Lots passed, withdrawn or made void; each says what becomes of it."""
        return tuple(lot for lot in self.lots if not lot.is_sold)

    @property
    def refunds(self) -> tuple[SettledLot, ...]:
        """Lots made void whose buyer had paid."""
        return tuple(lot for lot in self.lots if lot.refund_cents)

    def count(self, state: str) -> int:
        """Return how many lots came to a state."""
        return sum(lot.result.state == state for lot in self.lots)

    @property
    def hammer_cents(self) -> int:
        """Hammer prices of lots sold, paid or not [cents]."""
        return sum(lot.hammer_cents for lot in self.lots)

    @property
    def charged_cents(self) -> int:
        """Hammer prices, premiums and tax of lots sold [cents]."""
        return sum(lot.charged_cents for lot in self.lots)

    @property
    def unpaid_cents(self) -> int:
        """What buyers still owe [cents]."""
        return sum(lot.unpaid_cents for lot in self.lots)

    @property
    def deposits_cents(self) -> int:
        """Part payments held for lots that are not paid in full [cents]."""
        return sum(lot.received_cents for lot in self.unpaid)

    @property
    def received_by_method(self) -> dict[str, int]:
        """What was paid for lots sold, by cash, cheque and card [cents]."""
        got = dict.fromkeys(METHODS, 0)
        for lot in self.lots:
            if lot.received_cents:
                got[lot.result.method] += lot.received_cents
        return got

    @property
    def card_fees_cents(self) -> int:
        """Card fees of lots that are paid [cents]."""
        return sum(lot.card_fee_cents for lot in self.lots)

    @property
    def tickets_cents(self) -> int:
        """What was paid for tickets [cents]."""
        return sum(ticket.cash_cents for ticket in self.event.tickets)

    @property
    def cash_gifts_cents(self) -> int:
        """Gifts of money [cents]."""
        return sum(x.value_cents for x in self.event.gifts if x.kind == "cash")

    @property
    def costs_cents(self) -> int:
        """Cash spent beside the deductions [cents]."""
        return sum(cost.amount_cents for cost in self.event.costs)

    @property
    def deductions_cents(self) -> int:
        """What paid lots pay to others; neither tax nor another's premium [cents]."""
        return sum(lot.costs_cents for lot in self.lots)

    @property
    def raised_cents(self) -> int:
        """Cash raised: paid lots without tax, tickets, gifts of money [cents]."""
        lots = sum(lot.raised_cents for lot in self.lots)
        return lots + self.tickets_cents + self.cash_gifts_cents

    @property
    def spent_cents(self) -> int:
        """Cash spent: deductions paid to others, and costs of the evening [cents]."""
        return self.deductions_cents + self.costs_cents

    @property
    def net_cents(self) -> int:
        """Cash raised less cash spent [cents]."""
        return self.raised_cents - self.spent_cents

    @property
    def gifts_in_kind_cents(self) -> int:
        """Gifts in kind behind the lots and to the evening, at stated value [cents]."""
        lots = sum(x.cost.gifts_cents for x in self.event.lots if x.cost)
        evening = (x.value_cents for x in self.event.gifts if x.kind == "in kind")
        return lots + sum(evening)

    @property
    def time_given_cents(self) -> int:
        """Hours given, at their stated value [cents]."""
        return sum(x.cost.time_cents for x in self.event.lots if x.cost)


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
