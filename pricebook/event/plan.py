"""An event that exists is valid: its lots, dates, rules, ladder, costs and gifts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from pricebook.bidding import TEN_PERCENT, Ladder
from pricebook.errors import SpecError, raise_all
from pricebook.event.candidates import Candidate
from pricebook.event.checks import (
    cents_fault,
    day_fault,
    key_fault,
    moment_fault,
    number_fault,
    plain_key,
    text_fault,
)
from pricebook.event.evening_money import Cost, Gift, NetPaysFor, Ticket
from pricebook.event.lots import Lot
from pricebook.event.rule_checks import lot_rule_faults, rule_faults
from pricebook.money import show
from pricebook.proceeds import SalesTax
from pricebook.proceeds.checks import Rule

SIGN_OFF = ("prepared by", "first counter", "second counter", "treasurer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """A benefit auction, from its catalogue to the day before it is settled.

    Parameters
    ----------
    key : str
        Its key; the workbook carries it, so that no other's comes back.
    name, charity, place : str
        What it is called, for whom, where.
    on : date
        The day.
    bidding_opens : datetime
        When the first bid may be made, local time.
    catalogue_published : datetime or None
        When the catalogue with its fair market values came out.
    deductions : tuple of rules
        The order of deductions without the sales tax, the charity's rest last.
        The payee `maker` stands for each lot's own; a repay rule repays what each
        lot documents.
    lots : tuple of Lot
        In the order of the catalogue.
    sales_tax : SalesTax or None
        As the treasurer states it. There is no default: an event whose tax is not
        set can be planned, not settled.
    tax_note : str
        Who stated the tax, and when.
    ladder : Ladder
        The ladder of bids.
    target_cents : int or None
        What the evening is hoped to raise. [cents]
    common, turnout : float
        Spread of the factors that all lots of the evening share. [-]
    candidates : tuple of Candidate
        Pieces that could be done.
    limits : tuple of (str, number)
        What there is: hours, sheets, money in units.
    costs, tickets, gifts : tuple
        Of the evening.
    net_pays_for : tuple of NetPaysFor
        What the charity says a piece, or a home, costs it.
    sign_off : tuple of str
        Who signs the report.

    Raises
    ------
    SpecError
        With a sentence for each fault.

    Examples
    --------
    >>> from pricebook.proceeds import Rest
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     deductions=(Rest("the Share"),),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ... )
    >>> spring.lot("01").title
    'Bookcase'
    """

    key: str
    name: str
    charity: str
    on: date
    bidding_opens: datetime
    deductions: tuple[Rule, ...]
    lots: tuple[Lot, ...]
    place: str = ""
    catalogue_published: datetime | None = None
    sales_tax: SalesTax | None = None
    tax_note: str = ""
    ladder: Ladder = TEN_PERCENT
    target_cents: int | None = None
    common: float = 0.0
    turnout: float = 0.0
    candidates: tuple[Candidate, ...] = ()
    limits: tuple[tuple[str, int | float], ...] = ()
    costs: tuple[Cost, ...] = ()
    tickets: tuple[Ticket, ...] = ()
    gifts: tuple[Gift, ...] = ()
    net_pays_for: tuple[NetPaysFor, ...] = ()
    sign_off: tuple[str, ...] = SIGN_OFF

    def __post_init__(self) -> None:
        raise_all(SpecError, self._faults())

    def _faults(self) -> Iterator[str]:
        yield from key_fault("key", self.key)
        yield from text_fault("name", self.name)
        yield from text_fault("charity", self.charity)
        yield from day_fault("on", self.on)
        yield from moment_fault("bidding_opens", self.bidding_opens)
        yield from moment_fault(
            "catalogue_published", self.catalogue_published, optional=True
        )
        yield from cents_fault("target", self.target_cents, optional=True)
        yield from number_fault("common", self.common)
        yield from number_fault("turnout", self.turnout)
        yield from self._lot_faults()
        yield from rule_faults(self.deductions, self.sales_tax)
        for name, limit in self.limits:
            yield from number_fault(f"limit {name}", limit)

    def _lot_faults(self) -> Iterator[str]:
        if not self.lots:
            yield "the event has no lots; it must have at least one."
        seen: set[str] = set()
        for lot in self.lots:
            key = plain_key(lot.key)
            if key in seen:
                yield f"lot {lot.key} stands twice; give each lot its own number."
            seen.add(key)
            yield from self._ladder_faults(lot)
            yield from lot_rule_faults(lot, self.deductions, self.sales_tax)
        for cost in self.costs:
            if cost.lot and plain_key(cost.lot) not in seen:
                yield f'cost "{cost.item}" names lot {cost.lot}, which is not there.'
        names = [candidate.name for candidate in self.candidates]
        for name in sorted({n for n in names if names.count(n) > 1}):
            yield f'candidate "{name}" stands twice; give each its own name.'

    def _ladder_faults(self, lot: Lot) -> Iterator[str]:
        if self.ladder.holds(lot.opening_cents):
            return
        near = self.ladder.nearest(max(lot.opening_cents, self.ladder.first_cents))
        yield (
            f"lot {lot.key}: opening bid {show(lot.opening_cents)} is not on the "
            f'ladder "{self.ladder.name}"; open on one of its rungs, the nearest is '
            f"{show(near)}."
        )

    def lot(self, key: str) -> Lot | None:
        """Return the lot of a number, or None; leading noughts do not count."""
        wanted = plain_key(key)
        return next((x for x in self.lots if plain_key(x.key) == wanted), None)

    def is_published(self, lot: Lot) -> bool:
        """Tell whether a lot's value was published before bidding opened.

        Parameters
        ----------
        lot : Lot
            One of the lots.

        Returns
        -------
        bool
            False as well when no value, or no moment of publishing, is stated.
        """
        if lot.value is None:
            return False
        published = lot.value.published or self.catalogue_published
        return published is not None and published < self.bidding_opens
