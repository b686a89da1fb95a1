"""The split itself: one price, one list of rules, every cent accounted for."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypedDict

from pricebook import money
from pricebook.errors import MoneyError, nearest, raise_all
from pricebook.proceeds.charges import SalesTax
from pricebook.proceeds.checks import Deduction, Final, Rule
from pricebook.proceeds.reading import Rules, read_rules
from pricebook.proceeds.till import Till, cents_fault


class Terms(TypedDict, total=False):
    """What `split` may be told of one lot, beside its price and the rules."""

    fair_market_value_cents: int | None
    by_card: bool
    costs_cents: Mapping[str, int] | None


RuleList = Rules | Iterable[Rule | Mapping[str, object]]


@dataclass(frozen=True, slots=True)
class SplitLine:
    """One line of a split: what a rule claimed and what it got.

    Parameters
    ----------
    rule : rule
        The rule behind the line.
    payee : str
        Who is paid.
    base_cents : int
        What the claim was worked out on. [cents]
    claim_cents : int
        What the rule comes to. [cents]
    amount_cents : int
        What was left to pay it with: the claim, or less. [cents]

    Examples
    --------
    >>> from pricebook.proceeds import CardFee, Fixed, Repay, Rest, Share
    >>> line = split(3000, [Fixed("auctioneer", 3500), Rest("charity")]).lines[0]
    >>> line.amount_cents, line.short_cents, line.how
    (3000, 500, 'a fixed amount a lot: 35.00; 5.00 could not be paid')
    """

    rule: Deduction | Final
    payee: str
    base_cents: int
    claim_cents: int
    amount_cents: int

    @property
    def label(self) -> str:
        """What the line is called."""
        return self.rule.label or self.payee

    @property
    def short_cents(self) -> int:
        """What could not be paid [cents]."""
        return self.claim_cents - self.amount_cents

    @property
    def how(self) -> str:
        """How the amount was worked out, in words."""
        words = f"{self.rule.words}: {money.show(self.base_cents)}"
        if self.short_cents:
            words += f"; {money.show(self.short_cents)} could not be paid"
        return words


@dataclass(frozen=True, slots=True)
class Split:
    """Who gets what of one price; every line together makes what was charged.

    Parameters
    ----------
    hammer_cents, premium_cents, tax_cents : int
        What the buyer was charged. [cents]
    lines : tuple of SplitLine
        In the order of the rules, the rest last.
    charity : str
        The payee who gets the rest.

    Examples
    --------
    >>> from pricebook.proceeds import CardFee, Fixed, Repay, Rest, Share
    >>> done = split(90000, [Share("guild", 0.05), Rest("charity")])
    >>> dict(done.amounts)
    {'guild': 4500, 'charity': 85500}
    """

    hammer_cents: int
    premium_cents: int
    tax_cents: int
    lines: tuple[SplitLine, ...]
    charity: str

    @property
    def charged_cents(self) -> int:
        """Hammer price, premium and sales tax [cents]."""
        return self.hammer_cents + self.premium_cents + self.tax_cents

    @property
    def amounts(self) -> Mapping[str, int]:
        """What each payee gets; the amounts add up to what was charged [cents]."""
        found: dict[str, int] = {}
        for line in self.lines:
            found[line.payee] = found.get(line.payee, 0) + line.amount_cents
        return MappingProxyType(found)

    @property
    def charity_cents(self) -> int:
        """What the charity gets, all its lines together [cents]."""
        return sum(x.amount_cents for x in self.lines if x.payee == self.charity)

    @property
    def short_cents(self) -> int:
        """What could not be paid to anyone, for want of money [cents]."""
        return sum(line.short_cents for line in self.lines)


def split(
    hammer_cents: int,
    rules: RuleList,
    *,
    fair_market_value_cents: int | None = None,
    by_card: bool = True,
    costs_cents: Mapping[str, int] | None = None,
    payees: Collection[str] | None = None,
) -> Split:
    """Split the price of one lot by an ordered list of rules, to the cent.

    Parameters
    ----------
    hammer_cents : int
        Hammer price, 0 or more. [cents]
    rules : iterable of rules or mappings
        In order of priority, ending with the charity's rest; see `read_rules`.
    fair_market_value_cents : int, optional
        Needed when sales tax is due on the lower of it and the price. [cents]
    by_card : bool
        Whether the buyer pays by card, so that a card fee is due.
    costs_cents : mapping of str to int, optional
        Documented cost of this lot for each repayment that states none, by the
        rule's label, else its payee. [cents]
    payees : collection of str, optional
        The only payees that may be named.

    Returns
    -------
    Split
        A line a rule, and the amounts by payee.

    Raises
    ------
    MoneyError
        If the price or the rules are faulty, with a sentence for each fault.

    Notes
    -----
    Each rule takes its claim, rounded half up once, or what is left if that is
    less: a price too small for all claims pays them in the order of the rules and
    nothing goes negative. The rest is found by subtraction. The order itself is
    common practice, no source. A list without a rule for sales tax splits the
    price as it stands; `read_rules` can insist on one.

    Examples
    --------
    >>> from pricebook.proceeds import CardFee, Fixed, Repay, Rest, Share
    >>> rules = [
    ...     Fixed("auctioneer", 3500),
    ...     CardFee("card processor", 0.029, 30),
    ...     Repay("maker", 21240, 18000),
    ...     Rest("charity"),
    ... ]
    >>> dict(split(40000, rules).amounts)
    {'auctioneer': 3500, 'card processor': 1190, 'maker': 18000, 'charity': 17310}
    """
    ready = read_rules(rules, payees=payees)
    terms = Terms(
        fair_market_value_cents=fair_market_value_cents,
        by_card=by_card,
        costs_cents=costs_cents,
    )
    return take_turns(open_till(hammer_cents, ready, terms), ready)


def open_till(hammer: int, rules: Rules, terms: Terms) -> Till:
    """Work out what is charged."""
    value = terms.get("fair_market_value_cents")
    stated = terms.get("costs_cents")
    costs = {} if stated is None else stated
    by_card = terms.get("by_card", True)
    tax = rules.sales_tax
    raise_all(
        MoneyError,
        [
            *cents_fault("hammer price", hammer),
            *cents_fault("fair market value", value, optional=True),
            *_tax_faults(tax, value),
            *(
                []
                if isinstance(by_card, bool)
                else [f"by_card is {by_card!r}; say True or False."]
            ),
            *_cost_faults(rules, costs),
        ],
    )
    hammer = int(hammer)
    costs = {name: int(cost) for name, cost in costs.items()}
    premium = rules.premium.on(hammer) if rules.premium else 0
    bases = {
        "none": 0,
        "hammer": hammer,
        "hammer_plus_premium": hammer + premium,
        "min_hammer_fmv": min(hammer, hammer if value is None else int(value)),
    }
    base = bases[tax.base or "none"] if tax else 0
    due = tax.due(base) if tax else 0
    return Till(hammer, premium, due, base, by_card, costs)


def _tax_faults(tax: SalesTax | None, value: int | None) -> Iterator[str]:
    if tax is not None and tax.base == "min_hammer_fmv" and value is None:
        yield (
            "sales tax is due on the lower of hammer price and fair market value, "
            "and no fair market value is given; give it."
        )


def _cost_faults(rules: Rules, costs: Mapping[str, int]) -> Iterator[str]:
    """Find costs that no rule repays, and repayments without a cost."""
    if not isinstance(costs, Mapping):
        yield f"costs are {costs!r}; give a mapping of labels to whole cents."
        return
    for name in rules.open_costs:
        if name not in costs:
            yield f'no documented cost is given for "{name}"; give it, be it 0.'
    for name, cost in costs.items():
        if name not in rules.open_costs:
            yield f'no repayment waits for a cost of "{name}"; ' + nearest(
                str(name), rules.open_costs
            )
        yield from cents_fault(f"cost of {name}", cost)


def take_turns(till: Till, rules: Rules) -> Split:
    """Let every rule take its claim in turn; the rest is what is left."""
    left = till.charged_cents
    lines = []
    for rule in rules.deductions:
        till.left_cents = left
        if rule.payee is not None:
            base, claim = rule.claim(till)
            paid = min(claim, left)
            left -= paid
            lines.append(SplitLine(rule, rule.payee, base, claim, paid))
        till.left_after[rule.label or rule.payee or ""] = left
    final = rules.final
    for payee, amount in zip(final.payees, final.shared(left), strict=True):
        lines.append(SplitLine(final, payee, left, amount, amount))
    return Split(
        till.hammer_cents,
        till.premium_cents,
        till.tax_cents,
        tuple(lines),
        final.payee,
    )
