"""What a buyer may be told about the gift within a price."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import is_cents
from pricebook.receipts.figures import Figure, in_force
from pricebook.receipts.thresholds import AS_OF, PRACTITIONER, THRESHOLDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Receipt:
    """What one buyer of one lot may be told.

    Parameters
    ----------
    paid_cents : int
        What was paid for the lot, without sales tax. [cents]
    fair_market_value_cents : int or None
        Its value as the charity states it in good faith; None if it states none.
        [cents]
    published_before_bidding : bool
        Whether that value was published before bidding began.
    disclosure_above_cents, acknowledgment_from_cents : int
        The thresholds. [cents]
    as_of : int
        The year whose thresholds these are.
    sources : tuple of str
        Keys of data/SOURCES.csv.

    Examples
    --------
    >>> buyer(10000, 4000, True).gift_cents
    6000
    """

    paid_cents: int
    fair_market_value_cents: int | None
    published_before_bidding: bool
    disclosure_above_cents: int
    acknowledgment_from_cents: int
    as_of: int
    sources: tuple[str, ...]

    @property
    def gift_cents(self) -> int | None:
        """What was paid above the value; None when no value is stated [cents]."""
        if self.fair_market_value_cents is None:
            return None
        return max(self.paid_cents - self.fair_market_value_cents, 0)

    @property
    def deductible_cents(self) -> int | None:
        """The gift, if its value was published before bidding, else None [cents]."""
        return self.gift_cents if self.published_before_bidding else None

    @property
    def may_hold_a_gift(self) -> bool:
        """Whether part of the payment is a gift, or could be for want of a value."""
        return self.gift_cents != 0 and self.paid_cents > 0

    @property
    def disclosure(self) -> bool:
        """Whether the charity must disclose the value, by the whole payment."""
        return self.may_hold_a_gift and self.paid_cents > self.disclosure_above_cents

    @property
    def acknowledgment(self) -> bool:
        """Whether the gift part is large enough to need a written acknowledgment."""
        gift = self.paid_cents if self.gift_cents is None else self.gift_cents
        return gift >= self.acknowledgment_from_cents

    @property
    def acknowledgment_on_payment(self) -> bool:
        """Whether the whole payment is: prudent charities then send one anyway."""
        return self.paid_cents >= self.acknowledgment_from_cents

    @property
    def words(self) -> tuple[str, ...]:
        """A sentence for each figure, the practitioner's line last."""
        return (
            self._gift_words(),
            self._deductible_words(),
            self._disclosure_words(),
            self._acknowledgment_words(),
            f"Thresholds as of {self.as_of}: {', '.join(self.sources)}.",
            PRACTITIONER,
        )

    def _gift_words(self) -> str:
        paid = money.show(self.paid_cents)
        if self.fair_market_value_cents is None or self.gift_cents is None:
            return f"Paid {paid}; no fair market value is stated, so no gift part is."
        value = money.show(self.fair_market_value_cents)
        if self.gift_cents == 0:
            return f"Paid {paid} for goods worth {value}: no part of it is a gift."
        gift = money.show(self.gift_cents)
        return f"Paid {paid} for goods worth {value}: {gift} of it is a gift."

    def _deductible_words(self) -> str:
        if self.deductible_cents is None:
            return (
                "No deductible part is stated: the value was not published before "
                "bidding began, so the buyer could not know that the price was "
                "above it."
            )
        if self.deductible_cents == 0:
            return "No part of it may be deductible."
        return (
            f"At most {money.show(self.deductible_cents)} may be deductible, "
            "if the buyer meant it as a gift."
        )

    def _disclosure_words(self) -> str:
        limit = money.show(self.disclosure_above_cents)
        if self.disclosure:
            return (
                f"A written disclosure is due: the payment is above {limit} "
                "and may be part gift."
            )
        if not self.may_hold_a_gift:
            return "No disclosure is due: no part of the payment is a gift."
        return f"No disclosure is due: the payment is not above {limit}."

    def _acknowledgment_words(self) -> str:
        limit = money.show(self.acknowledgment_from_cents)
        if self.acknowledgment:
            verb = "may be" if self.gift_cents is None else "is"
            return (
                f"A written acknowledgment is needed: the gift {verb} {limit} or more."
            )
        if self.acknowledgment_on_payment:
            return (
                f"The gift is below {limit} but the payment is not: "
                "an acknowledgment is prudent."
            )
        return f"No acknowledgment is needed: the gift is below {limit}."


def buyer(
    paid_cents: int,
    fair_market_value_cents: int | None,
    published_before_bidding: bool,
    *,
    thresholds: Sequence[Figure] = THRESHOLDS,
    as_of: int = AS_OF,
) -> Receipt:
    """Say what the buyer of a lot may be told about the gift within the price.

    Parameters
    ----------
    paid_cents : int
        The hammer price paid, without sales tax or an outside house's premium,
        0 or more. [cents]
    fair_market_value_cents : int or None
        What the lot is worth, as the charity states it in good faith. [cents]
    published_before_bidding : bool
        Whether the catalogue gave that value before bidding began.
    thresholds : sequence of Figure
        Dated thresholds; those of this package by default.
    as_of : int
        The year of the sale.

    Returns
    -------
    Receipt
        The gift, its deductible part, and whether papers are due.

    Raises
    ------
    MoneyError
        If an amount is not whole cents of 0 or more, or a value that is not stated
        is said to be published.

    Notes
    -----
    Gift = paid - fair market value, never below 0; the charity reports it whether
    or not the buyer may deduct it. It is deductible only if the value was
    published before bidding. Disclosure: the *whole payment* is above 75.00 and
    part of it is a gift. Acknowledgment: the *gift* is 250.00 or more. With no
    value stated the gift is unknown, and both papers are called for as though all
    of the payment could be one. Compare the hammer price alone with the value:
    sales tax is never a gift, and whether a premium paid to an outside house is
    paid to the charity is unsettled.
    Sources: irc_6115, irc_170, irs_charity_auctions, irs_pub_557.

    Examples
    --------
    >>> told = buyer(50000, 10000, True)
    >>> told.gift_cents, told.deductible_cents, told.disclosure, told.acknowledgment
    (40000, 40000, True, True)
    >>> buyer(50000, 10000, False).deductible_cents is None
    True
    """
    faults = []
    if not is_cents(paid_cents):
        faults.append(f"paid is {paid_cents!r}; it must be whole cents, 0 or more.")
    value = fair_market_value_cents
    if value is not None and not is_cents(value):
        faults.append(
            f"fair market value is {value!r}; it must be whole cents, 0 or more."
        )
    if not isinstance(published_before_bidding, bool):
        faults.append(
            f"published before bidding is {published_before_bidding!r}; "
            "say True or False."
        )
    elif value is None and published_before_bidding:
        faults.append(
            "no fair market value is given, yet it is said to be published; "
            "give the value that was published."
        )
    raise_all(MoneyError, faults)
    above = in_force(thresholds, "disclosure above", as_of)
    since = in_force(thresholds, "acknowledgment from", as_of)
    return Receipt(
        paid_cents=int(paid_cents),
        fair_market_value_cents=None if value is None else int(value),
        published_before_bidding=published_before_bidding,
        disclosure_above_cents=above.cents,
        acknowledgment_from_cents=since.cents,
        as_of=as_of,
        sources=(above.source, since.source, "irs_charity_auctions"),
    )
