"""What the fundraiser's workbook shows for the results that are known so far."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.event import Counted, Event, Lot, Result, rules_for
from pricebook.event.checks import plain_key
from pricebook.event.result_checks import result_faults
from pricebook.event.settled import SettledLot
from pricebook.proceeds import Rules, split


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLot:
    """One lot as the workbook shows it.

    Parameters
    ----------
    lot : Lot
        The lot.
    rules : Rules or None
        Its order of deductions; None while the sales tax is not set.
    result : Result or None
        What became of it; None while that is open.
    settled : SettledLot or None
        Its split, by the rule; None while its result or the sales tax is open.
    """

    lot: Lot
    rules: Rules | None
    result: Result | None
    settled: SettledLot | None

    @property
    def is_sold(self) -> bool:
        """Whether it was sold and the sale stands."""
        return self.result is not None and self.result.state == "sold"


@dataclass(frozen=True, slots=True, kw_only=True)
class BookValues:
    """Everything that the workbook shows.

    Parameters
    ----------
    event : Event
        The event.
    lots : tuple of BookLot
        In the order of the catalogue.
    counted : Counted
        The money that was counted so far.
    """

    event: Event
    lots: tuple[BookLot, ...]
    counted: Counted

    @property
    def can_total(self) -> bool:
        """Whether the sales tax is set, without which nothing is totalled."""
        tax = self.event.sales_tax
        return tax is not None and tax.is_set


def book_values(
    event: Event, results: Iterable[Result] = (), counted: Counted | None = None
) -> BookValues:
    """Settle what is known so far, lot by lot.

    Parameters
    ----------
    event : Event
        The event.
    results : iterable of Result
        Those known; none, before the evening.
    counted : Counted, optional
        Money as it was counted.

    Returns
    -------
    BookValues
        The figures behind the formulas.

    Raises
    ------
    SpecError
        With a sentence for each result that cannot be right.

    Notes
    -----
    Card fees are those that the rule reckons, a payment a lot. What was charged
    for all payments together is shared out when the evening is settled.
    """
    given = list(results)
    raise_all(SpecError, (str(fault) for fault in result_faults(event, given)))
    by_lot = {plain_key(result.lot): result for result in given}
    tax = event.sales_tax
    is_set = tax is not None and tax.is_set
    made: dict[tuple[object, ...], Rules] = {}
    lots = tuple(
        _lot(lot, by_lot, _rules(event, lot, made) if is_set else None)
        for lot in event.lots
    )
    return BookValues(event=event, lots=lots, counted=counted or Counted())


def _rules(event: Event, lot: Lot, made: dict[tuple[object, ...], Rules]) -> Rules:
    like = (lot.paid_as_maker, lot.repay_cents, lot.deductions)
    if like not in made:
        made[like] = rules_for(event, lot)
    return made[like]


def _lot(lot: Lot, by_lot: Mapping[str, Result], rules: Rules | None) -> BookLot:
    result = by_lot.get(plain_key(lot.key))
    settled = None
    if result is not None and rules is not None:
        parts = None
        if result.hammer_cents is not None:
            parts = split(
                result.hammer_cents,
                rules,
                fair_market_value_cents=lot.fair_market_value_cents,
                by_card=result.method == "card",
            )
        settled = SettledLot(lot=lot, result=result, split=parts)
    return BookLot(lot=lot, rules=rules, result=result, settled=settled)
