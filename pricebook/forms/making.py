"""Short ways to make the parts of a shape."""

from __future__ import annotations

from collections.abc import Iterator

from pricebook.forms.rows import Board, Rim, Shape, Surface


def joined(*shapes: Shape) -> Shape:
    """Return several shapes as one."""
    return Shape(
        surfaces=tuple(s for one in shapes for s in one.surfaces),
        rims=tuple(r for one in shapes for r in one.rims),
        boards=tuple(b for one in shapes for b in one.boards),
        drawer_boxes_mm=tuple(d for one in shapes for d in one.drawer_boxes_mm),
        closed_mm=tuple(c for one in shapes for c in one.closed_mm),
        open_front_mm=sum(one.open_front_mm for one in shapes),
    )


def surface(
    name: str,
    group: str,
    width_mm: float,
    height_mm: float,
    *,
    run: str | None = None,
    loose: bool = False,
) -> Surface:
    """Return a surface."""
    return Surface(
        name=name,
        group=group,
        width_mm=width_mm,
        height_mm=height_mm,
        run=run,
        loose=loose,
    )


def rim(name: str, group: str, length_mm: float, width_mm: float) -> Rim:
    """Return an edge of a panel."""
    return Rim(name=name, group=group, length_mm=length_mm, width_mm=width_mm)


def board(
    name: str, length_mm: float, width_mm: float, thickness_mm: float, count: int = 1
) -> Board:
    """Return a panel."""
    return Board(
        name=name,
        length_mm=length_mm,
        width_mm=width_mm,
        thickness_mm=thickness_mm,
        count=count,
    )


def four_edges(
    name: str, group: str, width_mm: float, height_mm: float, thickness_mm: float
) -> Iterator[Rim]:
    """Yield the four edges of a front or a door."""
    for word, length_mm in (
        ("upper edge", width_mm),
        ("lower edge", width_mm),
        ("left edge", height_mm),
        ("right edge", height_mm),
    ):
        yield rim(f"{name}, {word}", group, length_mm, thickness_mm)
