"""What was charged for one lot, and the checks that every rule shares."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import cast

from pricebook import money
from pricebook.errors import nearest
from pricebook.money import Number, is_cents
from pricebook.proceeds.tiers import Steps, share_of

BASES = {
    "hammer": "the hammer price",
    "premium": "the premium",
    "hammer_plus_premium": "hammer price and premium",
    "charged": "the amount charged",
    "left": "what is left",
}
TAX_BASES = {
    "none": "no sales tax",
    "hammer": "the hammer price",
    "hammer_plus_premium": "hammer price and premium",
    "min_hammer_fmv": "hammer price or fair market value, the lower",
}


@dataclass(slots=True)
class Till:
    """What was charged for one lot and how much of it is still there."""

    hammer_cents: int
    premium_cents: int
    tax_cents: int
    tax_base_cents: int
    by_card: bool
    costs_cents: Mapping[str, int]
    left_cents: int = 0
    left_after: dict[str, int] = field(default_factory=dict)

    @property
    def charged_cents(self) -> int:
        """What the buyer pays [cents]."""
        return self.hammer_cents + self.premium_cents + self.tax_cents

    def base(self, of: str, after: str) -> int:
        """Return the base that a rule names [cents]."""
        if of == "left":
            return self.left_after[after] if after else self.left_cents
        if of == "hammer":
            return self.hammer_cents
        if of == "premium":
            return self.premium_cents
        if of == "charged":
            return self.charged_cents
        return self.hammer_cents + self.premium_cents


def percent(share: Number) -> str:
    """Print a share as a percentage."""
    return f"{float(100 * money.exact(share)):.10g} %"


def share_fault(name: str, value: object) -> Iterator[str]:
    """Find a share that is not from 0 to 1."""
    if share_of(value) is None:
        yield f"{name} is {value!r}; it must be from 0 to 1."


def cents_fault(name: str, value: object, *, optional: bool = False) -> Iterator[str]:
    """Find an amount that is not whole cents."""
    if not (is_cents(value) or (optional and value is None)):
        yield f"{name} is {value!r}; it must be whole cents, 0 or more."


def keep_whole(rule: object, *names: str) -> None:
    """Keep amounts that were checked as plain whole numbers, whatever their type."""
    for name in names:
        amount = getattr(rule, name)
        if amount is not None and type(amount) is not int:
            object.__setattr__(rule, name, int(amount))


def name_fault(name: str, value: object) -> Iterator[str]:
    """Find a payee without a name."""
    if not isinstance(value, str) or not value.strip():
        yield f"{name} is {value!r}; name who is paid."


def text_faults(**texts: object) -> Iterator[str]:
    """Find labels that are no text."""
    for name, text in texts.items():
        if not isinstance(text, str):
            yield f"{name} is {text!r}; write text."


def word_fault(name: str, value: object, known: Mapping[str, str]) -> Iterator[str]:
    """Find a word that is none of those known."""
    if not isinstance(value, str) or value not in known:
        yield f'{name} is "{value}"; {nearest(str(value), known)}'


def range_faults(floor: object, cap: object) -> Iterator[str]:
    """Find a floor and a cap that cannot hold."""
    yield from cents_fault("floor_cents", floor, optional=True)
    yield from cents_fault("cap_cents", cap, optional=True)
    if not (is_cents(floor) and is_cents(cap)):
        return
    least, most = int(cast("int", floor)), int(cast("int", cap))
    if most < least:
        yield (
            f"cap {money.show(most)} is below floor {money.show(least)}; "
            "raise the cap or lower the floor."
        )


def within(claim_cents: int, floor: int | None, cap: int | None) -> int:
    """Hold a claim between its floor and its cap."""
    if floor is not None and claim_cents < floor:
        return floor
    return cap if cap is not None and claim_cents > cap else claim_cents


def limits(floor: int | None, cap: int | None) -> str:
    """Print a floor and a cap."""
    words = "" if floor is None else f", at least {money.show(floor)}"
    return words + ("" if cap is None else f", at most {money.show(cap)}")


def steps_words(steps: Steps) -> str:
    """Print the steps of a share."""
    words = [
        percent(share) + ("" if bound is None else f" up to {money.show(bound)}")
        for bound, share in steps
    ]
    if len(words) > 1:
        words[-1] += " above"
    return ", ".join(words)
