"""Whether a piece is a clothing storage unit under the tip-over rule."""

from __future__ import annotations

import math
from datetime import date, datetime

from pricebook.cautions.checks import not_above_zero
from pricebook.errors import SpecError, nearest, raise_all, shown

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
        *not_above_zero("height", height_mm, "mm"),
        *not_above_zero("mass", mass_kg, "kg"),
        *not_above_zero("enclosed volume", volume_l, "L"),
        *_not_a_day(made_on),
        *_not_a_kind(kind),
    ]
    raise_all(SpecError, faults)
    made_after = _as_day(made_on) > NOT_BEFORE
    return made_after and tip_over_by_size(height_mm, mass_kg, volume_l, kind)


def tip_over_by_size(
    height_mm: float, mass_kg: float, volume_l: float, kind: str
) -> bool:
    """Tell whether kind and size would put a piece under the tip-over rule.

    Parameters
    ----------
    height_mm, mass_kg, volume_l : float
        Height, mass empty, and enclosed volume. [mm], [kg], [L]
    kind : str
        What the piece is, as for `tip_over_scope`.

    Returns
    -------
    bool
        True when all but the day of manufacture is met; such a piece can tip
        whatever its age, so anti-tip hardware is advised.

    Raises
    ------
    SpecError
        If a number is not above 0 or the kind is not known.

    Notes
    -----
    Source: cpsc_clothing_storage_units.

    Examples
    --------
    >>> tip_over_by_size(1117.6, 43.1, 165.2, "chest")
    True
    """
    faults = [
        *not_above_zero("height", height_mm, "mm"),
        *not_above_zero("mass", mass_kg, "kg"),
        *not_above_zero("enclosed volume", volume_l, "L"),
        *_not_a_kind(kind),
    ]
    raise_all(SpecError, faults)
    return (
        plain_kind(kind) in CLOTHING_KINDS
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


def _squeezed(kind: str) -> str:
    return "".join(letter for letter in kind.lower() if letter.isalpha())


_KINDS = {_squeezed(kind): kind for kind in (*CLOTHING_KINDS, *OTHER_KINDS)}


def _reaches(amount: float, least: float) -> bool:
    return amount >= least or math.isclose(amount, least, rel_tol=1e-9)


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
            f"day of manufacture is {shown(made_on)}; the rule turns on it, so give a "
            "date such as 2024-01-31."
        ]
    return []


def _not_a_kind(kind: object) -> list[str]:
    if isinstance(kind, str) and _squeezed(kind) in _KINDS:
        return []
    hint = nearest(shown(kind).lower(), _KINDS.values())
    return [f"{shown(kind)} is not a kind of furniture known here; {hint}"]
