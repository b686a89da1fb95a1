"""What a piece is made of: sizes, top, base, drawers, doors, shelves, legs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.piece.checks import counted, not_negative, one_of, positive, refuse

FITS = ("overlay", "inset")
BASES = ("plinth", "legs", "none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Overall size, top and base included.

    Parameters
    ----------
    width_mm, height_mm, depth_mm : float
        As measured over everything. [mm]
    panel_mm : float
        Thickness of the carcase panels. [mm]
    """

    width_mm: float
    height_mm: float
    depth_mm: float
    panel_mm: float

    def __post_init__(self) -> None:
        """Refuse a size that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from positive("size.width", self.width_mm)
        yield from positive("size.height", self.height_mm)
        yield from positive("size.depth", self.depth_mm)
        yield from positive("size.panel", self.panel_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Top:
    """The top, or the lid of a blanket chest.

    Parameters
    ----------
    overhang_front_mm, overhang_sides_mm, overhang_back_mm : float
        How far it stands over the carcase; each of the two sides alike. [mm]
    thickness_mm : float
        Its thickness. [mm]
    """

    overhang_front_mm: float
    overhang_sides_mm: float
    overhang_back_mm: float
    thickness_mm: float

    def __post_init__(self) -> None:
        """Refuse a top that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from not_negative("top.overhang_front", self.overhang_front_mm)
        yield from not_negative("top.overhang_sides", self.overhang_sides_mm)
        yield from not_negative("top.overhang_back", self.overhang_back_mm)
        yield from positive("top.thickness", self.thickness_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """What the carcase stands on.

    Parameters
    ----------
    kind : str
        "plinth" (a board between the sides, which reach the floor), "legs" or
        "none".
    height_mm : float
        Its height; 0 for none. [mm]
    """

    kind: str
    height_mm: float

    def __post_init__(self) -> None:
        """Refuse a base that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from one_of("base.kind", self.kind, BASES)
        if self.kind == "none":
            if self.height_mm != 0:
                yield "base.height is given, but base.kind is none; drop one of them."
        else:
            yield from positive("base.height", self.height_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawers:
    """Drawer fronts in rows and columns.

    Parameters
    ----------
    rows : int
        How many lie one above the other. [-]
    columns : int
        How many lie side by side. [-]
    heights_mm : tuple of float
        Height of each row from the top down; empty: all rows alike. [mm]
    gap_mm : float
        Space between two fronts. [mm]
    reveal_mm : float
        Space left around the fronts on all four sides. [mm]
    fit : str
        "overlay" (in front of the carcase) or "inset" (between its panels).
    open_below_mm : float
        Height left open under the drawers, as in a night stand. [mm]
    """

    rows: int
    columns: int = 1
    heights_mm: tuple[float, ...] = ()
    gap_mm: float
    reveal_mm: float
    fit: str
    open_below_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse drawers that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from counted("drawers.rows", self.rows)
        yield from counted("drawers.columns", self.columns)
        for number, height_mm in enumerate(self.heights_mm, start=1):
            yield from positive(f"drawers.heights, row {number},", height_mm)
        if self.heights_mm and len(self.heights_mm) != self.rows:
            yield (
                f"drawers.heights lists {len(self.heights_mm)} heights for "
                f"{self.rows} rows; list one height a row, or none for equal rows."
            )
        yield from not_negative("drawers.gap", self.gap_mm)
        yield from not_negative("drawers.reveal", self.reveal_mm)
        yield from not_negative("drawers.open_below", self.open_below_mm)
        yield from one_of("drawers.fit", self.fit, FITS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """Doors side by side.

    Parameters
    ----------
    count : int
        How many. [-]
    gap_mm : float
        Space between two doors. [mm]
    reveal_mm : float
        Space left around the doors on all four sides. [mm]
    fit : str
        "overlay" or "inset".
    """

    count: int
    gap_mm: float
    reveal_mm: float
    fit: str

    def __post_init__(self) -> None:
        """Refuse doors that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from counted("doors.count", self.count)
        yield from not_negative("doors.gap", self.gap_mm)
        yield from not_negative("doors.reveal", self.reveal_mm)
        yield from one_of("doors.fit", self.fit, FITS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelves:
    """Shelves between the sides, the bottom not counted.

    Parameters
    ----------
    count : int
        How many. [-]
    setback_mm : float
        How far they stand behind the front of the carcase. [mm]
    loose : bool
        Whether they lie on pins.
    """

    count: int
    setback_mm: float = 0.0
    loose: bool = False

    def __post_init__(self) -> None:
        """Refuse shelves that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from counted("shelves.count", self.count)
        yield from not_negative("shelves.setback", self.setback_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Underframe:
    """Legs and aprons of a table.

    Parameters
    ----------
    leg_mm : float
        Side of a square leg. [mm]
    apron_mm : float
        Height of the aprons. [mm]
    """

    leg_mm: float
    apron_mm: float

    def __post_init__(self) -> None:
        """Refuse legs that cannot be."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from positive("underframe.leg", self.leg_mm)
        yield from positive("underframe.apron", self.apron_mm)
