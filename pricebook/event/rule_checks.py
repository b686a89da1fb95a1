"""What may be wrong with the deductions of an event, or of one of its lots."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pricebook.errors import MoneyError
from pricebook.event.lots import Lot
from pricebook.proceeds import Repay, Rules, SalesTax, read_rules
from pricebook.proceeds.checks import Rule

MAKER = "maker"
"""The payee that stands for each lot's own maker."""


def with_tax(deductions: Sequence[Rule], tax: SalesTax | None) -> Rules:
    """Put the sales tax before the deductions and check them together."""
    return read_rules([*([tax] if tax else []), *deductions], tax_required=True)


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
