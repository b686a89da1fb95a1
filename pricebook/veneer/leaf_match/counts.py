"""How many leaves a face takes, and how wide each is, by matching rule."""

from __future__ import annotations

import math

from pricebook.errors import LayoutError, finite, nearest, raise_all, shown

_LEAST_MM, _MOST_MM = 1e-6, 1e9

MATCHES = (
    "running",
    "balance",
    "centre balance",
    "slip-centre-book",
    "slip",
    "book",
    "random",
)
"""The matching rules, as the trade calls them."""


def leaves(width_mm: float, usable_mm: float, match: str) -> tuple[int, float]:
    """Return how many leaves a face takes and how wide each of them is.

    Parameters
    ----------
    width_mm : float
        Width of the face across the grain; any one unit for both. [mm]
    usable_mm : float
        Usable width of a leaf. [mm]
    match : str
        "running", "balance", "centre balance", "slip-centre-book", "slip", "book"
        or "random".

    Returns
    -------
    tuple of int and float
        Number of leaves [-] and width of each [mm]. Running leaves are not equal:
        the width is the usable one, and the last leaf is what is left.

    Raises
    ------
    LayoutError
        If a width is not a number above 0 or the match is not one of these.

    Notes
    -----
    With n = ceil(W / w): running n leaves of w; balance n leaves of W / n; centre
    balance 2 ceil(W / 2w) leaves, so that a joint is on the centre line;
    slip-centre-book the same and at least 4, so that each half has a joint of its
    own (AWS 2009, section 4-1.2.20). Slip, book and random say how neighbours lie
    to one another, not how many there are: they are laid in leaves of equal width
    as balance match, the smallest number that covers the face. A ratio within a
    thousand-millionth of a whole number counts as that number, so that 18 by 6 is
    3 in any unit.

    Examples
    --------
    >>> leaves(20, 6, "running"), leaves(20, 6, "balance")
    ((4, 6.0), (4, 5.0))
    >>> leaves(18, 6, "centre balance"), leaves(18, 6, "slip-centre-book")
    ((4, 4.5), (4, 4.5))
    """
    faults = [_width_fault("the face", width_mm), _width_fault("a leaf", usable_mm)]
    if not isinstance(match, str) or match not in MATCHES:
        hint = nearest(shown(match), MATCHES)
        faults.append(f"{shown(match)} is not a match of leaves; {hint}")
    raise_all(LayoutError, [fault for fault in faults if fault])
    count = how_many(float(width_mm), float(usable_mm), match)
    each = float(usable_mm) if match == "running" else float(width_mm) / count
    return count, each


def how_many(width_mm: float, usable_mm: float, match: str) -> int:
    """Return how many leaves of one usable width a face takes.

    Parameters
    ----------
    width_mm, usable_mm : float
        Width of the face and of a leaf, both above 0. [mm]
    match : str
        One of `MATCHES`.

    Returns
    -------
    int
        The number of leaves. [-]

    Examples
    --------
    >>> how_many(20, 6, "centre balance")
    4
    """
    if match == "centre balance":
        return 2 * _ceil(width_mm / (2 * usable_mm))
    if match == "slip-centre-book":
        return max(4, 2 * _ceil(width_mm / (2 * usable_mm)))
    return _ceil(width_mm / usable_mm)


def _ceil(ratio: float) -> int:
    whole = round(ratio)
    if abs(ratio - whole) <= 1e-9 * max(1, whole):
        return max(1, whole)
    return math.ceil(ratio)


def _width_fault(what: str, width: object) -> str:
    number = finite(width)
    if number is not None and _LEAST_MM <= number <= _MOST_MM:
        return ""
    return f"{what} is {shown(width)} mm wide; a width is a number above 0."
