"""The order of deductions of one lot: the event's, with the lot's own figures in."""

from __future__ import annotations

from dataclasses import replace

from pricebook.event.lots import Lot
from pricebook.event.plan import Event
from pricebook.event.rule_checks import MAKER, with_tax
from pricebook.proceeds import (
    Fixed,
    Premium,
    Repay,
    Rest,
    RestByWeight,
    Rules,
    SalesTax,
    Share,
)
from pricebook.proceeds.checks import Rule


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
