"""Checks of a number, and areas in words, shared by all consumables."""

from __future__ import annotations

import math
from fractions import Fraction
from numbers import Integral, Real

from pricebook.errors import SpecError, UnitError, finite, raise_all, shown

M2_PER_SQ_FT = 0.3048**2
"""Exact by definition (NIST SP 811, Appendix B)."""
M_PER_FT = 0.3048
"""Exact by definition (NIST SP 811, Appendix B)."""
LEAST = 1e-9
"""What counts as more than 0 where 0 itself makes no sense. [any unit]"""
MOST = 1e6
"""No shop covers, cuts or fills more than this. [any unit]"""
_UNITS = {
    "_m2_per_l": "m2/L",
    "_m2": "m2",
    "_mm": "mm",
    "_ml": "ml",
    "_min": "min",
    "_m": "m",
    "_h": "h",
    "_deg": "degrees",
}


def above_zero(**numbers: float) -> list[str]:
    """Return a sentence for each number that is not above 0."""
    return [
        f"{_named(name)} is {shown(value)}; it must be a number above 0{_limit(value)}."
        for name, value in numbers.items()
        if not (_is_number(value) and LEAST <= value <= MOST)
    ]


def not_below_zero(**numbers: float) -> list[str]:
    """Return a sentence for each number that is below 0 or none."""
    return [
        f"{_named(name)} is {shown(value)}; it must be a number, 0 or "
        f"more{_limit(value)}."
        for name, value in numbers.items()
        if not (_is_number(value) and 0 <= value <= MOST)
    ]


def at_least_one(**numbers: float) -> list[str]:
    """Return a sentence for each number that is below 1 or none."""
    return [
        f"{_named(name)} is {shown(value)}; it must be a number, 1 or "
        f"more{_limit(value)}."
        for name, value in numbers.items()
        if not (_is_number(value) and 1 <= value <= MOST)
    ]


def whole(**numbers: int) -> list[str]:
    """Return a sentence for each number that is no whole one from 0 up."""
    return [
        f"{_named(name)} is {shown(value)}; it must be a whole number, 0 or "
        f"more{_limit(value)}."
        for name, value in numbers.items()
        if not (
            isinstance(value, Integral) and _is_number(value) and 0 <= value <= MOST
        )
    ]


def refuse(*lists: list[str]) -> None:
    """Raise a SpecError with every sentence, or return when there is none."""
    raise_all(SpecError, [fault for found in lists for fault in found])


def area(area_m2: float, lengths: str) -> str:
    """Print an area in square feet or square metres."""
    if lengths == "in":
        return f"{area_m2 / M2_PER_SQ_FT:.1f} sq ft"
    if lengths != "mm":
        raise UnitError(
            f"{shown(lengths)} is not a unit to print lengths in; use in or mm."
        )
    return f"{area_m2:.2f} m2"


def spread(spread_m2_per_l: float, lengths: str) -> str:
    """Print how far a gallon or a litre goes."""
    if lengths == "in":
        return f"{area(spread_m2_per_l * 3.785411784, 'in')}/gal"
    return f"{spread_m2_per_l:.3g} m2/L"


def run_length(length_m: float, lengths: str) -> str:
    """Print a run of tape or of cutting in feet or metres."""
    if lengths == "in":
        return f"{length_m / M_PER_FT:.1f} ft"
    if lengths != "mm":
        raise UnitError(
            f"{shown(lengths)} is not a unit to print lengths in; use in or mm."
        )
    return f"{length_m:.1f} m"


def percent(share: float) -> str:
    """Print a share as a percentage."""
    return f"{100 * share:.3g} %"


def pieces(number: float) -> int:
    """Round up to whole pieces, past the noise of a division; any use takes one."""
    return max(math.ceil(round(number, 9)), 1 if number > 0 else 0)


def counted(number: float, word: str) -> str:
    """Print a count with its word in the singular or plural."""
    return f"{number:g} {word}" if number == 1 else f"{number:g} {word}s"


def _named(name: str) -> str:
    """Turn `disc_life_m2` into words with a unit."""
    for tail, unit in _UNITS.items():
        if name.endswith(tail):
            return f"{name.removesuffix(tail).replace('_', ' ')} [{unit}]"
    return name.replace("_", " ")


def _is_number(value: object) -> bool:
    plain = isinstance(value, Real) and not isinstance(value, Fraction)
    return plain and finite(value) is not None


def _limit(value: object) -> str:
    number = finite(value)
    return f" and at most {MOST:,.0f}" if number and number > MOST else ""
