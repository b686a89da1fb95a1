"""What a take-off lists: faces, edges and holes, frozen."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all

RUN_DIRECTIONS = ("side by side", "end to end")


def _positive(name: str, length_mm: float) -> Iterator[str]:
    if not (math.isfinite(length_mm) and length_mm > 0):
        yield f"{name} is {length_mm:g} mm; it must be more than 0."


def _not_negative(name: str, length_mm: float) -> Iterator[str]:
    if not (math.isfinite(length_mm) and length_mm >= 0):
        yield f"{name} is {length_mm:g} mm; it must be 0 or more."


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A face to veneer.

    Parameters
    ----------
    name : str
        What the maker calls it, such as "left side".
    piece : str
        The piece it belongs to.
    group : str
        The group its wishes are stated for, such as "sides".
    along_mm, across_mm : float
        Net size along and across the grain. [mm]
    count : int
        How many faces of this name and size. [-]
    overhang_mm : float
        Left standing on every side, trimmed after laying. [mm]
    veneer : str
        "show" or "backing".
    species : str
        The wood.
    run : str or None
        Faces of one run are cut one after another from one strip.
    run_direction : str
        "side by side" (joined across the grain: horizontal grain) or "end to end"
        (joined along it: vertical grain); of no meaning without a run.
    centred : bool
        Whether its centre line lies on the centre line of the sheet's figure.
    free_grain : bool
        Whether it may be turned.
    """

    name: str
    piece: str
    group: str
    along_mm: float
    across_mm: float
    count: int = 1
    overhang_mm: float
    veneer: str
    species: str
    run: str | None = None
    run_direction: str = "side by side"
    centred: bool = False
    free_grain: bool = False

    def __post_init__(self) -> None:
        """Refuse a face that cannot be cut."""
        raise_all(SpecError, (f'"{self.name}": {fault}' for fault in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from _positive("length along the grain", self.along_mm)
        yield from _positive("width across the grain", self.across_mm)
        yield from _not_negative("overhang", self.overhang_mm)
        if self.count < 1:
            yield f"count is {self.count}; it must be 1 or more."
        if self.run_direction not in RUN_DIRECTIONS:
            yield f'"{self.run_direction}" is not a way to cut a run.'

    @property
    def cut_along_mm(self) -> float:
        """Length to cut along the grain, overhang included. [mm]."""
        return self.along_mm + 2 * self.overhang_mm

    @property
    def cut_across_mm(self) -> float:
        """Width to cut across the grain, overhang included. [mm]."""
        return self.across_mm + 2 * self.overhang_mm

    @property
    def net_m2(self) -> float:
        """Net area of all faces of this row. [m²]."""
        return self.count * self.along_mm * self.across_mm / 1e6

    @property
    def cut_m2(self) -> float:
        """Area to cut for all faces of this row, overhang included. [m²]."""
        return self.count * self.cut_along_mm * self.cut_across_mm / 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """An edge to band.

    Parameters
    ----------
    name : str
        What the maker calls it, such as "top, front edge".
    piece : str
        The piece it belongs to.
    length_mm : float
        Net length. [mm]
    width_mm : float
        Thickness of the panel, which the banding must cover. [mm]
    end_allowance_mm : float
        Left standing at each end. [mm]
    species : str
        The wood.
    count : int
        How many edges of this name and length. [-]
    """

    name: str
    piece: str
    length_mm: float
    width_mm: float
    end_allowance_mm: float
    species: str
    count: int = 1

    def __post_init__(self) -> None:
        """Refuse an edge that cannot be banded."""
        raise_all(SpecError, (f'"{self.name}": {fault}' for fault in self._faults()))

    def _faults(self) -> Iterator[str]:
        yield from _positive("length", self.length_mm)
        yield from _positive("panel thickness", self.width_mm)
        yield from _not_negative("end allowance", self.end_allowance_mm)
        if self.count < 1:
            yield f"count is {self.count}; it must be 1 or more."

    @property
    def cut_mm(self) -> float:
        """Length to cut, both end allowances included. [mm]."""
        return self.length_mm + 2 * self.end_allowance_mm
