"""The rules of a split as a list: what must hold between them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from pricebook import money
from pricebook.errors import nearest
from pricebook.proceeds.charges import Premium, SalesTax
from pricebook.proceeds.deductions import CardFee, Fixed, Repay, Share
from pricebook.proceeds.rest import Rest, RestByWeight

Deduction = SalesTax | Premium | Share | CardFee | Fixed | Repay
Final = Rest | RestByWeight
Rule = Deduction | Final

KINDS: dict[str, type[Rule]] = {
    kind.kind: kind
    for kind in (
        SalesTax,
        Premium,
        Share,
        CardFee,
        Fixed,
        Repay,
        Rest,
        RestByWeight,
    )
}


def set_faults(read: Sequence[Rule], tax_required: bool) -> Iterator[str]:
    """List what is wrong with the rules as a list."""
    yield from _rest_faults(read)
    yield from _tax_faults(read, tax_required)
    if sum(isinstance(rule, Premium) for rule in read) > 1:
        yield "there are two premiums; state one, with tiers if need be."
    yield from _after_faults(read)
    yield from _sum_faults(read)


def _rest_faults(read: Sequence[Rule]) -> Iterator[str]:
    finals = [n for n, rule in enumerate(read, 1) if isinstance(rule, Final)]
    if not finals:
        yield (
            "no rule says who gets what is left; end the list with "
            "a rest for the charity."
        )
    elif len(finals) > 1:
        yield f"rules {finals[0]} and {finals[1]} both take the rest; keep one."
    elif finals[0] < len(read):
        yield f"rule {finals[0]} takes the rest, so no rule may follow it."


def _tax_faults(read: Sequence[Rule], required: bool) -> Iterator[str]:
    taxes = [n for n, rule in enumerate(read) if isinstance(rule, SalesTax)]
    if len(taxes) > 1:
        yield "there are two rules for sales tax; state one rate, all levels added up."
    if not taxes:
        if required:
            yield _UNSET
        return
    tax = read[taxes[0]]
    if isinstance(tax, SalesTax) and not tax.is_set:
        yield _UNSET
    if any(not isinstance(rule, Premium) for rule in read[: taxes[0]]):
        yield "sales tax is owed before anything else; move it to the top of the list."


_UNSET = (
    "sales tax is not set, so no total can be made; "
    "state a rate and its base, or the base none."
)


def _after_faults(read: Sequence[Rule]) -> Iterator[str]:
    seen: list[str] = []
    for number, rule in enumerate(read, start=1):
        if isinstance(rule, Share) and rule.after and seen.count(rule.after) != 1:
            found = "two rules" if rule.after in seen else "no rule"
            yield (
                f'rule {number}: after names "{rule.after}", and {found} before it '
                f"bears that label; {nearest(rule.after, seen)}"
            )
        seen.append(rule.label or rule.payee or "")


def payee_faults(read: Sequence[Rule], payees: Collection[str] | None) -> Iterator[str]:
    """List the payees that are not among those allowed."""
    if payees is None:
        return
    is_row = isinstance(payees, list | tuple | set | frozenset | Mapping)
    if not is_row or not all(isinstance(name, str) for name in payees):
        yield f'payees are "{payees}"; give a list of names.'
        return
    for number, rule in enumerate(read, start=1):
        for name in rule.payees if isinstance(rule, Final) else (rule.payee,):
            if name is not None and name not in payees:
                yield f'rule {number}: payee "{name}" is unknown; ' + nearest(
                    name, payees
                )


def _sum_faults(read: Sequence[Rule]) -> Iterator[str]:
    """Refuse shares of one base that come to more than the whole of it."""
    claims, room = _claims_on_hammer(read)
    total = sum((share for _, share in claims), Fraction(0))
    if total > room:
        names = ", ".join(name for name, _ in claims)
        yield (
            f"the shares of {names} come to {float(total):.6g} of the hammer price; "
            f"there is {float(room):.6g} of it to share, so lower one."
        )
    anchored: dict[str, Fraction] = {}
    for rule in read:
        if isinstance(rule, Share) and rule.after:
            top = max(share for _, share in rule.steps)
            anchored[rule.after] = anchored.get(rule.after, Fraction(0)) + top
    for label, whole in anchored.items():
        if whole > 1:
            yield (
                f"the shares of what is left after {label} come to "
                f"{float(whole):.6g}; they must not come to more than 1."
            )


def _claims_on_hammer(
    read: Sequence[Rule],
) -> tuple[list[tuple[str, Fraction]], Fraction]:
    """Say what each rule takes of one more unit of hammer price, and what there is."""
    most = kept = rate = Fraction(0)
    base = "none"
    for rule in read:
        if isinstance(rule, Premium):
            most = max(share for _, share in rule.steps)
            kept = Fraction(0) if rule.payee else min(s for _, s in rule.steps)
        elif isinstance(rule, SalesTax):
            rate, base = money.exact(rule.rate or 0), rule.base or "none"
    gross = 1 + most
    charged = gross + rate * (gross if base == "hammer_plus_premium" else 1)
    worth = {
        "hammer": Fraction(1),
        "premium": most,
        "hammer_plus_premium": gross,
        "charged": charged,
    }
    claims = []
    for rule in read:
        if isinstance(rule, CardFee):
            claims.append((rule.label, money.exact(rule.rate) * charged))
        elif isinstance(rule, Share) and rule.of != "left":
            top = max(share for _, share in rule.steps)
            claims.append((rule.label or rule.payee, top * worth[rule.of]))
    return claims, 1 + kept
