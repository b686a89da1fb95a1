"""What a piece is made of: sizes, top, base, drawers, doors, shelves, holes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.piece.checks import at_least, not_negative, one_of, positive, refuse

FITS = ("overlay", "inset")
BASES = ("plinth", "legs", "none")
CONDITIONS = (
    "bare board",
    "laminated board",
    "clear finish",
    "painted",
    "old veneer",
)


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
        yield from at_least("drawers.rows", self.rows, 1)
        yield from at_least("drawers.columns", self.columns, 1)
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
        yield from at_least("doors.count", self.count, 1)
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
        yield from at_least("shelves.count", self.count, 1)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Holes:
    """Holes of one kind to fill.

    Parameters
    ----------
    name : str
        What they are, such as "old pull holes".
    count : int
        How many. [-]
    diameter_mm, depth_mm : float
        Size of each. [mm]
    """

    name: str
    count: int
    diameter_mm: float
    depth_mm: float

    def __post_init__(self) -> None:
        """Refuse holes that cannot be filled."""
        refuse(f'holes "{self.name}": {fault}' for fault in self._faults())

    def _faults(self) -> Iterator[str]:
        yield from positive("diameter", self.diameter_mm)
        yield from positive("depth", self.depth_mm)
        yield from at_least("count", self.count, 1)

    @property
    def volume_ml(self) -> float:
        """Volume of one hole, a plain cylinder. [ml]."""
        return math.pi * self.diameter_mm**2 / 4 * self.depth_mm / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Fittings of one kind.

    Parameters
    ----------
    item : str
        Key of a row of the price book.
    count : int
        How many. [-]
    """

    item: str
    count: int

    def __post_init__(self) -> None:
        """Refuse a count below one."""
        refuse(at_least(f'hardware "{self.item}": count', self.count, 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Gift:
    """Something given for this piece, at the value the giver or charity states.

    Parameters
    ----------
    item : str
        What it is: "carcase", or any words.
    value_cents : int
        Its stated value. [cents]
    given_by : str
        Who gave it, as they wish to be named.
    """

    item: str
    value_cents: int
    given_by: str

    def __post_init__(self) -> None:
        """Refuse a negative value or a gift without a name."""
        refuse(self._faults())

    def _faults(self) -> Iterator[str]:
        yield from at_least(f'gifts "{self.item}": value', self.value_cents, 0)
        if not self.item.strip() or not self.given_by.strip():
            yield "gifts: item or given_by is empty; say what was given and by whom."


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """How the piece comes to the bench.

    Parameters
    ----------
    condition : str
        "bare board", "laminated board", "clear finish", "painted" or "old veneer".
    made_before_1978 : bool or None
        Whether its coatings may be that old; None: not known.
    dents : int
        Dents and chips to fill. [-]
    """

    condition: str
    made_before_1978: bool | None = None
    dents: int = 0

    def __post_init__(self) -> None:
        """Refuse a condition that is not known."""
        refuse(
            [
                *one_of("arrival.condition", self.condition, CONDITIONS),
                *at_least("arrival.dents", self.dents, 0),
            ]
        )
