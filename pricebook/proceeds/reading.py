"""A list of rules, checked as a whole: values or mappings, all faults at once."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, fields
from functools import cache, lru_cache
from typing import Any, cast

from pricebook import money
from pricebook.errors import MoneyError, PricebookError, nearest, raise_all
from pricebook.proceeds.charges import Premium, SalesTax
from pricebook.proceeds.checks import (
    KINDS,
    Deduction,
    Final,
    Rule,
    payee_faults,
    set_faults,
)
from pricebook.proceeds.deductions import Repay
from pricebook.proceeds.rest import Rest, RestByWeight

Items = tuple[tuple[object, type, object], ...]

_TYPES = frozenset(KINDS.values())


@dataclass(frozen=True, slots=True)
class Rules:
    """Rules that belong together: read, checked and ready to split with.

    Parameters
    ----------
    deductions : tuple
        What is taken out, in order of priority.
    final : Rest or RestByWeight
        Who gets what is left.

    Examples
    --------
    >>> from pricebook.proceeds import Share
    >>> read_rules([Share("guild", 0.05), Rest("charity")]).payees
    ('guild', 'charity')
    """

    deductions: tuple[Deduction, ...]
    final: Final

    @property
    def payees(self) -> tuple[str, ...]:
        """Everyone who is paid, in the order of the rules."""
        named = [rule.payee for rule in self.deductions if rule.payee is not None]
        return tuple(dict.fromkeys([*named, *self.final.payees]))

    @property
    def words(self) -> tuple[tuple[str, str, str], ...]:
        """The order of deductions to print: what each is called, payee, rule."""
        rules: list[Rule] = [*self.deductions, self.final]
        return tuple(
            (
                rule.label or rule.payee or "",
                ", ".join(rule.payees) if isinstance(rule, Final) else rule.payee or "",
                rule.words,
            )
            for rule in rules
        )

    @property
    def open_costs(self) -> tuple[str, ...]:
        """The repayments whose cost each lot must state."""
        return tuple(
            rule.label or rule.payee
            for rule in self.deductions
            if isinstance(rule, Repay) and rule.cost_cents is None
        )

    @property
    def sales_tax(self) -> SalesTax | None:
        """The rule for sales tax, if the list states one."""
        return next((r for r in self.deductions if isinstance(r, SalesTax)), None)

    @property
    def premium(self) -> Premium | None:
        """The rule for the buyer's premium, if the list states one."""
        return next((r for r in self.deductions if isinstance(r, Premium)), None)


def read_rules(
    rules: Rules | Iterable[Rule | Mapping[str, object]],
    *,
    payees: Collection[str] | None = None,
    tax_required: bool = False,
) -> Rules:
    """Check a list of rules and make it ready to split with.

    Parameters
    ----------
    rules : iterable of rules or mappings
        In order of priority, each a rule of this package or a mapping with `kind`
        and the fields of that rule, as a file states them. In a mapping an amount
        may also be typed text under its name without `_cents`: `cost = "212.40"`.
    payees : collection of str, optional
        The only payees that may be named.
    tax_required : bool
        Whether the list must say what sales tax is due, be it none.

    Returns
    -------
    Rules
        The checked rules.

    Raises
    ------
    MoneyError
        With a sentence for each fault: an unknown kind, key or payee, a value out
        of range, a sales tax that is not set, shares that come to more than 1, no
        rule or two for the rest, an order that cannot be.

    Notes
    -----
    Sales tax comes first: only a premium may stand before it. Shares of the hammer
    price, of the premium and of the amount charged are added up as they bear on
    one more unit of the hammer price, caps left out of account.

    Examples
    --------
    >>> rules = read_rules(
    ...     [
    ...         {"kind": "share", "payee": "guild", "share": 0.05},
    ...         {"kind": "repay", "payee": "maker", "cost": "212.40", "cap": "180"},
    ...         {"kind": "rest", "payee": "charity"},
    ...     ]
    ... )
    >>> rules.deductions[1].cap_cents
    18000
    >>> read_rules([{"kind": "shar", "payee": "guild"}])
    Traceback (most recent call last):
        ...
    pricebook.errors.MoneyError: rule 1: kind is "shar"; did you mean "share"?
    """
    if isinstance(rules, Rules):
        if payees is None and not tax_required:
            return rules
        read: list[Rule] = [*rules.deductions, rules.final]
    else:
        read = _read_each(rules)
    faults = list(payee_faults(read, payees))
    try:
        ready = _checked(tuple(read), tax_required)
    except PricebookError as error:
        raise MoneyError(*error.faults, *faults) from None
    raise_all(MoneyError, faults)
    return ready


