"""Surfaces, rims and boards: what can be measured on a piece."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A surface as it is seen from in front of it.

    Parameters
    ----------
    name, group : str
        Its own name, and the group that wishes are stated for.
    width_mm : float
        From side to side. [mm]
    height_mm : float
        From bottom to top, or from front to back where it lies flat. [mm]
    run : str or None
        Name of the run it belongs to when its group is matched.
    loose : bool
        Whether its panel is free to warp: a door, a lid, a table top, a shelf.
    """

    name: str
    group: str
    width_mm: float
    height_mm: float
    run: str | None = None
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Rim:
    """An edge of a panel.

    Parameters
    ----------
    name, group : str
        Its own name, and the group that wishes are stated for.
    length_mm, width_mm : float
        Length, and the panel's thickness. [mm]
    """

    name: str
    group: str
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A panel, for the weight of the piece.

    Parameters
    ----------
    name : str
        What it is.
    length_mm, width_mm, thickness_mm : float
        Its size. [mm]
    count : int
        How many. [-]
    """

    name: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Everything that can be measured on a piece.

    Parameters
    ----------
    surfaces, rims, boards : tuple
        What the form is made of.
    drawer_boxes_mm : tuple of (float, float, float)
        Width, depth and height of the space of each drawer. [mm]
    closed_mm : tuple of (float, float, float)
        Width, depth and height of spaces behind doors. [mm]
    open_front_mm : float
        Height that listed drawer fronts leave open without a word. [mm]
    """

    surfaces: tuple[Surface, ...] = ()
    rims: tuple[Rim, ...] = ()
    boards: tuple[Board, ...] = ()
    drawer_boxes_mm: tuple[tuple[float, float, float], ...] = ()
    closed_mm: tuple[tuple[float, float, float], ...] = ()
    open_front_mm: float = 0.0
