"""Filler by the geometry of the holes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from pricebook.consumables._checks import (
    above_zero,
    not_below_zero,
    percent,
    refuse,
    whole,
)
from pricebook.rates import Need

GROUP = "filler"


class Holes(Protocol):
    """Holes of one kind, whatever shape: their name, how many, and how large."""

    @property
    def name(self) -> str:
        """What they are."""

    @property
    def count(self) -> int:
        """How many. [-]."""

    @property
    def volume_ml(self) -> float:
        """Volume of one. [ml]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """Holes or dents of one kind, of a known volume each.

    Parameters
    ----------
    name : str
        What they are, such as "sunk screws".
    count : int
        How many. [-]
    volume_ml : float
        Volume of one. [ml]
    """

    name: str
    count: int
    volume_ml: float

    def __post_init__(self) -> None:
        """Refuse a count or a volume that is none."""
        refuse(whole(count=self.count), above_zero(volume_ml=self.volume_ml))


def countersink_ml(head_mm: float, shank_mm: float, angle_deg: float) -> float:
    """Return the volume of a countersink from its rim down to the shank.

    Parameters
    ----------
    head_mm : float
        Diameter at the rim. [mm]
    shank_mm : float
        Diameter of the shank hole, 0 for a full cone. [mm]
    angle_deg : float
        Angle between the sides, at least 1 and below 180. [degrees]

    Returns
    -------
    float
        Volume. [ml]

    Raises
    ------
    SpecError
        If the rim is not wider than the shank, or a number is out of range.

    Notes
    -----
    A frustum: depth h = (D - d) / (2 tan(angle / 2)), volume
    pi h / 12 * (D2 + D d + d2). Sizes of heads: asme_b18_6_1, from memory;
    technique_of_furniture_making.

    Examples
    --------
    >>> round(countersink_ml(8.4328, 4.1656, 82), 4)
    0.0794
    """
    refuse(
        above_zero(head_mm=head_mm, angle_deg=angle_deg),
        not_below_zero(shank_mm=shank_mm),
    )
    faults = []
    if not 1 <= angle_deg < 180:
        faults.append(
            f"angle is {float(angle_deg):g} degrees; it must be below 180 and at "
            "least 1."
        )
    if head_mm <= shank_mm:
        faults.append(
            f"head is {float(head_mm):g} mm and shank {float(shank_mm):g} mm; a "
            "countersink is wider at the head."
        )
    refuse(faults)
    depth_mm = (head_mm - shank_mm) / (2 * math.tan(math.radians(angle_deg) / 2))
    square_mm2 = head_mm**2 + head_mm * shank_mm + shank_mm**2
    return math.pi * depth_mm / 12 * square_mm2 / 1000


def counterbore_ml(diameter_mm: float, depth_mm: float) -> float:
    """Return the volume of a counterbore, a recess or a plain hole.

    Parameters
    ----------
    diameter_mm, depth_mm : float
        Its size. [mm]

    Returns
    -------
    float
        Volume. [ml]

    Raises
    ------
    SpecError
        If a number is not above 0.

    Notes
    -----
    pi * diameter2 / 4 * depth.

    Examples
    --------
    >>> round(counterbore_ml(9.525, 6.35), 4)
    0.4525
    """
    refuse(above_zero(diameter_mm=diameter_mm, depth_mm=depth_mm))
    return math.pi * diameter_mm**2 / 4 * depth_mm / 1000


def filler(
    holes: Iterable[Holes], *, waste_share: float, item: str = "wood filler"
) -> tuple[Need, ...]:
    """Return the filler that holes and dents take.

    Parameters
    ----------
    holes : iterable
        Rows with a name, a count and a volume each: `Fill`, or a piece's holes.
    waste_share : float
        Shrinkage, overfill and what dries on the knife, as a share. [-]
    item : str
        Row of the price book.

    Returns
    -------
    tuple of Need
        One row, or none when there is nothing to fill.

    Raises
    ------
    SpecError
        If the share is below 0 or no number.

    Notes
    -----
    ml = sum of count * volume, times 1 + waste; 0.2 to 0.5 is common practice, no
    source.

    Examples
    --------
    >>> sunk = Fill(name="sunk screws", count=16, volume_ml=0.0887)
    >>> filler([sunk], waste_share=0.3)[0].how
    '16 sunk screws x 0.089 ml, and 30 % for shrinkage and waste'
    """
    refuse(not_below_zero(waste_share=waste_share))
    rows = [row for row in holes if row.count]
    if not rows:
        return ()
    net_ml = sum(row.count * row.volume_ml for row in rows)
    words = " + ".join(f"{r.count} {r.name} x {r.volume_ml:.2g} ml" for r in rows)
    return (
        Need(
            item=item,
            quantity=net_ml * (1 + waste_share),
            unit="ml",
            group=GROUP,
            how=f"{words}, and {percent(waste_share)} for shrinkage and waste",
        ),
    )
