"""Checks of a number that a person gave."""

from __future__ import annotations

from numbers import Real

from pricebook.errors import finite, shown

MOST = 1e6
"""No piece of furniture measures more than this. [any unit]"""


def is_number(amount: object) -> bool:
    """Tell whether a value is a finite number."""
    return isinstance(amount, Real) and finite(amount) is not None


def not_above_zero(what: str, amount: float, unit: str) -> list[str]:
    """List the fault of a number that must be above 0."""
    number = finite(amount)
    if number is not None and 0 < number <= MOST:
        return []
    limit = f" and at most {MOST:,.0f}" if number and number > MOST else ""
    return [f"{what} is {shown(amount)} {unit}; it must be a number above 0{limit}."]
