"""What the package says when it refuses: a sentence for each fault.

A sentence says where, what was found, the rule, and what to do. One error may
carry many sentences, so that a file is reported in one go.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from numbers import Integral, Real

_MOST_SHOWN = 60
"""A sentence quotes no more than this of what was found. [characters]"""


class PricebookError(ValueError):
    """A refusal, with one plain sentence for each fault.

    Parameters
    ----------
    *faults : str
        The sentences, in the order in which a reader meets the faults.

    Examples
    --------
    >>> error = PricebookError("width is 0 mm; it must be more than 0.")
    >>> error.faults
    ('width is 0 mm; it must be more than 0.',)
    >>> print(error)
    width is 0 mm; it must be more than 0.
    """

    def __init__(self, *faults: str) -> None:
        super().__init__("\n".join(faults))
        self.faults: tuple[str, ...] = faults


class UnitError(PricebookError):
    """A length, an amount of money or a number that cannot be read."""


class SpecError(PricebookError):
    """A piece, or an event, that cannot exist as described."""


class TableError(PricebookError):
    """A data file, or a row of the price book, that cannot be used."""


class LayoutError(PricebookError):
    """A face, an edge or a run that fits no stock, or a layout that is unsound."""


class MoneyError(PricebookError):
    """Money or shares that do not add up."""


class ReportError(PricebookError):
    """A file that cannot be written, or that came back and cannot be read."""


def raise_all(kind: type[PricebookError], faults: Iterable[str]) -> None:
    """Raise one error for all faults found, or return when there are none.

    Parameters
    ----------
    kind : type of PricebookError
        The error to raise.
    faults : iterable of str
        The sentences collected.

    Raises
    ------
    PricebookError
        Of the given kind, when there is at least one fault.

    Examples
    --------
    >>> raise_all(SpecError, [])
    >>> raise_all(SpecError, ["top.overhang is -1 mm; it must be 0 or more."])
    Traceback (most recent call last):
        ...
    pricebook.errors.SpecError: top.overhang is -1 mm; it must be 0 or more.
    """
    found = tuple(faults)
    if found:
        raise kind(*found)


def nearest(word: str, known: Iterable[str]) -> str:
    """Return a hint that names the known word closest to one that is not known.

    Parameters
    ----------
    word : str
        What a person wrote.
    known : iterable of str
        What would have been understood.

    Returns
    -------
    str
        `Did you mean "walnut"?`, or what is known.

    Examples
    --------
    >>> nearest("walnt", ["cherry", "walnut"])
    'did you mean "walnut"?'
    >>> nearest("zzz", ["cherry", "walnut"])
    'use one of cherry, walnut.'
    >>> nearest("zzz", ["walnut"])
    'there is "walnut".'
    """
    from difflib import get_close_matches

    names = list(known)
    close = get_close_matches(word, names, n=1, cutoff=0.6)
    if close:
        return f'did you mean "{close[0]}"?'
    if len(names) == 1:
        return f'there is "{names[0]}".'
    return f"use one of {', '.join(names)}." if names else "none is known here."


def finite(value: object) -> float | None:
    """Return a number as a float, or None for anything that is no finite number.

    Parameters
    ----------
    value : object
        Any value; a truth value is no number.

    Returns
    -------
    float or None
        The number. [any unit]

    Examples
    --------
    >>> finite(2), finite(Decimal("2.5")), finite(True), finite(math.inf), finite("2")
    (2.0, 2.5, None, None, None)
    """
    if isinstance(value, bool) or not isinstance(value, (Real, Decimal)):
        return None
    try:
        number = float(value)
    except (OverflowError, ValueError):
        return None
    return number if math.isfinite(number) else None


def shown(value: object) -> str:
    """Print what was found, short enough for a sentence.

    Parameters
    ----------
    value : object
        Any value.

    Returns
    -------
    str
        The value as a person would write it; text stands in quotation marks.

    Examples
    --------
    >>> shown(2.5), shown("two"), shown(None), shown(10**400)
    ('2.5', '"two"', 'None', 'a number of more than 300 digits')
    """
    if isinstance(value, Integral) and finite(value) is None and value not in (0, 1):
        return "a number of more than 300 digits"
    if isinstance(value, str):
        return f'"{_shortened(value)}"'
    plain = isinstance(value, (Real, Decimal))
    return _shortened(str(value) if plain else repr(value))


def _shortened(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= _MOST_SHOWN else f"{line[:_MOST_SHOWN]}..."
