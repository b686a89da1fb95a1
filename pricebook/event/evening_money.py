"""Money of the evening beside the lots: costs, tickets, gifts, what the net buys."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pricebook.errors import SpecError, raise_all
from pricebook.event.checks import cents_fault, day_fault, text_fault, word_fault

RETURN_LINES = (
    "cash prizes",
    "noncash prizes",
    "rent",
    "food",
    "entertainment",
    "other",
)
"""Which event line of the public return a cost belongs to: 4 to 9, in order."""
GIFT_KINDS = ("cash", "in kind")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Cash spent on the evening, or on one lot by the charity itself.

    Parameters
    ----------
    item : str
        What was bought.
    amount_cents : int
        What was paid. [cents]
    line : str
        One of `RETURN_LINES`.
    lot : str
        Number of the lot it was spent on; empty for the evening as a whole.

    Examples
    --------
    >>> Cost(item="Hall", amount_cents=20000, line="rent").lot
    ''
    """

    item: str
    amount_cents: int
    line: str
    lot: str = ""

    def __post_init__(self) -> None:
        raise_all(SpecError, (f'cost "{self.item}": {x}' for x in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from text_fault("item", self.item)
        yield from cents_fault("amount", self.amount_cents)
        yield from word_fault("line", self.line, RETURN_LINES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticket:
    """Tickets of one price, and what a guest got for it.

    Parameters
    ----------
    item : str
        What they are called.
    price_cents, value_cents : int
        Price of one, and fair market value of what one guest got. [cents]
    count : int
        How many were paid for. [-]

    Examples
    --------
    >>> Ticket(item="Supper", price_cents=2500, value_cents=1800, count=40).cash_cents
    100000
    """

    item: str
    price_cents: int
    value_cents: int
    count: int

    def __post_init__(self) -> None:
        raise_all(SpecError, (f'ticket "{self.item}": {x}' for x in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from text_fault("item", self.item)
        yield from cents_fault("price", self.price_cents)
        yield from cents_fault("value", self.value_cents)
        if isinstance(self.count, bool) or not isinstance(self.count, int):
            yield f"count is {self.count!r}; it must be a whole number."
        elif not 0 <= self.count <= 1_000_000:
            yield f"count is {self.count}; it must be a count, 0 or more."

    @property
    def cash_cents(self) -> int:
        """What was paid for all of them [cents]."""
        return self.price_cents * self.count


@dataclass(frozen=True, slots=True, kw_only=True)
class Gift:
    """A gift to the evening itself: money, or goods at their stated value.

    Parameters
    ----------
    item : str
        What was given.
    value_cents : int
        How much, or what the giver's goods are worth. [cents]
    by : str
        Who gave it, as they wish to be named.
    kind : {"cash", "in kind"}
        Which of the two.

    Examples
    --------
    >>> Gift(item="Money jar", value_cents=12350, by="guests", kind="cash").kind
    'cash'
    """

    item: str
    value_cents: int
    by: str
    kind: str

    def __post_init__(self) -> None:
        raise_all(SpecError, (f'gift "{self.item}": {x}' for x in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from text_fault("item", self.item)
        yield from cents_fault("value", self.value_cents)
        yield from text_fault("by", self.by)
        yield from word_fault("kind", self.kind, GIFT_KINDS)


@dataclass(frozen=True, slots=True, kw_only=True)
class NetPaysFor:
    """What the net buys, at the charity's own stated and dated cost.

    Parameters
    ----------
    unit : str
        What is counted: a plain piece, a furnished home.
    cost_cents : int
        What one costs the charity, above 0. [cents]
    stated_by : str
        Who stated it.
    stated_on : date
        When.

    Examples
    --------
    >>> NetPaysFor(unit="plain piece", cost_cents=8500, stated_by="the treasurer",
    ...            stated_on=date(2026, 9, 30)).cost_cents
    8500
    """

    unit: str
    cost_cents: int
    stated_by: str
    stated_on: date

    def __post_init__(self) -> None:
        raise_all(SpecError, (f'"{self.unit}": {fault}' for fault in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from text_fault("unit", self.unit)
        yield from cents_fault("cost", self.cost_cents, above=0)
        yield from text_fault("stated_by", self.stated_by)
        yield from day_fault("stated_on", self.stated_on)
