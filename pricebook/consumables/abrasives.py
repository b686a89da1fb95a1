"""Abrasives by grit run and by the area that a disc or sheet lasts for."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from pricebook.consumables._checks import (
    above_zero,
    area,
    counted,
    not_below_zero,
    pieces,
    refuse,
)
from pricebook.consumables.grits import grit_faults, grit_run
from pricebook.rates import Need

GROUP = "abrasives"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """Sanding an area once with one grit.

    Parameters
    ----------
    grit : int
        The grit. [-]
    area_m2 : float
        The area. [m2]
    where : str
        What is sanded, such as "board, roughed".
    wear : float
        How many times faster than usual a disc wears out there: an old coating
        clogs it. [-]
    """

    grit: int
    area_m2: float
    where: str
    wear: float = 1.0

    def __post_init__(self) -> None:
        """Refuse a grit that no bench keeps or an area below 0."""
        refuse(
            grit_faults([self.grit]),
            not_below_zero(area_m2=self.area_m2),
            above_zero(wear=self.wear),
        )


def passes(run: Sequence[int], area_m2: float, where: str) -> tuple[Pass, ...]:
    """Return the passes of a run over an area.

    Parameters
    ----------
    run : sequence of int
        The grits, checked as by `grit_run`.
    area_m2 : float
        The area. [m2]
    where : str
        What is sanded.

    Returns
    -------
    tuple of Pass
        One pass a grit.

    Raises
    ------
    SpecError
        If the run is none, or the area is below 0 or no number.

    Examples
    --------
    >>> [one.grit for one in passes((150, 180), 3.42, "veneer")]
    [150, 180]
    """
    return tuple(
        Pass(grit=grit, area_m2=area_m2, where=where) for grit in grit_run(run)
    )


def abrasives(
    sanded: Iterable[Pass],
    *,
    life_m2: float,
    life_m2_by_grit: Mapping[int, float] | None = None,
    item: str = "sanding disc",
    lengths: str = "mm",
) -> tuple[Need, ...]:
    """Return the discs or sheets that all passes take, whole ones of each grit.

    Parameters
    ----------
    sanded : iterable of Pass
        All passes on a piece.
    life_m2 : float
        Area that one disc lasts for. [m2]
    life_m2_by_grit : mapping or None
        The same for grits that wear otherwise. [m2]
    item : str
        Rows of the price book are this word and the grit: "sanding disc 150".
    lengths : str
        "in" prints square feet, "mm" square metres.

    Returns
    -------
    tuple of Need
        One row a grit, coarse to fine.

    Raises
    ------
    SpecError
        If a life is not above 0.

    Notes
    -----
    discs = sum of area * wear of a grit / life, up to the next whole one. Lives of 0.9
    to 1.9 m2 (10 to 20 sq ft) for a 5-in disc on veneer are common practice, no
    source.

    Examples
    --------
    >>> run = passes((150, 180), 3.42, "veneer")
    >>> [(need.item, need.quantity) for need in abrasives(run, life_m2=1.4)]
    [('sanding disc 150', 3), ('sanding disc 180', 3)]
    """
    lives = dict(life_m2_by_grit or {})
    refuse(
        above_zero(life_m2=life_m2), *(above_zero(life_m2=v) for v in lives.values())
    )
    by_grit: dict[int, list[Pass]] = {}
    for one in sanded:
        if one.area_m2:
            by_grit.setdefault(one.grit, []).append(one)
    return tuple(
        _need(item, grit, by_grit[grit], lives.get(grit, life_m2), lengths)
        for grit in sorted(by_grit)
    )


def disc_area_m2(diameter_mm: float) -> float:
    """Return the area of a sanding disc.

    Parameters
    ----------
    diameter_mm : float
        Its diameter. [mm]

    Returns
    -------
    float
        Its area, holes not taken off. [m2]

    Raises
    ------
    SpecError
        If the diameter is not above 0.

    Notes
    -----
    pi * diameter2 / 4.

    Examples
    --------
    >>> round(disc_area_m2(127), 5)
    0.01267
    """
    refuse(above_zero(diameter_mm=diameter_mm))
    return math.pi * diameter_mm**2 / 4 / 1e6


def life_of_other_m2(
    life_m2: float, abrasive_m2: float, other_abrasive_m2: float
) -> float:
    """Return the life of another size of abrasive, in proportion to its area.

    Parameters
    ----------
    life_m2 : float
        Area that the known size lasts for. [m2]
    abrasive_m2, other_abrasive_m2 : float
        Areas of abrasive of the known size and of the other. [m2]

    Returns
    -------
    float
        Area that the other size lasts for. [m2]

    Raises
    ------
    SpecError
        If a number is not above 0.

    Notes
    -----
    Common practice, no source.

    Examples
    --------
    >>> round(life_of_other_m2(1.4, disc_area_m2(127), disc_area_m2(152.4)), 3)
    2.016
    """
    refuse(
        above_zero(
            life_m2=life_m2,
            abrasive_m2=abrasive_m2,
            other_abrasive_m2=other_abrasive_m2,
        )
    )
    return life_m2 * other_abrasive_m2 / abrasive_m2


def _need(
    item: str, grit: int, group: list[Pass], life_m2: float, lengths: str
) -> Need:
    total_m2 = sum(one.area_m2 * one.wear for one in group)
    discs = pieces(total_m2 / life_m2)
    words = " + ".join(_worn(one, lengths) for one in group)
    each = area(life_m2, lengths)
    return Need(
        item=f"{item} {grit}",
        quantity=discs,
        unit="each",
        group=GROUP,
        how=f"{words}, {each} each: {counted(discs, 'disc')}",
    )


def _worn(one: Pass, lengths: str) -> str:
    clogging = "" if one.wear == 1 else f" x {one.wear:g} for clogging"
    return f"{one.where} {area(one.area_m2, lengths)}{clogging}"
