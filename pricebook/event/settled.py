"""One lot after the evening: its result, its split, what its buyer may be told."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.event.lots import Lot
from pricebook.event.results import SOLD, VOID, Result
from pricebook.proceeds import Premium, SalesTax, Split, SplitLine
from pricebook.receipts import Receipt, SoldLot


@dataclass(frozen=True, slots=True, kw_only=True)
class SettledLot:
    """One lot after the evening.

    Parameters
    ----------
    lot : Lot
        The lot.
    result : Result
        What became of it.
    split : Split or None
        Who gets what of its price; None if the hammer did not fall. For a lot made
        void it is the split of the sale that was undone.
    receipt : Receipt or None
        What its buyer may be told; None until it is paid.
    card_fee_cents : int
        Card fee of a lot that is paid. [cents]

    Notes
    -----
    An unpaid lot is a receivable: it is no cash raised, nothing of it is paid out,
    and no receipt is written.
    """

    lot: Lot
    result: Result
    split: Split | None = None
    receipt: Receipt | None = None
    card_fee_cents: int = 0

    @property
    def key(self) -> str:
        """Number of the lot."""
        return self.lot.key

    @property
    def is_sold(self) -> bool:
        """Whether it was sold and the sale stands."""
        return self.result.state == SOLD

    @property
    def is_void(self) -> bool:
        """Whether the sale was undone."""
        return self.result.state == VOID

    @property
    def is_paid(self) -> bool:
        """Whether it was sold and paid in full."""
        return self.is_sold and self.received_cents == self.charged_cents

    @property
    def hammer_cents(self) -> int:
        """Hammer price of a sale that stands, else 0 [cents]."""
        return self.split.hammer_cents if self.split and self.is_sold else 0

    @property
    def charged_cents(self) -> int:
        """Hammer price, premium and tax of a sale that stands, else 0 [cents]."""
        return self.split.charged_cents if self.split and self.is_sold else 0

    @property
    def received_cents(self) -> int:
        """What the buyer has paid for a sale that stands [cents]."""
        return self._paid_cents if self.is_sold else 0

    @property
    def refund_cents(self) -> int:
        """What goes back to the buyer of a lot made void [cents]."""
        return self._paid_cents if self.is_void else 0

    @property
    def _paid_cents(self) -> int:
        if self.result.amount_cents is not None:
            return self.result.amount_cents
        return self.split.charged_cents if self.split and self.result.paid else 0

    @property
    def unpaid_cents(self) -> int:
        """What is still owed [cents]."""
        return self.charged_cents - self.received_cents

    @property
    def charity_cents(self) -> int:
        """What the charity gets of a lot that is paid, else 0 [cents]."""
        return self.split.charity_cents if self.split and self.is_paid else 0

    @property
    def costs_cents(self) -> int:
        """What is paid to others out of a lot that is paid [cents].

        Sales tax, and a premium that belongs to another, were never the charity's.
        """
        if self.split is None or not self.is_paid:
            return 0
        return sum(x.amount_cents for x in self.split.lines if self._is_cost(x))

    def _is_cost(self, line: SplitLine) -> bool:
        mine = self.split is not None and line.payee == self.split.charity
        return not mine and not isinstance(line.rule, SalesTax | Premium)

    @property
    def raised_cents(self) -> int:
        """What a paid lot raised: the charity's part and its costs [cents]."""
        return self.charity_cents + self.costs_cents

    @property
    def kept_premium_cents(self) -> int:
        """Premium of a paid lot that stays with the charity [cents]."""
        if self.split is None or not self.is_paid:
            return 0
        others = sum(
            line.amount_cents
            for line in self.split.lines
            if isinstance(line.rule, Premium) and line.payee != self.split.charity
        )
        return self.split.premium_cents - others

    @property
    def is_returned(self) -> bool:
        """Whether it did not sell and goes back to the giver."""
        return not self.is_sold and self.lot.if_unsold == "back to the giver"

    @property
    def becomes(self) -> str:
        """What becomes of a lot that did not sell; empty if it sold."""
        return "" if self.is_sold else self.lot.if_unsold

    @property
    def against_estimate(self) -> str:
        """Below, within or above the estimate; empty if not sold or none stated."""
        low, high = self.lot.estimate_low_cents, self.lot.estimate_high_cents
        if not self.is_sold or low is None or high is None:
            return ""
        if self.hammer_cents < low:
            return "below"
        return "above" if self.hammer_cents > high else "within"

    @property
    def on_the_return(self) -> SoldLot | None:
        """The lot as the public return sees it; None while a value is missing.

        A lot that is not paid counts as still on hand, as the cash does.
        """
        value, gift = self.lot.fair_market_value_cents, self.lot.gift_in_kind_cents
        if value is None or gift is None:
            return None
        return SoldLot(
            fair_market_value_cents=value,
            hammer_cents=self.hammer_cents if self.is_paid else None,
            donated_cents=gift,
            direct_costs_cents=self.costs_cents,
            returned=self.is_returned,
        )
