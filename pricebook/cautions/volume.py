"""The enclosed volume of a piece, as the tip-over rule counts it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from pricebook.cautions.checks import not_above_zero
from pricebook.errors import SpecError, raise_all, shown

_CLEARANCE_MM = 3.175  # 1/8 in off the height of a drawer
_CLOSED_SPACE_SHARE = 0.5


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
        *not_above_zero("drawer width", width_mm, "mm"),
        *not_above_zero("drawer depth", depth_mm, "mm"),
        *not_above_zero("drawer height", height_mm, "mm"),
    ]
    if not faults and height_mm <= _CLEARANCE_MM:
        faults.append(
            f"drawer height is {shown(height_mm)} mm; it must be more than 1/8 in, "
            "which the rule takes off."
        )
    raise_all(SpecError, faults)
    return float(width_mm) * float(depth_mm) * (float(height_mm) - _CLEARANCE_MM) / 1e6


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
        If a size is not above 0, or a drawer or space is not given by three sizes.

    Notes
    -----
    A closed space counts 50 %; open shelves count nothing, so leave them out.
    Source: cpsc_clothing_storage_units.

    Examples
    --------
    >>> round(enclosed_volume_l([(711.2, 381.0, 155.575)] * 4), 1)
    165.2
    """
    total_l = sum(drawer_volume_l(*sizes) for sizes in _sizes("drawer", drawers))
    for width_mm, depth_mm, height_mm in _sizes("closed space", closed_spaces):
        faults = [
            *not_above_zero("closed space width", width_mm, "mm"),
            *not_above_zero("closed space depth", depth_mm, "mm"),
            *not_above_zero("closed space height", height_mm, "mm"),
        ]
        raise_all(SpecError, faults)
        total_l += (
            _CLOSED_SPACE_SHARE
            * float(width_mm)
            * float(depth_mm)
            * float(height_mm)
            / 1e6
        )
    return total_l


def _sizes(what: str, rows: Iterable[Any]) -> list[tuple[float, float, float]]:
    """Return rows of three sizes each, or refuse what is none."""
    found: list[Any]
    try:
        found = [rows] if isinstance(rows, (str, bytes)) else list(rows)
    except TypeError:
        found = [rows]
    strange = [
        row
        for row in found
        if isinstance(row, str) or not isinstance(row, Sequence) or len(row) != 3
    ]
    raise_all(
        SpecError,
        [
            f"{what} is {shown(row)}; give its width, depth and height in mm."
            for row in strange
        ],
    )
    return found
