"""What a number of the finish room may be, and the sentence for one that is not."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.errors import SpecError, finite, raise_all, shown

LEAST = 1e-6
"""What counts as more than 0 where 0 itself makes no sense. [any unit]"""
MOST = 1e6
"""No shop mixes, spreads or waits more than this. [any unit]"""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A kind of number with its unit and range; `rule` says what is allowed."""

    name: str
    unit: str
    least: float
    most: float
    rule: str

    def faults(self, value: object, name: str = "") -> list[str]:
        """Return the sentence for a value that is none of this kind, or nothing."""
        label = name or self.name
        number = finite(value)
        if number is None:
            return [f"{label} is {shown(value)}; it must be a number, {self.rule}."]
        if self.least <= number <= self.most:
            return []
        unit = f" {self.unit}" if self.unit else ""
        most = f", at most {self.most:,.0f}" if number > self.most == MOST else ""
        return [f"{label} is {number:.6g}{unit}; it must be {self.rule}{most}."]


def positive(name: str, unit: str, most: float = MOST) -> Quantity:
    """Return a kind of number above 0."""
    upper = "" if most == MOST else f" and at most {most:g} {unit}"
    return Quantity(name, unit, LEAST, most, f"more than 0{upper}")


def from_zero(name: str, unit: str, most: float = MOST) -> Quantity:
    """Return a kind of number that may be 0."""
    upper = "or more" if most == MOST else f"to {most:g} {unit}"
    return Quantity(name, unit, 0, most, f"0 {upper}")


CUT = positive("cut", "lb", 6)
SHARE = Quantity(
    "share", "", LEAST, 1, "a share above 0 and at most 1 (65 % is written 0.65)"
)


def check(*pairs: tuple[Quantity, float]) -> tuple[float, ...]:
    """Return the values as plain numbers, or refuse all out of range at once."""
    raise_all(SpecError, [f for kind, value in pairs for f in kind.faults(value)])
    return tuple(float(value) for _, value in pairs)


def share(name: str) -> Quantity:
    """Return a share above 0 and at most 1 under a name of its own."""
    return Quantity(name, "", SHARE.least, SHARE.most, SHARE.rule)
