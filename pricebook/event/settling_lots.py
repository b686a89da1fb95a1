"""Settle the lots one by one, and share out the card fees that were charged."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from pricebook.errors import PricebookError, SpecError, raise_all
from pricebook.event.checks import plain_key
from pricebook.event.lots import Lot
from pricebook.event.plan import Event
from pricebook.event.result_checks import Fault
from pricebook.event.results import Result
from pricebook.event.rules import rules_for
from pricebook.event.settled import SettledLot
from pricebook.money import share_out, show
from pricebook.proceeds import CardFee, Fixed, Rules, Split, split
from pricebook.receipts import buyer


def settle_lots(event: Event, results: Sequence[Result]) -> tuple[SettledLot, ...]:
    """Settle every lot by its order of deductions.

    Parameters
    ----------
    event : Event
        The event.
    results : sequence of Result
        In the order of its lots.

    Returns
    -------
    tuple of SettledLot
        In the same order.

    Raises
    ------
    MoneyError
        If the sales tax is not set.
    SpecError
        With a sentence for each lot that cannot be settled.
    """
    rules: dict[tuple[Any, ...], Rules] = {}
    settled: list[SettledLot] = []
    faults: list[str] = []
    for lot, result in zip(event.lots, results, strict=True):
        like = (lot.paid_as_maker, lot.repay_cents, lot.deductions)
        if like not in rules:
            rules[like] = rules_for(event, lot)
        try:
            settled.append(_settle_lot(event, lot, result, rules[like]))
        except PricebookError as error:
            faults += [f"lot {lot.key}: {fault}" for fault in error.faults]
    raise_all(SpecError, faults)
    return tuple(settled)


def with_card_fees(
    event: Event, lots: tuple[SettledLot, ...], charged_cents: int | None
) -> tuple[SettledLot, ...]:
    """Put the card fees that were charged in place of those the rule reckons.

    Parameters
    ----------
    event : Event
        The event.
    lots : tuple of SettledLot
        Settled by the rule.
    charged_cents : int or None
        What the processor kept back for all of them; None if not known. [cents]

    Returns
    -------
    tuple of SettledLot
        The same lots; those paid by card share what was charged.

    Notes
    -----
    A processor charges its fixed part once a payment, so lots paid together cost
    less than the rule says. What was charged is shared out by what the rule
    reckons, by the largest remainder; both totals equal, nothing changes.
    """
    reckoned = [lot.card_fee_cents for lot in lots]
    if charged_cents is None or charged_cents == sum(reckoned) or not any(reckoned):
        return lots
    shares = share_out(charged_cents, reckoned)
    return tuple(
        _with_fee(event, lot, fee) if before else lot
        for lot, before, fee in zip(lots, reckoned, shares, strict=True)
    )


def _with_fee(event: Event, done: SettledLot, fee_cents: int) -> SettledLot:
    """Split a lot again with the card fee that it bears."""
    rules = rules_for(event, done.lot)
    borne = tuple(
        Fixed(rule.payee, fee_cents, rule.label) if isinstance(rule, CardFee) else rule
        for rule in rules.deductions
    )
    parts = _split(done.lot, done.result, replace(rules, deductions=borne))
    return replace(done, split=parts, card_fee_cents=_fee(parts, rules))


def _settle_lot(event: Event, lot: Lot, result: Result, rules: Rules) -> SettledLot:
    if result.hammer_cents is None:
        return SettledLot(lot=lot, result=result)
    parts = _split(lot, result, rules)
    done = SettledLot(lot=lot, result=result, split=parts)
    raise_all(SpecError, list(_amount_faults(result, parts.charged_cents)))
    if not done.is_paid:
        return done
    told = buyer(
        result.hammer_cents,
        lot.fair_market_value_cents,
        event.is_published(lot),
        as_of=event.on.year,
    )
    return replace(done, receipt=told, card_fee_cents=_fee(parts, rules))


def _split(lot: Lot, result: Result, rules: Rules) -> Split:
    return split(
        result.hammer_cents or 0,
        rules,
        fair_market_value_cents=lot.fair_market_value_cents,
        by_card=result.method == "card",
    )


def _fee(parts: Split, rules: Rules) -> int:
    """Add up the lines that bear a card fee's label [cents]."""
    labels = {rule.label for rule in rules.deductions if isinstance(rule, CardFee)}
    return sum(
        line.amount_cents
        for line in parts.lines
        if isinstance(line.rule, CardFee | Fixed) and line.rule.label in labels
    )


def amount_faults(event: Event, results: Iterable[Result]) -> Iterator[Fault]:
    """List the part payments that do not go with what was charged.

    Parameters
    ----------
    event : Event
        The event; nothing is listed while its sales tax is not set.
    results : iterable of Result
        Results that can be right one by one.

    Yields
    ------
    Fault
        In the order of the results.
    """
    if event.sales_tax is None or not event.sales_tax.is_set:
        return
    lots = {plain_key(lot.key): lot for lot in event.lots}
    for at, result in enumerate(results):
        lot = lots.get(plain_key(result.lot))
        if lot is None or result.amount_cents is None or result.hammer_cents is None:
            continue
        charged = _split(lot, result, rules_for(event, lot)).charged_cents
        for sentence in _amount_faults(result, charged):
            yield Fault(at, lot.key, "amount_cents", sentence)


def _amount_faults(result: Result, charged_cents: int) -> Iterator[str]:
    """Say why an amount paid does not go with what was charged."""
    amount = result.amount_cents
    if amount is None or amount == charged_cents:
        return
    if amount > charged_cents:
        yield (
            f"{show(amount)} was paid for {show(charged_cents)} charged; write the "
            "price charged, and what is above it as a gift to the evening."
        )
    elif result.paid:
        yield (
            f"is marked as paid, but {show(amount)} is less than the "
            f"{show(charged_cents)} charged; write the part paid alone, or the whole."
        )
