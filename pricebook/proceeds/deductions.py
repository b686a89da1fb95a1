"""What is taken out of a price before the charity's part: shares, fees, costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import ClassVar

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number
from pricebook.proceeds.tiers import Steps, Tier, chosen_steps, marginal, part, share_of
from pricebook.proceeds.till import (
    BASES,
    Till,
    cents_fault,
    keep_whole,
    limits,
    name_fault,
    percent,
    range_faults,
    share_fault,
    steps_words,
    text_faults,
    within,
    word_fault,
)


@dataclass(frozen=True, slots=True)
class Share:
    """A share of a named base: a commission, a guild's or a maker's share.

    Parameters
    ----------
    payee : str
        Who is paid.
    share : number or None
        A flat share of the base, 0 to 1. [-]
    of : str
        The base: `hammer`, `premium`, `hammer_plus_premium`, `charged`, or `left`
        (what is left when this rule's turn comes).
    floor_cents, cap_cents : int or None
        The least and the most it comes to. [cents]
    after : str
        With `left`: what was left after the earlier rule of this label, so that
        two payees can share one and the same base.
    label : str
        What the line is called; the payee if empty.
    tiers : sequence of (int or None, number)
        Marginal tiers in place of a flat share, as `premium_cents` takes them.

    Examples
    --------
    >>> Share("guild", 0.05).of
    'hammer'
    >>> Share("maker", 0.2, "left", floor_cents=5000, cap_cents=4000)
    Traceback (most recent call last):
        ...
    pricebook.errors.MoneyError: cap 40.00 is below floor 50.00; ...
    """

    kind: ClassVar[str] = "share"
    payee: str
    share: Number | None = None
    of: str = "hammer"
    floor_cents: int | None = None
    cap_cents: int | None = None
    after: str = ""
    label: str = ""
    tiers: Sequence[Tier] = ()
    steps: Steps = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        steps, found = chosen_steps(self.share, self.tiers)
        faults = [
            *name_fault("payee", self.payee),
            *text_faults(after=self.after, label=self.label),
            *found,
            *word_fault("of", self.of, BASES),
            *range_faults(self.floor_cents, self.cap_cents),
        ]
        if self.after and self.of != "left":
            faults.append(f'after is "{self.after}" but of is "{self.of}", not left.')
        raise_all(MoneyError, faults)
        keep_whole(self, "floor_cents", "cap_cents")
        object.__setattr__(self, "share", share_of(self.share))
        object.__setattr__(self, "tiers", steps if self.share is None else ())
        object.__setattr__(self, "steps", steps)

    def claim(self, till: Till) -> tuple[int, int]:
        """Return base and claim [cents]."""
        base = till.base(self.of, self.after)
        amount = marginal(base, self.steps)
        return base, within(amount, self.floor_cents, self.cap_cents)

    @property
    def words(self) -> str:
        """The rule in words."""
        base = BASES[self.of] + (f" after {self.after}" if self.after else "")
        ends = limits(self.floor_cents, self.cap_cents)
        return f"{steps_words(self.steps)} of {base}{ends}"


@dataclass(frozen=True, slots=True)
class CardFee:
    """A card fee on the whole amount charged, premium and tax included.

    Parameters
    ----------
    payee : str
        Who is paid.
    rate : number
        Share of the amount charged, 0 to below 1. [-]
    fixed_cents : int
        Added once a payment. [cents]
    label : str
        What the line is called.

    Notes
    -----
    Nothing is due when the lot is not paid by card, or nothing is charged.
    A rate plus a fixed part is common practice, no source.

    Examples
    --------
    >>> CardFee("card processor", 0.029, 30).fixed_cents
    30
    """

    kind: ClassVar[str] = "card_fee"
    payee: str
    rate: Number
    fixed_cents: int = 0
    label: str = "card fee"

    def __post_init__(self) -> None:
        faults = [
            *name_fault("payee", self.payee),
            *text_faults(label=self.label),
            *share_fault("rate", self.rate),
            *cents_fault("fixed_cents", self.fixed_cents),
        ]
        rate = share_of(self.rate)
        if rate == 1:
            faults.append("rate is 1; a fee that eats the whole price is refused.")
        raise_all(MoneyError, faults)
        keep_whole(self, "fixed_cents")
        object.__setattr__(self, "rate", rate)

    def claim(self, till: Till) -> tuple[int, int]:
        """Return base and claim [cents]."""
        base = till.charged_cents if till.by_card else 0
        if base == 0:
            return 0, 0
        return base, part(base, money.exact(self.rate)) + self.fixed_cents

    @property
    def words(self) -> str:
        """The rule in words."""
        fixed = f" + {money.show(self.fixed_cents)}" if self.fixed_cents else ""
        return f"{percent(self.rate)} of the amount charged{fixed}, if paid by card"


@dataclass(frozen=True, slots=True)
class Fixed:
    """A fixed amount a lot.

    Parameters
    ----------
    payee : str
        Who is paid.
    amount_cents : int
        The amount. [cents]
    label : str
        What the line is called; the payee if empty.

    Examples
    --------
    >>> Fixed("auctioneer", 3500, "lot fee").amount_cents
    3500
    """

    kind: ClassVar[str] = "fixed"
    payee: str
    amount_cents: int
    label: str = ""

    def __post_init__(self) -> None:
        raise_all(
            MoneyError,
            [
                *name_fault("payee", self.payee),
                *text_faults(label=self.label),
                *cents_fault("amount_cents", self.amount_cents),
            ],
        )
        keep_whole(self, "amount_cents")

    def claim(self, till: Till) -> tuple[int, int]:
        """Return base and claim [cents]."""
        return self.amount_cents, self.amount_cents

    @property
    def words(self) -> str:
        """The rule in words."""
        return "a fixed amount a lot"


@dataclass(frozen=True, slots=True)
class Repay:
    """A documented cost, repaid up to a cap and to what is left.

    Parameters
    ----------
    payee : str
        Who is repaid.
    cost_cents : int or None
        What was documented; None when each lot has its own, given to the split
        under this rule's label. [cents]
    cap_cents : int or None
        The most that is repaid. [cents]
    label : str
        What the line is called; the payee if empty.

    Examples
    --------
    >>> Repay("maker", 21240, 18000, "materials").cap_cents
    18000
    """

    kind: ClassVar[str] = "repay"
    payee: str
    cost_cents: int | None = None
    cap_cents: int | None = None
    label: str = ""

    def __post_init__(self) -> None:
        raise_all(
            MoneyError,
            [
                *name_fault("payee", self.payee),
                *text_faults(label=self.label),
                *cents_fault("cost_cents", self.cost_cents, optional=True),
                *cents_fault("cap_cents", self.cap_cents, optional=True),
            ],
        )
        keep_whole(self, "cost_cents", "cap_cents")

    def claim(self, till: Till) -> tuple[int, int]:
        """Return base and claim [cents]."""
        cost = self.cost_cents
        if cost is None:
            cost = till.costs_cents[self.label or self.payee]
        return cost, within(cost, None, self.cap_cents)

    @property
    def words(self) -> str:
        """The rule in words."""
        return f"documented cost{limits(None, self.cap_cents)}"
