"""Faces and edges that the maker measured, in any form of piece."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.piece.checks import counted, one_of, positive, refuse

TREATMENTS = ("show", "backing", "plain")


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedFace:
    """A face that the maker measured, in any form of piece.

    Parameters
    ----------
    name : str
        What the maker calls it.
    along_mm, across_mm : float
        Net size along and across the grain. [mm]
    count : int
        How many. [-]
    treatment : str
        "show", "backing" or "plain".
    run : str or None
        Name of the matched run it belongs to.
    run_direction : str
        "side by side" or "end to end".
    centred, free_grain, coated : bool
        Whether it is centred on the figure, may be turned, gets the finish.
    """

    name: str
    along_mm: float
    across_mm: float
    count: int = 1
    treatment: str = "show"
    run: str | None = None
    run_direction: str = "side by side"
    centred: bool = False
    free_grain: bool = False
    coated: bool = True

    def __post_init__(self) -> None:
        """Refuse a face that cannot be."""
        refuse(f'faces "{self.name}": {fault}' for fault in self._faults())

    def _faults(self) -> Iterator[str]:
        yield from positive("along", self.along_mm)
        yield from positive("across", self.across_mm)
        yield from counted("count", self.count)
        yield from one_of("treatment", self.treatment, TREATMENTS)
        known = ("side by side", "end to end")
        yield from one_of("run_direction", self.run_direction, known)


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedEdge:
    """An edge that the maker measured, in any form of piece.

    Parameters
    ----------
    name : str
        What the maker calls it.
    length_mm : float
        Net length. [mm]
    width_mm : float
        Thickness of the panel. [mm]
    count : int
        How many. [-]
    """

    name: str
    length_mm: float
    width_mm: float
    count: int = 1

    def __post_init__(self) -> None:
        """Refuse an edge that cannot be."""
        refuse(f'edges "{self.name}": {fault}' for fault in self._faults())

    def _faults(self) -> Iterator[str]:
        yield from positive("length", self.length_mm)
        yield from positive("panel", self.width_mm)
        yield from counted("count", self.count)
