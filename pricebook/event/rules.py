"""The order of deductions of one lot: the event's, with the lot's own figures in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pricebook.errors import MoneyError
from pricebook.event.lots import Lot
from pricebook.proceeds import (
    Fixed,
    Premium,
    Repay,
    Rest,
    RestByWeight,
    Rules,
    SalesTax,
    Share,
    read_rules,
)
from pricebook.proceeds.checks import Rule

if TYPE_CHECKING:
    from pricebook.event.plan import Event

MAKER = "maker"
"""The payee that stands for each lot's own maker."""


def rules_for(event: Event, lot: Lot) -> Rules:
    """Return the order of deductions of one lot, ready to split with.

    Parameters
    ----------
    event : Event
        The event.
    lot : Lot
        One of its lots.

    Returns
    -------
    Rules
        Sales tax first, then the lot's own deductions or the event's.

    Raises
    ------
    MoneyError
        If the sales tax is not set.

    Examples
    --------
    >>> from pricebook.proceeds import SalesTax, Rest
    >>> from types import SimpleNamespace
    >>> lot = Lot(key="1", title="Bookcase", opening_cents=10000)
    >>> sale = SimpleNamespace(sales_tax=None, deductions=(Rest("the Share"),))
    >>> rules_for(sale, lot)
    Traceback (most recent call last):
        ...
    pricebook.errors.MoneyError: sales tax is not set, so no total can be made; ...
    """
    own = [for_lot(rule, lot) for rule in lot.deductions or event.deductions]
    return with_tax(own, event.sales_tax)


def with_tax(deductions: Sequence[Rule], tax: SalesTax | None) -> Rules:
    """Put the sales tax before the deductions and check them together."""
    return read_rules([*([tax] if tax else []), *deductions], tax_required=True)


def for_lot(rule: Rule, lot: Lot) -> Rule:
    """Put the lot's maker and documented cost into a rule of the event."""
    if isinstance(rule, Rest | RestByWeight | SalesTax):
        return rule
    if isinstance(rule, Repay):
        rule = replace(rule, cost_cents=lot.repay_cents)
    if rule.payee == MAKER and isinstance(rule, Share | Fixed | Repay | Premium):
        return replace(
            rule, payee=lot.paid_as_maker or MAKER, label=rule.label or MAKER
        )
    return rule


def rule_faults(deductions: Sequence[Rule], tax: SalesTax | None) -> Iterator[str]:
    """List what is wrong with the deductions, whether the tax is set or not."""
    if any(isinstance(rule, SalesTax) for rule in deductions):
        yield "sales tax stands among the deductions; state it as the sales tax."
        return
    ready = tax if tax is not None and tax.is_set else SalesTax("nobody", base="none")
    try:
        with_tax(deductions, ready)
    except MoneyError as error:
        yield from (f"deductions: {fault}" for fault in error.faults)
    for rule in deductions:
        if isinstance(rule, Repay) and rule.cost_cents:
            yield (
                f"deductions: the repayment to {rule.payee} states a cost; leave it "
                "out, each lot documents its own."
            )


def lot_rule_faults(
    lot: Lot, deductions: Sequence[Rule], tax: SalesTax | None
) -> Iterator[str]:
    """List what is wrong between a lot and its deductions."""
    own = lot.deductions or deductions
    if lot.deductions:
        for fault in rule_faults(lot.deductions, tax):
            yield f"lot {lot.key}: {fault}"
    repaid = any(isinstance(rule, Repay) for rule in own)
    if lot.repay_cents and not repaid:
        yield (
            f"lot {lot.key} documents materials to repay, but no rule repays them; "
            "add one, or take the amount out."
        )
    pays_maker = any(
        getattr(rule, "payee", None) == MAKER
        and (not isinstance(rule, Repay) or lot.repay_cents)
        for rule in own
    )
    if pays_maker and not lot.paid_as_maker:
        yield f"lot {lot.key}: a rule pays its maker, who has no name; write it."
