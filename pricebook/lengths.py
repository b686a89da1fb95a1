"""Lengths: millimetres inside, inches with fractions or metric as people write them.

This is the only module that reads or prints a length.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

from pricebook.errors import UnitError, finite, shown

MM_PER_INCH = 25.4
"""Exact by definition (NIST SP 811, Appendix B)."""

_EXACT_MM_PER_INCH = Fraction(254, 10)
_METRIC_MM = {"mm": 1, "cm": 10, "m": 1000}
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_DASH = r"(?:\s+|-|\s+-\s+)"
_MOST_LETTERS = 60
_INCHES = (
    rf"(?:(?P<whole>{_NUMBER})(?:{_DASH}(?P<part>[0-9]+/[0-9]+))?"
    r"|(?P<only>[0-9]+/[0-9]+))"
)
_INCH_UNIT = r"(?:in\.?|inch|inches|\"|″|”)"
_FOOT_UNIT = r"(?:ft\.?|foot|feet|'|′|’)"
_METRIC = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>mm|cm|m)")
_FEET = re.compile(
    rf"(?P<feet>{_NUMBER})\s*{_FOOT_UNIT}"
    rf"(?:{_DASH}?{_INCHES}\s*{_INCH_UNIT})?"
)
_ONLY_INCHES = re.compile(rf"{_INCHES}\s*{_INCH_UNIT}")
_BARE = re.compile(r"[0-9./\s-]*[0-9][0-9./\s-]*")


def read(text: str) -> float:
    r"""Read a length that a person wrote, unit included.

    Parameters
    ----------
    text : str
        `23 3/4 in`, `23-3/4"`, `23.75 in`, `2 ft 6 in`, `2' 6 1/2"`, `60 cm`,
        `603 mm`, `1.2 m`.

    Returns
    -------
    float
        The length. [mm]

    Raises
    ------
    UnitError
        If there is no unit, a sign, a fraction that is none (5/0, 23 5/4), 12
        inches or more beside feet, or anything else that is not a length.

    Notes
    -----
    1 in = 25.4 mm exactly, 1 ft = 12 in (NIST SP 811, Appendix B, from memory).
    Zero is a length; whether it makes sense is for the reader of the length.

    Examples
    --------
    >>> read("23 3/4 in"), read("2' 6 1/2\""), read("60 cm")
    (603.25, 774.7, 600.0)
    >>> read("603")
    Traceback (most recent call last):
        ...
    pricebook.errors.UnitError: "603" has no unit; write 603 in or 603 mm.
    """
    if not isinstance(text, str):
        raise UnitError(
            f'{shown(text)} is not a length; write it as text, "23 3/4 in".'
        )
    plain = text.strip()
    if len(plain) > _MOST_LETTERS:
        raise UnitError(f"{shown(plain)} is too long for a length; write 23 3/4 in.")
    lower = plain.lower()
    if match := _METRIC.fullmatch(lower):
        exact = Fraction(match["number"]) * _METRIC_MM[match["unit"]]
        return float(exact)
    if match := _ONLY_INCHES.fullmatch(lower):
        return float(_inches(plain, match) * _EXACT_MM_PER_INCH)
    if match := _FEET.fullmatch(lower):
        return float(_feet_and_inches(plain, match) * _EXACT_MM_PER_INCH)
    raise UnitError(_why_not(plain))


def _inches(plain: str, match: re.Match[str]) -> Fraction:
    if match["only"]:
        return _fraction(plain, match["only"])
    whole = Fraction(match["whole"])
    if not match["part"]:
        return whole
    part = _fraction(plain, match["part"])
    if part >= 1 or whole.denominator != 1:
        raise UnitError(
            f'"{plain}" is not a length; a whole number goes before a fraction '
            "below 1, as in 23 3/4 in."
        )
    return whole + part


def _fraction(plain: str, text: str) -> Fraction:
    over, under = (int(half) for half in text.split("/"))
    if under == 0:
        raise UnitError(f'"{plain}" divides by 0; write a fraction such as 3/4 in.')
    return Fraction(over, under)


def _feet_and_inches(plain: str, match: re.Match[str]) -> Fraction:
    feet = Fraction(match["feet"])
    if not (match["whole"] or match["only"]):
        return 12 * feet
    inches = _inches(plain, match)
    if inches >= 12 or feet.denominator != 1:
        raise UnitError(
            f'"{plain}" is not a length; beside whole feet go inches below 12, '
            "as in 2 ft 6 in."
        )
    return 12 * feet + inches


def _why_not(plain: str) -> str:
    if not plain:
        return 'a length is empty; write it with its unit, "23 3/4 in" or "603 mm".'
    if plain[0] in "-+−":
        return f'"{plain}" has a sign; a length is 0 or more, without a sign.'
    if _BARE.fullmatch(plain):
        return f'"{plain}" has no unit; write {plain} in or {plain} mm.'
    return (
        f'"{plain}" is not a length; write inches with a fraction (23 3/4 in), '
        "feet and inches (2 ft 6 in), mm, cm or m."
    )


def show(length_mm: float, unit: str = "in") -> str:
    """Print a length for a reader, to the nearest 1/16 in or whole millimetre.

    Parameters
    ----------
    length_mm : float
        The length, 0 or more. [mm]
    unit : str
        "in" or "mm", the reader's choice.

    Returns
    -------
    str
        The length with its unit.

    Raises
    ------
    UnitError
        If the length is negative or not a number, or the unit is another one.

    Notes
    -----
    Halves go up. What is printed can be read again by `read`.

    Examples
    --------
    >>> show(603.25, "in"), show(603.25, "mm"), show(0.2, "in")
    ('23 3/4 in', '603 mm', '0 in')
    """
    number = finite(length_mm)
    if number is None or number < 0:
        raise UnitError(
            f"{shown(length_mm)} cannot be printed as a length; a length is a number "
            "of mm, 0 or more."
        )
    if not isinstance(unit, str) or unit not in {"in", "mm"}:
        raise UnitError(
            f"{shown(unit)} is not a unit to print lengths in; use in or mm."
        )
    exact = Fraction(repr(number))  # the decimal that it prints as
    if unit == "mm":
        return f"{math.floor(exact + Fraction(1, 2))} mm"
    sixteenths = math.floor(exact / _EXACT_MM_PER_INCH * 16 + Fraction(1, 2))
    whole, rest = divmod(sixteenths, 16)
    if rest == 0:
        return f"{whole} in"
    part = Fraction(rest, 16)
    return f"{whole} {part} in" if whole else f"{part} in"
