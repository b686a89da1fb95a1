"""What became of each lot, and the money that was counted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pricebook.errors import MoneyError, raise_all
from pricebook.event.checks import cents_fault

SOLD, PASSED, WITHDRAWN, VOID = "sold", "passed", "withdrawn", "void"
STATES = (SOLD, PASSED, WITHDRAWN, VOID)
METHODS = ("cash", "cheque", "card")


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What became of one lot.

    Parameters
    ----------
    lot : str
        Its number.
    state : {"sold", "passed", "withdrawn", "void"}
        Void: sold at the hammer, and the sale undone afterwards.
    hammer_cents : int or None
        Hammer price of a lot sold or void. [cents]
    paddle : str
        The buyer's paddle number; no name is needed.
    paid : bool
        Whether it was paid.
    amount_cents : int or None
        What was paid, tax and premium included; None when paid in full. [cents]
    method : {"cash", "cheque", "card", ""}
        How it was paid, or will be.
    on : date or None
        When it was paid, or made void.
    initials : str
        Who made it void.
    note : str
        Anything a reader should know; the reason, for a lot made void.

    Examples
    --------
    >>> Result(lot="7", state="sold", hammer_cents=30000, paddle="12", paid=True,
    ...        method="card").is_hammered
    True
    """

    lot: str
    state: str
    hammer_cents: int | None = None
    paddle: str = ""
    paid: bool = False
    amount_cents: int | None = None
    method: str = ""
    on: date | None = None
    initials: str = ""
    note: str = ""

    @property
    def is_hammered(self) -> bool:
        """Whether the hammer fell, be the sale undone afterwards."""
        return self.state in (SOLD, VOID)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Money as two people counted it, apart from the bids; None where not counted.

    Parameters
    ----------
    cash_cents, cheque_cents : int or None
        Takings, the float taken out. [cents]
    card_deposit_cents, card_fees_cents : int or None
        What the bank received for cards, and what was kept back. [cents]
    first_counter, second_counter : str
        Who counted.

    Raises
    ------
    MoneyError
        If an amount is not whole cents of 0 or more.

    Examples
    --------
    >>> Counted(cash_cents=12500).cheque_cents is None
    True
    """

    cash_cents: int | None = None
    cheque_cents: int | None = None
    card_deposit_cents: int | None = None
    card_fees_cents: int | None = None
    first_counter: str = ""
    second_counter: str = ""

    def __post_init__(self) -> None:
        names = ("cash_cents", "cheque_cents", "card_deposit_cents", "card_fees_cents")
        faults = [
            fault
            for name in names
            for fault in cents_fault(name, getattr(self, name), optional=True)
        ]
        raise_all(MoneyError, faults)
