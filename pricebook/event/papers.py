"""Papers that follow from settled lots: ledger, invoices, receipts, payouts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pricebook.event.settled import SettledLot
from pricebook.money import show
from pricebook.proceeds import SalesTax
from pricebook.receipts import PRACTITIONER


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerRow:
    """A sale as it was made, or the row that takes it back.

    Parameters
    ----------
    lot, paddle : str
        Which lot, to which paddle.
    kind : {"sale", "reversal"}
        A reversal carries the same amounts with a minus.
    hammer_cents, premium_cents, tax_cents : int
        What was charged. [cents]
    words : str
        For a reversal why, by whom and when.
    """

    lot: str
    paddle: str
    kind: str
    hammer_cents: int
    premium_cents: int
    tax_cents: int
    words: str = ""

    @property
    def charged_cents(self) -> int:
        """Hammer price, premium and tax [cents]."""
        return self.hammer_cents + self.premium_cents + self.tax_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class Invoice:
    """What one paddle bought.

    Parameters
    ----------
    paddle : str
        The paddle.
    lots : tuple of SettledLot
        Its lots, in the order of the catalogue.
    """

    paddle: str
    lots: tuple[SettledLot, ...]

    @property
    def hammer_cents(self) -> int:
        """Hammer prices [cents]."""
        return sum(lot.hammer_cents for lot in self.lots)

    @property
    def premium_cents(self) -> int:
        """Premiums [cents]."""
        return sum(x.split.premium_cents for x in self.lots if x.split)

    @property
    def tax_cents(self) -> int:
        """Sales tax [cents]."""
        return sum(x.split.tax_cents for x in self.lots if x.split)

    @property
    def charged_cents(self) -> int:
        """All of it [cents]."""
        return sum(lot.charged_cents for lot in self.lots)

    @property
    def received_cents(self) -> int:
        """What was paid [cents]."""
        return sum(lot.received_cents for lot in self.lots)

    @property
    def unpaid_cents(self) -> int:
        """What is still owed [cents]."""
        return self.charged_cents - self.received_cents


@dataclass(frozen=True, slots=True, kw_only=True)
class PaddleReceipt:
    """What the holder of one paddle may be told about the lots that were paid.

    Parameters
    ----------
    number : int
        Numbered from 1 without a gap.
    paddle : str
        The paddle.
    lots : tuple of SettledLot
        The lots paid, each with its own receipt.

    Notes
    -----
    Papers are tested lot by lot and once more on all lots of the paddle together:
    a charity that sends one too many does no harm.
    """

    number: int
    paddle: str
    lots: tuple[SettledLot, ...]

    @property
    def paid_cents(self) -> int:
        """Hammer prices paid, tax and premium left out [cents]."""
        return sum(lot.hammer_cents for lot in self.lots)

    @property
    def gift_cents(self) -> int | None:
        """Paid above the values stated; None when no lot states one [cents]."""
        return _sum(x.receipt.gift_cents for x in self.lots if x.receipt)

    @property
    def deductible_cents(self) -> int | None:
        """The gifts whose values were published before bidding, else None [cents]."""
        return _sum(x.receipt.deductible_cents for x in self.lots if x.receipt)

    @property
    def disclosure(self) -> bool:
        """Whether a written disclosure is due, or prudent for all lots together."""
        told = [lot.receipt for lot in self.lots if lot.receipt]
        part_gift = sum(r.paid_cents for r in told if r.may_hold_a_gift)
        return any(r.disclosure or part_gift > r.disclosure_above_cents for r in told)

    @property
    def acknowledgment(self) -> bool:
        """Whether a written acknowledgment is due, or prudent for all together."""
        told = [lot.receipt for lot in self.lots if lot.receipt]
        gifts = sum(
            r.paid_cents if r.gift_cents is None else r.gift_cents for r in told
        )
        return any(
            r.acknowledgment or gifts >= r.acknowledgment_from_cents for r in told
        )

    @property
    def words(self) -> tuple[str, ...]:
        """A line a lot with what may be told, the practitioner's line last."""
        return (*self._lot_words(), PRACTITIONER)

    def _lot_words(self) -> Iterator[str]:
        for settled in self.lots:
            told = settled.receipt
            if told is not None:
                yield f"Lot {settled.key}, {settled.lot.title}. " + " ".join(
                    told.words[:4]
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Payout:
    """What one payee gets.

    Parameters
    ----------
    payee : str
        Who is paid.
    due_cents : int
        Out of lots that are paid. [cents]
    pending_cents : int
        Out of lots that are not yet paid. [cents]
    lots : tuple of str
        The lots behind it.
    is_charity, is_tax : bool
        Whether it is the charity's own part, or sales tax that is owed.
    """

    payee: str
    due_cents: int
    pending_cents: int
    lots: tuple[str, ...]
    is_charity: bool = False
    is_tax: bool = False


def _sum(amounts: Iterable[int | None]) -> int | None:
    known = [amount for amount in amounts if amount is not None]
    return sum(known) if known else None


def paddle_order(paddle: str) -> tuple[int, int, str]:
    """Sort paddles as a person would: numbers first, by size.

    Examples
    --------
    >>> sorted(["10", "9", "A1"], key=paddle_order)
    ['9', '10', 'A1']
    """
    if paddle.isascii() and paddle.isdecimal():
        return (0, int(paddle), paddle)
    return (1, 0, paddle)


def ledger(lots: Iterable[SettledLot]) -> tuple[LedgerRow, ...]:
    """List every sale, and after one that was made void the row that reverses it."""
    return tuple(row for settled in lots for row in _ledger_rows(settled))


def _ledger_rows(settled: SettledLot) -> Iterator[LedgerRow]:
    split, result = settled.split, settled.result
    if split is None:
        return
    signs = [("sale", 1)] + ([("reversal", -1)] if settled.is_void else [])
    for kind, sign in signs:
        why = f"{result.note} ({result.initials}, {result.on})" if sign < 0 else ""
        yield LedgerRow(
            lot=settled.key,
            paddle=result.paddle,
            kind=kind,
            hammer_cents=sign * split.hammer_cents,
            premium_cents=sign * split.premium_cents,
            tax_cents=sign * split.tax_cents,
            words=why,
        )


def invoices(lots: Iterable[SettledLot]) -> tuple[Invoice, ...]:
    """Gather the lots sold by paddle, paddles in order."""
    by_paddle = _by_paddle(lot for lot in lots if lot.is_sold)
    return tuple(Invoice(paddle=p, lots=found) for p, found in by_paddle)


def receipts(lots: Iterable[SettledLot]) -> tuple[PaddleReceipt, ...]:
    """Gather the lots paid by paddle and number the receipts."""
    by_paddle = _by_paddle(lot for lot in lots if lot.is_paid)
    return tuple(
        PaddleReceipt(number=number, paddle=paddle, lots=found)
        for number, (paddle, found) in enumerate(by_paddle, start=1)
    )


def _by_paddle(
    lots: Iterable[SettledLot],
) -> list[tuple[str, tuple[SettledLot, ...]]]:
    found: dict[str, list[SettledLot]] = {}
    for settled in lots:
        found.setdefault(settled.result.paddle, []).append(settled)
    return [(p, tuple(found[p])) for p in sorted(found, key=paddle_order)]


def payouts(lots: Iterable[SettledLot]) -> tuple[Payout, ...]:
    """Add up what each payee gets, in the order in which they are first met."""
    due: dict[str, int] = {}
    pending: dict[str, int] = {}
    behind: dict[str, list[str]] = {}
    charities: set[str] = set()
    taxes: set[str] = set()
    for settled in lots:
        if settled.split is None or settled.is_void:
            continue
        charities.add(settled.split.charity)
        for line in settled.split.lines:
            if isinstance(line.rule, SalesTax):
                taxes.add(line.payee)
        for payee, cents in settled.split.amounts.items():
            column = due if settled.is_paid else pending
            column[payee] = column.get(payee, 0) + cents
            behind.setdefault(payee, [])
            if cents:
                behind[payee].append(settled.key)
    return tuple(
        Payout(
            payee=payee,
            due_cents=due.get(payee, 0),
            pending_cents=pending.get(payee, 0),
            lots=tuple(keys),
            is_charity=payee in charities,
            is_tax=payee in taxes,
        )
        for payee, keys in behind.items()
        if keys or payee in charities
    )


def say_unpaid(settled: SettledLot) -> str:
    """Say what is still owed for a lot, and by which paddle."""
    words = (
        f"Lot {settled.key}, {settled.lot.title}: paddle {settled.result.paddle} owes "
        f"{show(settled.unpaid_cents)}"
    )
    if settled.received_cents:
        words += f", {show(settled.received_cents)} of it paid"
    return f"{words}."
