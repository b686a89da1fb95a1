"""A lot of the catalogue: what it is, what it is worth, what it cost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.event.checks import (
    cents_fault,
    key_fault,
    text_fault,
    word_fault,
)
from pricebook.event.lot_parts import Demand, LotCost, Value
from pricebook.money import show
from pricebook.proceeds.checks import Rule

OWNERS = ("maker", "charity")
IF_UNSOLD = ("next sale", "back to the giver", "into a home")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """One lot of the catalogue.

    Parameters
    ----------
    key : str
        Its number in the catalogue, as printed: `7`, `7A`.
    title : str
        What it is.
    piece : str
        Piece file, relative to the event file; empty if there is none.
    story, maker : str
        The piece's story, and its maker as the maker wishes to be named.
    payee : str
        Who is paid where a rule pays the maker; the maker if empty.
    giver : str
        Who gave it.
    owner : {"maker", "charity"}
        Who owned it while it was worked on.
    value : Value or None
        Its fair market value.
    donated_cents : int or None
        Value of what was given, when received; None: the fair market value if the
        maker owned it. Needed for the public return if the charity did. [cents]
    estimate_low_cents, estimate_high_cents : int or None
        The estimate. [cents]
    opening_cents : int
        Opening bid. [cents]
    reserve_cents : int or None
        Lowest price at which it is sold; None for none. [cents]
    demand : Demand or None
        What is believed of the bidders.
    cost : LotCost or None
        What it cost; None if not reckoned.
    repay_cents : int
        Documented cost of materials that are to be repaid. [cents]
    deductions : tuple of rules
        The order of deductions of this lot, if not the event's.
    if_unsold : {"next sale", "back to the giver", "into a home"}
        What becomes of it if it does not sell.
    unsold_cents : int
        What it is then worth to the charity. [cents]
    picture : str
        Picture file, relative to the event file.

    Raises
    ------
    SpecError
        With a sentence for each fault.

    Notes
    -----
    A reserve is never above the low estimate (a house condition met nearly
    everywhere, common practice, no source) nor below the opening bid.

    Examples
    --------
    >>> Lot(key="7", title="Low dresser", opening_cents=15000).owner
    'maker'
    >>> Lot(key="7", title="Low dresser", opening_cents=15000, reserve_cents=12000)
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: lot 7: reserve 120.00 is below opening bid 150.00; ...
    """

    key: str
    title: str
    opening_cents: int
    piece: str = ""
    story: str = ""
    maker: str = ""
    payee: str = ""
    giver: str = ""
    owner: str = "maker"
    value: Value | None = None
    donated_cents: int | None = None
    estimate_low_cents: int | None = None
    estimate_high_cents: int | None = None
    reserve_cents: int | None = None
    demand: Demand | None = None
    cost: LotCost | None = None
    repay_cents: int = 0
    deductions: tuple[Rule, ...] = ()
    if_unsold: str = "next sale"
    unsold_cents: int = 0
    picture: str = ""

    def __post_init__(self) -> None:
        raise_all(SpecError, (f"lot {self.key}: {x}" for x in self._faults()))

    def _faults(self) -> Iterator[str]:
        found = [
            *key_fault("key", self.key),
            *text_fault("title", self.title),
            *cents_fault("opening bid", self.opening_cents, above=0),
            *cents_fault("low estimate", self.estimate_low_cents, optional=True),
            *cents_fault("high estimate", self.estimate_high_cents, optional=True),
            *cents_fault("reserve", self.reserve_cents, optional=True),
            *cents_fault("donated value", self.donated_cents, optional=True),
            *cents_fault("materials to repay", self.repay_cents),
            *cents_fault("unsold value", self.unsold_cents),
            *word_fault("owner", self.owner, OWNERS),
            *word_fault("if_unsold", self.if_unsold, IF_UNSOLD),
        ]
        yield from found
        if not found:
            yield from self._order_faults()

    def _order_faults(self) -> Iterator[str]:
        low, high = self.estimate_low_cents, self.estimate_high_cents
        if (low is None) != (high is None):
            yield "the estimate has one end; write both, or none."
        elif low is not None and high is not None and low > high:
            yield f"estimate {show(low)} to {show(high)} runs backwards; swap the two."
        reserve = self.reserve_cents
        if reserve is None:
            return
        if reserve < self.opening_cents:
            yield (
                f"reserve {show(reserve)} is below opening bid "
                f"{show(self.opening_cents)}; raise the reserve or lower the opening "
                "bid."
            )
        if low is not None and reserve > low:
            yield (
                f"reserve {show(reserve)} is above the low estimate {show(low)}; "
                "lower the reserve, or the estimate misleads."
            )

    @property
    def fair_market_value_cents(self) -> int | None:
        """The fair market value, or None when none is stated [cents]."""
        return None if self.value is None else self.value.cents

    @property
    def paid_as_maker(self) -> str:
        """Who is paid where a rule pays the maker; empty if nobody is named."""
        return self.payee or self.maker

    @property
    def gift_in_kind_cents(self) -> int | None:
        """What was given of it at its value when received; None if unknown [cents]."""
        if self.donated_cents is not None or self.owner == "charity":
            return self.donated_cents
        return self.fair_market_value_cents
