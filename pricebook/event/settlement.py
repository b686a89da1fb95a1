"""An evening settled, and the sums that follow from its lots."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.event.control import Control
from pricebook.event.papers import Invoice, LedgerRow, PaddleReceipt, Payout
from pricebook.event.plan import Event
from pricebook.event.results import METHODS, Counted
from pricebook.event.settled import SettledLot
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
