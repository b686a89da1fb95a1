"""The order of deductions as formulas: one cell a claim, in the order of the rules.

A row of the split holds a lot. What it is charged stands in the columns `HAMMER`,
`PREMIUM`, `TAX` and `CHARGED`; then comes a column for each claim. Every base is
rounded before a share is taken of it, so that no float dust moves a half cent.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pricebook.money import exact
from pricebook.proceeds import (
    CardFee,
    Fixed,
    Premium,
    Repay,
    RestByWeight,
    Rules,
    SalesTax,
    Share,
)
from pricebook.proceeds.tiers import Steps

SPREADSHEET_DIGITS = 15
"""A spreadsheet program keeps no more digits of a number that is typed."""

Key = tuple[str, str, int]
"""A claim: its kind, what it is called, which one of that name."""


def amount(cents: int) -> str:
    """Return an amount as a formula writes it.

    Examples
    --------
    >>> amount(1250), amount(30)
    ('12.5', '0.3')
    """
    units, part = divmod(cents, 100)
    return f"{units}.{part:02d}".rstrip("0").rstrip(".") if part else str(units)


def share_text(share: Fraction) -> str:
    """Return a share as a formula writes it: a decimal, or else a fraction.

    Examples
    --------
    >>> share_text(Fraction(29, 1000)), share_text(Fraction(1, 3))
    ('0.029', '(1/3)')
    """
    plain = f"{float(share):.{SPREADSHEET_DIGITS}g}"
    if "e" not in plain and Fraction(plain) == share:
        return plain
    return f"({share.numerator}/{share.denominator})"


def of_steps(base: str, steps: Steps) -> str:
    """Return what marginal steps take of a base, not yet rounded.

    Parameters
    ----------
    base : str
        A cell or an expression in brackets.
    steps : steps
        Each (up to cents or None, share).

    Returns
    -------
    str
        An expression.

    Examples
    --------
    >>> of_steps("D8", ((None, Fraction(1, 20)),))
    'D8*0.05'
    >>> of_steps("D8", ((10000, Fraction(1, 4)), (None, Fraction(1, 5))))
    'MIN(D8,100)*0.25+MAX(0,D8-100)*0.2'
    """
    if len(steps) == 1:
        return f"{base}*{share_text(steps[0][1])}"
    terms, below = [], 0
    for bound, share in steps:
        top = base if bound is None else f"MIN({base},{amount(bound)})"
        inside = f"MAX(0,{top}-{amount(below)})" if below else top
        terms.append(f"{inside}*{share_text(share)}")
        below = bound or 0
    return "+".join(terms)


def within(claim: str, floor_cents: int | None, cap_cents: int | None) -> str:
    """Hold a claim between its floor and its cap."""
    if floor_cents is not None:
        claim = f"MAX({claim},{amount(floor_cents)})"
    return claim if cap_cents is None else f"MIN({claim},{amount(cap_cents)})"


def claims_of(rules: Rules) -> Iterator[tuple[Key, str, str]]:
    """Yield key, label and payee of every line of a split, in order.

    Parameters
    ----------
    rules : Rules
        The order of deductions.

    Yields
    ------
    (Key, str, str)
        The lines that `split` makes, sales tax included.
    """
    seen: dict[tuple[str, str], int] = {}
    lines = [
        (rule.kind, rule.label or rule.payee, rule.payee)
        for rule in rules.deductions
        if rule.payee is not None
    ]
    final = rules.final
    lines += [(final.kind, final.label or payee, payee) for payee in final.payees]
    for kind, label, payee in lines:
        seen[kind, label] = seen.get((kind, label), -1) + 1
        yield (kind, label, seen[kind, label]), label, payee


@dataclass(frozen=True, slots=True, kw_only=True)
class RowCells:
    """Addresses in the row of one lot.

    Parameters
    ----------
    hammer, premium, tax, charged : str
        What the buyer is charged; empty for a premium where there is none.
    by_card : str
        A condition: whether it is paid by card.
    value : str
        The fair market value; empty where none is stated.
    documented : str
        The documented cost of materials.
    claims : mapping of Key to str
        Where each claim stands.
    left : str
        Where what is left to be shared by weight stands; else empty.
    """

    hammer: str
    premium: str
    tax: str
    charged: str
    by_card: str
    value: str
    documented: str
    claims: Mapping[Key, str]
    left: str


def premium_formula(rules: Rules, row: RowCells) -> str:
    """Return the buyer's premium, not yet rounded."""
    rule = rules.premium
    return of_steps(row.hammer, rule.steps) if rule else "0"


