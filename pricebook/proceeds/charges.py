"""What is charged on top of the hammer price: sales tax and buyer's premium."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import ClassVar

from pricebook import money
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number
from pricebook.proceeds.tiers import Steps, Tier, chosen_steps, marginal, part, share_of
from pricebook.proceeds.till import (
    TAX_BASES,
    Till,
    cents_fault,
    name_fault,
    percent,
    share_fault,
    steps_words,
    text_faults,
    word_fault,
)


@dataclass(frozen=True, slots=True)
class SalesTax:
    """Sales tax on the buyer's invoice: charged on top, taken out first.

    Parameters
    ----------
    payee : str
        Whom the tax is owed to.
    rate : number or None
        Rate as the treasurer states it, state and local added up. [-]
    base : str or None
        `none`, `hammer`, `hammer_plus_premium` or `min_hammer_fmv`. There is no
        default: states differ, and a rule set with an unset tax is refused.
    label : str
        What the line is called.

    Notes
    -----
    Where a premium is part of the taxable receipt the base is
    `hammer_plus_premium`, as in New York. Source: ny_tsb_a_24_48.

    Examples
    --------
    >>> SalesTax("state", 0.06, "hammer_plus_premium").base
    'hammer_plus_premium'
    """

    kind: ClassVar[str] = "sales_tax"
    payee: str
    rate: Number | None = None
    base: str | None = None
    label: str = "sales tax"

    def __post_init__(self) -> None:
        faults = [
            *name_fault("payee", self.payee),
            *text_faults(label=self.label),
        ]
        if self.base is not None:
            faults += word_fault("base", self.base, TAX_BASES)
        if self.rate is not None:
            faults += share_fault("rate", self.rate)
        if not faults and self.base == "none" and self.rate:
            faults.append(f"rate is {self.rate} on base none; name the base.")
        raise_all(MoneyError, faults)
        object.__setattr__(self, "rate", share_of(self.rate))

    @property
    def is_set(self) -> bool:
        """Whether the treasurer has stated what is due."""
        return self.base == "none" or (self.base is not None and self.rate is not None)

    def due(self, base_cents: int) -> int:
        """Tax on a base, half up [cents]."""
        return part(base_cents, money.exact(self.rate or 0))

    def claim(self, till: Till) -> tuple[int, int]:
        """Return base and claim [cents]."""
        return till.tax_base_cents, till.tax_cents

    @property
    def words(self) -> str:
        """The rule in words."""
        if self.base == "none":
            return "no sales tax on this sale, as the treasurer states"
        return f"{percent(self.rate or 0)} of {TAX_BASES[self.base or 'none']}"


@dataclass(frozen=True, slots=True)
class Premium:
    """A buyer's premium, charged on top of the hammer price.

    Parameters
    ----------
    payee : str or None
        Its owner; None leaves it in what there is to split.
    share : number or None
        A flat share of the hammer price, 0 to 1. [-]
    tiers : sequence of (int or None, number)
        Or marginal tiers, as `premium_cents` takes them.
    label : str
        What the line is called.

    Examples
    --------
    >>> Premium("auction house", 0.10).on(90000)
    9000
    """

    kind: ClassVar[str] = "premium"
    payee: str | None = None
    share: Number | None = None
    tiers: Sequence[Tier] = ()
    label: str = "premium"
    steps: Steps = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        faults = list(text_faults(label=self.label))
        if self.payee is not None:
            faults += name_fault("payee", self.payee)
        steps, found = chosen_steps(self.share, self.tiers)
        faults += found
        raise_all(MoneyError, faults)
        object.__setattr__(self, "steps", steps)
        object.__setattr__(self, "tiers", steps if self.share is None else ())
        object.__setattr__(self, "share", share_of(self.share))

    def on(self, hammer_cents: int) -> int:
        """Premium on a hammer price [cents]."""
        return marginal(hammer_cents, self.steps)

    def claim(self, till: Till) -> tuple[int, int]:
        """Return base and claim [cents]."""
        return till.hammer_cents, till.premium_cents

    @property
    def words(self) -> str:
        """The rule in words."""
        kept = "" if self.payee else ", kept in what is split"
        return f"{steps_words(self.steps)} of the hammer price{kept}"


def sales_tax_cents(
    prices_cents: Iterable[int], rate: Number, *, per: str
) -> tuple[int, ...]:
    """Work out sales tax on the lots of one invoice.

    Parameters
    ----------
    prices_cents : sequence of int
        Taxable price of each lot. [cents]
    rate : number
        Rate, state and local added up. [-]
    per : str
        `item` rounds each lot's tax, `invoice` the tax of the whole; the seller
        elects one and keeps to it.

    Returns
    -------
    tuple of int
        Tax of each lot; with `invoice` the whole is shared out over the lots by
        largest remainder. [cents]

    Raises
    ------
    MoneyError
        If a price, the rate or the election cannot be.

    Notes
    -----
    Carried to the third decimal and rounded up from 5 on. Source: ssuta_324.

    Examples
    --------
    >>> sum(sales_tax_cents([3333] * 3, 0.0725, per="item"))
    726
    >>> sum(sales_tax_cents([3333] * 3, 0.0725, per="invoice"))
    725
    """
    faults = [*share_fault("rate", rate), *word_fault("per", per, _ELECTIONS)]
    if isinstance(prices_cents, str) or not isinstance(prices_cents, Iterable):
        faults.append(f"prices are {prices_cents!r:.40}; give a row of whole cents.")
        prices_cents = ()
    prices = list(prices_cents)
    for number, price in enumerate(prices, start=1):
        faults += cents_fault(f"price {number}", price)
    raise_all(MoneyError, faults)
    exact = money.exact(rate)
    if per == "item":
        return tuple(part(price, exact) for price in prices)
    whole = part(sum(prices), exact)
    return money.share_out(whole, prices) if whole else (0,) * len(prices)


_ELECTIONS = {"item": "each lot's tax is rounded", "invoice": "the whole is"}
