"""The checks that the values of an event share: a sentence a fault."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterator
from datetime import date, datetime

from pricebook.errors import nearest

MOST_CENTS = 10**11
"""No price of a bench auction comes near a thousand million."""
KEY = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]*")


def cents_fault(
    name: str, value: object, *, optional: bool = False, above: int = -1
) -> Iterator[str]:
    """Find an amount that is not whole cents of 0 or more."""
    if value is None and optional:
        return
    if isinstance(value, bool) or not isinstance(value, int):
        yield f"{name} is {value!r}; it must be whole cents."
    elif value <= above:
        least = "0 or more" if above < 0 else "more than 0"
        yield f"{name} is {value} cents; it must be {least}."
    elif value > MOST_CENTS:
        yield f"{name} is {value} cents; it must be {MOST_CENTS} or less."


def number_fault(name: str, value: object, *, above: bool = False) -> Iterator[str]:
    """Find a number that is not finite, or below 0 (or 0, if it must be above)."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        yield f"{name} is {value!r}; it must be a number."
    elif not math.isfinite(value) or value < 0 or (above and value == 0):
        least = "more than 0" if above else "0 or more"
        yield f"{name} is {value:g}; it must be {least}."


def text_fault(name: str, value: object) -> Iterator[str]:
    """Find a text that is empty or none."""
    if not isinstance(value, str) or not value.strip():
        yield f"{name} is {value!r}; write it."


def word_fault(name: str, value: object, known: Collection[str]) -> Iterator[str]:
    """Find a word that is none of those known."""
    if not isinstance(value, str) or value not in known:
        yield f'{name} is "{value}"; {nearest(str(value), known)}'


def key_fault(name: str, value: object) -> Iterator[str]:
    """Find a key that a spreadsheet could not carry as it stands."""
    if not isinstance(value, str) or KEY.fullmatch(value) is None:
        yield (
            f"{name} is {value!r}; a key is letters, digits, blanks, points and "
            "hyphens, and begins with a letter or digit."
        )


def day_fault(name: str, value: object, *, optional: bool = False) -> Iterator[str]:
    """Find what is no date."""
    if value is None and optional:
        return
    if not isinstance(value, date) or isinstance(value, datetime):
        yield f"{name} is {value!r}; it must be a date."


def moment_fault(name: str, value: object, *, optional: bool = False) -> Iterator[str]:
    """Find what is no local date and time."""
    if value is None and optional:
        return
    if not isinstance(value, datetime):
        yield f"{name} is {value!r}; it must be a date with a time."
    elif value.tzinfo is not None:
        yield f"{name} has a time zone; write the local time without one."


def plain_key(text: str) -> str:
    """Return a key as it is compared: digits alone lose their leading noughts.

    Examples
    --------
    >>> plain_key(" 07 "), plain_key("7a")
    ('7', '7A')
    """
    word = text.strip()
    return str(int(word)) if word.isascii() and word.isdecimal() else word.upper()