@lru_cache(maxsize=256)
def _checked(read: tuple[Rule, ...], tax_required: bool) -> Rules:
    """Check rules as a list; a list that was checked before is not checked again."""
    raise_all(MoneyError, set_faults(read, tax_required))
    final = read[-1]
    assert isinstance(final, Rest | RestByWeight)
    taken = tuple(r for r in read[:-1] if not isinstance(r, Rest | RestByWeight))
    return Rules(taken, final)


def _read_each(rules: object) -> list[Rule]:
    """Read each rule by itself and raise all their faults in one go."""
    if not isinstance(rules, list | tuple) and (
        isinstance(rules, str | Mapping) or not isinstance(rules, Iterable)
    ):
        raise MoneyError(f"rules are {rules!r}; give a list of rules.")
    read: list[Rule] = []
    faults: list[str] = []
    for number, rule in enumerate(rules, start=1):
        if type(rule) in _TYPES:
            read.append(cast("Rule", rule))
            continue
        try:
            read.append(_from_mapping(rule))
        except PricebookError as error:
            faults += [f"rule {number}: {fault}" for fault in error.faults]
    raise_all(MoneyError, faults)
    return read


@cache
def _fields(word: str) -> tuple[frozenset[str], frozenset[str]]:
    """Name the fields of a rule, all of them and those it cannot do without."""
    from dataclasses import MISSING

    given = [f for f in fields(KINDS[word]) if f.init]
    needed = frozenset(f.name for f in given if f.default is MISSING)
    return frozenset(f.name for f in given), needed


def _from_mapping(rule: object) -> Rule:
    """Read one rule from a mapping; one that was read before is not read again."""
    if not isinstance(rule, dict) and not isinstance(rule, Mapping):
        raise MoneyError(
            f"{rule!r:.80} is no rule; give a rule or a mapping with a kind."
        )
    items = tuple((key, type(value), value) for key, value in rule.items())
    try:
        return _once(tuple(map(_kept, items)))
    except TypeError:  # a list or a mapping inside, which cannot be remembered
        return _from_items(items)


def _kept(item: tuple[object, type, object]) -> tuple[object, type, object]:
    """Return a row of tiers or weights in a form that can be remembered."""
    key, kind, value = item
    if key == "tiers" and isinstance(value, list):
        rows = tuple(tuple(row) for row in value if isinstance(row, list | tuple))
    elif key == "weights" and isinstance(value, dict):
        rows = tuple(value.items())
    else:
        return item
    # True passes for 1 when looked up, so that what holds one is read anew each time
    is_plain = len(rows) == len(value)
    is_plain &= not any(isinstance(part, bool) for row in rows for part in row)
    return (key, kind, rows) if is_plain else item


@lru_cache(maxsize=1024)
def _once(items: Items) -> Rule:
    """Read one rule and remember it."""
    return _from_items(items)


def _from_items(items: Items) -> Rule:
    """Read one rule from its keys and values, amounts as cents or as typed text."""
    word = next((value for key, _, value in items if key == "kind"), None)
    if not isinstance(word, str) or word not in KINDS:
        raise MoneyError(f'kind is "{word}"; {nearest(str(word), KINDS)}')
    values, faults = _values(word, items)
    missing = sorted(_fields(word)[1] - set(values))
    faults += [f"{name} is missing for {word}; add it." for name in missing]
    try:
        built = None if missing else KINDS[word](**values)
    except PricebookError as error:
        faults += error.faults
    raise_all(MoneyError, faults)
    assert built is not None
    return built


def _values(word: str, items: Items) -> tuple[dict[str, Any], list[str]]:
    """Return the fields that a mapping states, and the faults of its keys."""
    names, _ = _fields(word)
    values: dict[str, Any] = {}
    faults: list[str] = []
    for key, _, value in items:
        if key == "kind":
            continue
        name = f"{key}_cents" if f"{key}_cents" in names else key
        if name not in names:
            faults.append(
                f'key "{key}" is not known for {word}; '
                + nearest(str(key), sorted(names))
            )
            continue
        if name in values:
            faults.append(f"{name} is given twice; keep one.")
        values[name] = value
        if name != key:
            faults += _read_amount(values, name)
    return values, faults


def _read_amount(values: dict[str, Any], name: str) -> list[str]:
    """Turn a typed amount into cents, in place; return the fault if it is none."""
    try:
        values[name] = money.read(values[name])
    except PricebookError as error:
        values[name] = 0  # so that the fault is told once
        return [f"{name.removesuffix('_cents')}: {fault}" for fault in error.faults]
    return []
