"""Whether a piece is a clothing storage unit under the tip-over rule."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date, datetime

from pricebook.errors import SpecError, nearest, raise_all

LEAST_HEIGHT_MM = 685.8
"""27 in, exactly; the rule prints 686 mm beside it."""

LEAST_MASS_KG = 13.6
"""30 lb as the standard prints it in metric; exactly 13.608 kg."""

LEAST_VOLUME_L = 90.6
"""3.2 cubic feet as the standard prints it in metric; exactly 90.614 L."""

NOT_BEFORE = date(2023, 9, 1)
"""The rule binds units made after this day."""

CLOTHING_KINDS = (
    "chest",
    "chest of drawers",
    "drawer chest",
    "door chest",
    "dresser",
    "bureau",
    "tallboy",
    "armoire",
    "wardrobe",
    "chifforobe",
    "cupboard",
    "cabinet",
    "night stand",
)
"""Kinds that hold clothing, or may: their numbers decide."""

OTHER_KINDS = (
    "bookcase",
    "bookshelf",
    "shelving",
    "entertainment unit",
    "desk",
    "office furniture",
    "dining furniture",
    "sideboard",
    "side table",
    "coffee table",
    "table",
    "jewelry armoire",
    "underbed drawer",
    "laundry unit",
    "built-in",
    "blanket chest",
)
"""Kinds that the rule leaves out whatever their numbers."""

_CLEARANCE_MM = 3.175  # 1/8 in off the height of a drawer
_CLOSED_SPACE_SHARE = 0.5


def tip_over_scope(
    height_mm: float,
    mass_kg: float,
    volume_l: float,
    made_on: date | str,
    kind: str,
) -> bool:
    """Tell whether the tip-over rule for clothing storage units names this piece.

    Parameters
    ----------
    height_mm : float
        Height of the piece, standing free. [mm]
    mass_kg : float
        Mass of the piece, empty. [kg]
    volume_l : float
        Enclosed volume, as `enclosed_volume_l` adds it up. [L]
    made_on : date or str
        Day of manufacture, a date or `2024-01-31`.
    kind : str
        What the piece is: "chest", "night stand", "bookcase", ...; one of
        `CLOTHING_KINDS` or `OTHER_KINDS`.

    Returns
    -------
    bool
        True when every criterion is met.

    Raises
    ------
    SpecError
        If a number is not above 0, the day is missing or no date, or the kind is
        not known.

    Notes
    -----
    In scope: made after 1 September 2023, of a kind that holds clothing, and at
    least 27 in high, 30 lb and 3.2 cubic feet, each threshold included. Where the
    printed metric figure (686 mm, 13.6 kg, 90.6 L) and the exact conversion
    differ, the lower one counts, so a piece on the line is never left out. An
    unknown day is refused: only a day decides. A night stand is measured like a
    chest, because the edition in force no longer leaves it out. A cupboard or
    cabinet is taken to hold clothing; say "dining furniture" or "office
    furniture" if it does not. Whether a rebuilt piece counts as made anew is for
    counsel. Source: cpsc_clothing_storage_units.

    Examples
    --------
    >>> tip_over_scope(1117.6, 43.1, 165.2, date(2024, 1, 1), "chest")
    True
    >>> tip_over_scope(1117.6, 43.1, 165.2, date(2015, 1, 1), "chest")
    False
    >>> tip_over_scope(1117.6, 43.1, 165.2, "2024-01-01", "bookcase")
    False
    """
    faults = [
        *_not_above_zero("height", height_mm, "mm"),
        *_not_above_zero("mass", mass_kg, "kg"),
        *_not_above_zero("enclosed volume", volume_l, "L"),
        *_not_a_day(made_on),
        *_not_a_kind(kind),
    ]
    raise_all(SpecError, faults)
    return (
        _as_day(made_on) > NOT_BEFORE
        and plain_kind(kind) in CLOTHING_KINDS
        and _reaches(height_mm, LEAST_HEIGHT_MM)
        and _reaches(mass_kg, LEAST_MASS_KG)
        and _reaches(volume_l, LEAST_VOLUME_L)
    )


def plain_kind(kind: str) -> str:
    """Return a kind of furniture as the lists here spell it.

    Parameters
    ----------
    kind : str
        A kind, in any case, with hyphens or underscores for spaces.

    Returns
    -------
    str
        One of `CLOTHING_KINDS` or `OTHER_KINDS`.

    Raises
    ------
    SpecError
        If it is none of them.

    Examples
    --------
    >>> plain_kind("Night_stand"), plain_kind("nightstand")
    ('night stand', 'night stand')
    """
    raise_all(SpecError, _not_a_kind(kind))
    return _KINDS[_squeezed(kind)]


def drawer_volume_l(width_mm: float, depth_mm: float, height_mm: float) -> float:
    """Return the volume that a drawer counts for under the tip-over rule.

    Parameters
    ----------
    width_mm, depth_mm : float
        Inside of the drawer. [mm]
    height_mm : float
        Bottom of the drawer to the lowest thing above it. [mm]

    Returns
    -------
    float
        Counted volume. [L]

    Raises
    ------
    SpecError
        If a size is not above 0, or the height is 1/8 in or less.

    Notes
    -----
    width x depth x (height - 1/8 in). Source: cpsc_clothing_storage_units.

    Examples
    --------
    >>> round(drawer_volume_l(711.2, 381.0, 155.575), 2)
    41.3
    """
    faults = [
        *_not_above_zero("drawer width", width_mm, "mm"),
        *_not_above_zero("drawer depth", depth_mm, "mm"),
        *_not_above_zero("drawer height", height_mm, "mm"),
    ]
    if not faults and height_mm <= _CLEARANCE_MM:
        faults.append(
            f"drawer height is {height_mm} mm; it must be more than 1/8 in, which "
            "the rule takes off."
        )
    raise_all(SpecError, faults)
    return width_mm * depth_mm * (height_mm - _CLEARANCE_MM) / 1e6


def enclosed_volume_l(
    drawers: Iterable[tuple[float, float, float]],
    closed_spaces: Iterable[tuple[float, float, float]] = (),
) -> float:
    """Add up the enclosed volume of a piece as the tip-over rule counts it.

    Parameters
    ----------
    drawers : iterable of (width_mm, depth_mm, height_mm)
        Inside of each drawer. [mm]
    closed_spaces : iterable of (width_mm, depth_mm, height_mm)
        Inside of each space behind a door, which does not pull out. [mm]

    Returns
    -------
    float
        Counted volume. [L]

    Raises
    ------
    SpecError
        If a size is not above 0.

    Notes
    -----
    A closed space counts 50 %; open shelves count nothing, so leave them out.
    Source: cpsc_clothing_storage_units.

    Examples
    --------
    >>> round(enclosed_volume_l([(711.2, 381.0, 155.575)] * 4), 1)
    165.2
    """
    total_l = sum(drawer_volume_l(*drawer) for drawer in drawers)
    for width_mm, depth_mm, height_mm in closed_spaces:
        faults = [
            *_not_above_zero("closed space width", width_mm, "mm"),
            *_not_above_zero("closed space depth", depth_mm, "mm"),
            *_not_above_zero("closed space height", height_mm, "mm"),
        ]
        raise_all(SpecError, faults)
        total_l += _CLOSED_SPACE_SHARE * width_mm * depth_mm * height_mm / 1e6
    return total_l


def _squeezed(kind: str) -> str:
    return "".join(letter for letter in kind.lower() if letter.isalpha())


_KINDS = {_squeezed(kind): kind for kind in (*CLOTHING_KINDS, *OTHER_KINDS)}


def _reaches(amount: float, least: float) -> bool:
    return amount >= least or math.isclose(amount, least, rel_tol=1e-9)


def _not_above_zero(what: str, amount: float, unit: str) -> list[str]:
    is_number = isinstance(amount, (int, float)) and not isinstance(amount, bool)
    if is_number and math.isfinite(amount) and amount > 0:
        return []
    return [f"{what} is {amount!r} {unit}; it must be a number above 0."]


def _as_day(made_on: date | str) -> date:
    if isinstance(made_on, datetime):
        return made_on.date()
    return made_on if isinstance(made_on, date) else date.fromisoformat(made_on)


def _not_a_day(made_on: object) -> list[str]:
    if isinstance(made_on, date):
        return []
    try:
        date.fromisoformat(made_on)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return [
            f"day of manufacture is {made_on!r}; the rule turns on it, so give a "
            "date such as 2024-01-31."
        ]
    return []


def _not_a_kind(kind: object) -> list[str]:
    if isinstance(kind, str) and _squeezed(kind) in _KINDS:
        return []
    hint = nearest(str(kind).lower(), _KINDS.values())
    return [f'"{kind}" is not a kind of furniture known here; {hint}']
