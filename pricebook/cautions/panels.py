"""Weight, density class and balance of the panels that a piece is made of."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from pricebook.cautions.checks import is_number, not_above_zero
from pricebook.errors import SpecError, raise_all, shown

KG_PER_LB = 0.45359237
"""Exact by definition (nist_sp_811)."""

KG_M3_PER_LB_FT3 = KG_PER_LB / 0.3048**3
"""1 lb/ft3 is 16.018 kg/m3 (nist_sp_811)."""

LEAST_KG_M3, MOST_KG_M3 = 300.0, 1200.0
"""Boards of furniture lie between these (common practice, no source)."""

_MEDIUM_KG_M3, _HIGH_KG_M3 = 640.0, 800.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """Like panels of one piece.

    Parameters
    ----------
    name : str
        What the maker calls it, such as "door".
    along_mm, across_mm, thickness_mm : float
        Size. [mm]
    density_kg_m3 : float
        Density of the board. [kg/m³]
    count : int
        How many. [-]
    loose : bool
        Whether nothing holds it flat: a door, a shelf on pins, a table top.
    veneered_faces : int
        How many of its two faces are veneered: 0, 1 or 2. [-]
    """

    name: str
    along_mm: float
    across_mm: float
    thickness_mm: float
    density_kg_m3: float
    count: int = 1
    loose: bool = False
    veneered_faces: int = 0

    def __post_init__(self) -> None:
        """Refuse a panel that cannot be."""
        faults = [
            *not_above_zero("length", self.along_mm, "mm"),
            *not_above_zero("width", self.across_mm, "mm"),
            *not_above_zero("thickness", self.thickness_mm, "mm"),
            *density_faults(self.density_kg_m3),
        ]
        if isinstance(self.count, bool) or self.count < 1:
            faults.append(f"count is {self.count!r}; it must be 1 or more.")
        if self.veneered_faces not in (0, 1, 2):
            faults.append(f"veneered faces are {self.veneered_faces!r}; use 0, 1 or 2.")
        raise_all(SpecError, (f'"{self.name}": {fault}' for fault in faults))

    @property
    def mass_kg(self) -> float:
        """Mass of all panels of this row [kg]."""
        face_m2 = float(self.along_mm) * float(self.across_mm) / 1e6
        return (
            self.count * face_m2 * float(self.thickness_mm) / 1e3 * self.density_kg_m3
        )


def panel_mass_kg(
    along_mm: float, across_mm: float, thickness_mm: float, density_kg_m3: float
) -> float:
    """Return the mass of a panel or a full sheet of board.

    Parameters
    ----------
    along_mm, across_mm, thickness_mm : float
        Size. [mm]
    density_kg_m3 : float
        Density, 300 to 1200. [kg/m³]

    Returns
    -------
    float
        Mass. [kg]

    Raises
    ------
    SpecError
        If a size is not above 0 or the density is outside 300 to 1200.

    Notes
    -----
    density x length x width x thickness. Veneer, glue and fittings are left out.

    Examples
    --------
    >>> round(panel_mass_kg(2438.4, 1219.2, 19.05, 720), 2)
    40.78
    """
    return Panel(
        name="panel",
        along_mm=along_mm,
        across_mm=across_mm,
        thickness_mm=thickness_mm,
        density_kg_m3=density_kg_m3,
    ).mass_kg


def total_mass_kg(panels: Iterable[Panel]) -> float:
    """Add up the panels of a piece.

    Parameters
    ----------
    panels : iterable of Panel
        All panels of the piece.

    Returns
    -------
    float
        Mass without fittings, glue and finish. [kg]

    Raises
    ------
    SpecError
        If what is given is no row of panels.

    Examples
    --------
    >>> side = Panel(name="side", along_mm=1000, across_mm=500, thickness_mm=20,
    ...     density_kg_m3=700, count=2)
    >>> round(total_mass_kg([side]), 3)
    14.0
    """
    try:
        rows = tuple(panels)
    except TypeError:
        raise SpecError(f"{shown(panels)} is not a row of panels.") from None
    strange = [row for row in rows if not isinstance(row, Panel)]
    raise_all(
        SpecError, [f"{shown(row)} is not a panel; give panels." for row in strange]
    )
    return math.fsum(panel.mass_kg for panel in rows)


def density_class(density_kg_m3: float) -> str:
    """Return the density class of a particleboard.

    Parameters
    ----------
    density_kg_m3 : float
        Density, 300 to 1200. [kg/m³]

    Returns
    -------
    str
        "LD" below 640, "M" from 640 to 800, "H" above 800.

    Raises
    ------
    SpecError
        If no board for furniture has that density.

    Notes
    -----
    Source: ansi_a208_1; the name of the class LD is from memory. The outer bounds
    are common practice, no source.

    Examples
    --------
    >>> density_class(639), density_class(640), density_class(801)
    ('LD', 'M', 'H')
    """
    raise_all(SpecError, density_faults(density_kg_m3))
    if density_kg_m3 < _MEDIUM_KG_M3:
        return "LD"
    return "M" if density_kg_m3 <= _HIGH_KG_M3 else "H"


def unbalanced(panels: Iterable[Panel]) -> tuple[str, ...]:
    """Name the loose panels that are veneered on one face only.

    Parameters
    ----------
    panels : iterable of Panel
        All panels of the piece.

    Returns
    -------
    tuple of str
        Their names, in order; each may cup as the one face takes up or loses
        moisture.

    Notes
    -----
    A panel held by the carcase is left out: its frame holds it flat. Source:
    architectural_woodwork_balance.

    Examples
    --------
    >>> door = Panel(name="door", along_mm=600, across_mm=400, thickness_mm=18,
    ...     density_kg_m3=700, loose=True, veneered_faces=1)
    >>> unbalanced([door])
    ('door',)
    """
    return tuple(p.name for p in panels if p.loose and p.veneered_faces == 1)


def density_faults(density_kg_m3: float) -> list[str]:
    """List the fault of a density that no board for furniture has."""
    if is_number(density_kg_m3) and LEAST_KG_M3 <= density_kg_m3 <= MOST_KG_M3:
        return []
    return [
        f"density is {shown(density_kg_m3)} kg/m3; no board for furniture is outside "
        f"{LEAST_KG_M3:.0f} to {MOST_KG_M3:.0f}: give kg/m3, not lb/ft3."
    ]