def tax_formula(rules: Rules, row: RowCells) -> str:
    """Return the sales tax, not yet rounded."""
    rule = rules.sales_tax
    if rule is None or rule.base == "none" or not rule.rate:
        return "0"
    both = f"ROUND({row.hammer}+{row.premium},2)" if row.premium else row.hammer
    base = {
        "hammer": row.hammer,
        "hammer_plus_premium": both,
        "min_hammer_fmv": f"MIN({row.hammer},{row.value})",
    }[rule.base or ""]
    return f"{base}*{share_text(exact(rule.rate))}"


def claim_formulas(rules: Rules, row: RowCells) -> Iterator[tuple[Key, str]]:
    """Yield every line of a lot's split as a formula in money, not yet rounded.

    Parameters
    ----------
    rules : Rules
        The lot's order of deductions.
    row : RowCells
        Its cells.

    Yields
    ------
    (Key, str)
        The key of the claim, and an expression that is rounded to cents.

    Notes
    -----
    Each claim takes what is left if that is less, as `proceeds.split` does.
    """
    taken: list[str] = []
    after: dict[str, str] = {}
    keys = iter(claims_of(rules))
    for rule in rules.deductions:
        left = _left(row.charged, taken)
        if rule.payee is not None:
            key, _, _ = next(keys)
            if isinstance(rule, SalesTax):
                yield key, row.tax
            else:
                yield key, f"MIN({_claim(rule, row, left, after)},{left})"
            taken.append(row.claims[key])
        after[rule.label or rule.payee or ""] = _left(row.charged, taken)
    final = rules.final
    if isinstance(final, RestByWeight):
        weights = [exact(weight) for weight in dict(final.weights).values()]
        for (key, _, _), part in zip(keys, _by_weight(row.left, weights), strict=True):
            yield key, part
    else:
        key, _, _ = next(keys)
        yield key, _left(row.charged, taken)


def left_formula(rules: Rules, row: RowCells) -> str:
    """Return what is left after all deductions."""
    taken = [
        row.claims[key] for key, _, _ in claims_of(rules) if key[0] != rules.final.kind
    ]
    return _left(row.charged, taken)


def _left(charged: str, taken: Sequence[str]) -> str:
    return f"ROUND({'-'.join([charged, *taken])},2)" if taken else charged


def _claim(
    rule: Premium | Share | CardFee | Fixed | Repay,
    row: RowCells,
    left: str,
    after: Mapping[str, str],
) -> str:
    if isinstance(rule, Premium):
        return row.premium
    if isinstance(rule, Share):
        base = after[rule.after] if rule.after else _base(rule.of, row, left)
        claim = f"ROUND({of_steps(base, rule.steps)},2)"
        return within(claim, rule.floor_cents, rule.cap_cents)
    if isinstance(rule, CardFee):
        fee = f"ROUND({row.charged}*{share_text(exact(rule.rate))},2)"
        fee += f"+{amount(rule.fixed_cents)}" if rule.fixed_cents else ""
        return f"IF(AND({row.by_card},{row.charged}>0),{fee},0)"
    if isinstance(rule, Fixed):
        return amount(rule.amount_cents)
    return within(row.documented, None, rule.cap_cents)


def _base(of: str, row: RowCells, left: str) -> str:
    premium = row.premium or "0"
    return {
        "hammer": row.hammer,
        "premium": premium,
        "hammer_plus_premium": f"ROUND({row.hammer}+{premium},2)",
        "charged": row.charged,
        "left": left,
    }[of]


def _by_weight(left: str, weights: Sequence[Fraction]) -> Iterator[str]:
    """Yield shares by largest remainder, ties to the first, in whole cents."""
    under = math.lcm(*(weight.denominator for weight in weights))
    scaled = [int(weight * under) for weight in weights]
    common = math.gcd(*scaled)
    whole = [weight // common for weight in scaled]
    total = sum(whole)
    cents = f"ROUND({left}*100,0)"
    floors = [f"INT({cents}*{weight}/{total})" for weight in whole]
    rests = [f"MOD({cents}*{weight},{total})" for weight in whole]
    spare = f"{cents}-{'-'.join(floors)}"
    for place, floor in enumerate(floors):
        before = [
            f"({rest}>{'=' if other < place else ''}{rests[place]})"
            for other, rest in enumerate(rests)
            if other != place
        ]
        rank = "+".join(["0", *before])
        yield f"({floor}+IF({spare}>{rank},1,0))/100"
