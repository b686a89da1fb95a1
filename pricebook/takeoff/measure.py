"""Piece to take-off: which surfaces get what, and how they lie on the grain."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pricebook.errors import SpecError, raise_all
from pricebook.forms import Board, Shape, Surface, shape
from pricebook.piece import Hardware, Holes, ListedFace, Piece
from pricebook.takeoff.rows import Edge, Face

_UPRIGHT = (
    "sides",
    "inside sides",
    "back",
    "inside back",
    "doors",
    "door backs",
    "ends",
    "legs",
)
"""Groups whose grain runs upright by custom; all others run from side to side."""

_TWO_FACES = (
    ("doors", "door backs"),
    ("lid", "lid underside"),
    ("shelves", "shelf undersides"),
    ("top", "top underside"),
)
_OTHER_FACE = {a: b for pair in _TWO_FACES for a, b in (pair, pair[::-1])}


@dataclass(frozen=True, slots=True, kw_only=True)
class Coated:
    """A surface that gets the finish.

    Parameters
    ----------
    name : str
        Which one.
    m2 : float
        Its net area. [m²]
    """

    name: str
    m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOff:
    """Everything that a piece asks of the bench, as measured.

    Parameters
    ----------
    piece : str
        The piece's name.
    faces : tuple of Face
        Faces to veneer.
    edges : tuple of Edge
        Edges to band.
    holes : tuple of Holes
        Holes to fill.
    hardware : tuple of Hardware
        Fittings.
    coated : tuple of Coated
        Surfaces and banded edges that get the finish.
    boards : tuple of Board
        Panels, for the weight.
    enclosed_l : float
        Space in drawers, and half of that behind doors. [L]
    one_sided : tuple of str
        Loose panels that are veneered on one face only.
    open_front_mm : float
        Height of the front that listed drawer fronts leave open, beside what the
        piece states as open. [mm]
    """

    piece: str
    faces: tuple[Face, ...]
    edges: tuple[Edge, ...]
    holes: tuple[Holes, ...]
    hardware: tuple[Hardware, ...]
    coated: tuple[Coated, ...]
    boards: tuple[Board, ...]
    enclosed_l: float
    one_sided: tuple[str, ...]
    open_front_mm: float = 0.0

    @property
    def veneered_m2(self) -> float:
        """Net area to veneer. [m²]."""
        return sum(face.net_m2 for face in self.faces)

    @property
    def cut_m2(self) -> float:
        """Area of veneer to cut, overhang included. [m²]."""
        return sum(face.cut_m2 for face in self.faces)

    @property
    def coated_m2(self) -> float:
        """Area that gets the finish. [m²]."""
        return sum(row.m2 for row in self.coated)

    @property
    def banded_mm(self) -> float:
        """Net length to band. [mm]."""
        return sum(edge.count * edge.length_mm for edge in self.edges)

    @property
    def board_m3(self) -> float:
        """Volume of all panels. [m³]."""
        return (
            sum(
                b.count * b.length_mm * b.width_mm * b.thickness_mm for b in self.boards
            )
            / 1e9
        )


def take_off(piece: Piece) -> TakeOff:
    """Measure a piece: faces on the grain, edges, holes and areas to coat.

    Parameters
    ----------
    piece : Piece
        The piece.

    Returns
    -------
    TakeOff
        What the bench has to cut, band, fill and coat.

    Raises
    ------
    SpecError
        If listed faces get backing veneer and no wood is named for it.

    Notes
    -----
    A face L along by W across the grain takes (L + 2o)(W + 2o) of veneer with an
    overhang o; an edge of length l takes l + 2e of banding with an allowance e.
    Grain runs from side to side, upright on sides, doors, ends and legs, unless
    the piece says otherwise (common practice, no source).
    """
    raise_all(SpecError, _without_wood(piece))
    measured = shape(piece)
    faces = (*_form_faces(piece, measured), *_listed_faces(piece))
    edges = tuple(_edges(piece, measured))
    return TakeOff(
        piece=piece.name,
        faces=faces,
        edges=edges,
        holes=piece.holes,
        hardware=piece.hardware,
        coated=tuple(_coated(piece, measured, edges)),
        boards=measured.boards,
        enclosed_l=_enclosed_l(measured),
        one_sided=tuple(_one_sided(piece, measured)),
        open_front_mm=measured.open_front_mm,
    )


def _without_wood(piece: Piece) -> Iterator[str]:
    if piece.veneer.backing_species:
        return
    for face in piece.faces:
        if face.treatment == "backing":
            yield (
                f'faces "{face.name}" gets backing veneer; name its wood in '
                "veneer.backing_species."
            )


def _form_faces(piece: Piece, measured: Shape) -> Iterator[Face]:
    wishes = piece.veneer
    for surface in measured.surfaces:
        group = surface.group
        if group not in wishes.veneered:
            continue
        upright = _runs_upright(piece, group)
        show = group in wishes.show
        run = surface.run or group
        yield Face(
            name=surface.name,
            piece=piece.name,
            group=group,
            along_mm=surface.height_mm if upright else surface.width_mm,
            across_mm=surface.width_mm if upright else surface.height_mm,
            overhang_mm=wishes.overhang_mm,
            veneer="show" if show else "backing",
            species=wishes.species if show else str(wishes.backing_species),
            run=run if group in wishes.matched else None,
            run_direction=_run_direction(surface, upright),
            centred=group in wishes.centred,
            free_grain=group in wishes.free_grain,
        )


def _runs_upright(piece: Piece, group: str) -> bool:
    way = dict(piece.veneer.grain).get(group)
    if way is None:
        return group in _UPRIGHT
    return way in ("vertical", "front to back")


def _run_direction(surface: Surface, upright: bool) -> str:
    """Fronts lie one above the other; doors and the rest stand side by side."""
    stacked = surface.group in ("fronts", "shelves", "shelf undersides")
    return "end to end" if stacked == upright else "side by side"


def _listed_faces(piece: Piece) -> Iterator[Face]:
    wishes = piece.veneer
    for face in piece.faces:
        if face.treatment == "plain":
            continue
        yield Face(
            name=face.name,
            piece=piece.name,
            group=face.name,
            along_mm=face.along_mm,
            across_mm=face.across_mm,
            count=face.count,
            overhang_mm=wishes.overhang_mm,
            veneer=face.treatment,
            species=_listed_species(piece, face),
            run=face.run,
            run_direction=face.run_direction,
            centred=face.centred,
            free_grain=face.free_grain,
        )


def _listed_species(piece: Piece, face: ListedFace) -> str:
    wishes = piece.veneer
    return wishes.species if face.treatment == "show" else str(wishes.backing_species)


def _edges(piece: Piece, measured: Shape) -> Iterator[Edge]:
    if piece.banding is None:
        return
    wishes = piece.banding
    rims = [
        (rim.name, rim.length_mm, rim.width_mm, 1)
        for rim in measured.rims
        if rim.group in wishes.edges
    ]
    rims += [(e.name, e.length_mm, e.width_mm, e.count) for e in piece.edges]
    for name, length_mm, width_mm, count in rims:
        yield Edge(
            name=name,
            piece=piece.name,
            length_mm=length_mm,
            width_mm=width_mm,
            end_allowance_mm=wishes.end_allowance_mm,
            species=wishes.species,
            count=count,
        )


def _coated(piece: Piece, measured: Shape, edges: tuple[Edge, ...]) -> Iterator[Coated]:
    if piece.finish is None:
        return
    groups = piece.finish.groups or piece.veneer.veneered
    for surface in measured.surfaces:
        if surface.group in groups:
            m2 = surface.width_mm * surface.height_mm / 1e6
            yield Coated(name=surface.name, m2=m2)
    for face in piece.faces:
        if face.coated:
            m2 = face.count * face.along_mm * face.across_mm / 1e6
            yield Coated(name=face.name, m2=m2)
    if edges:
        m2 = sum(e.count * e.length_mm * e.width_mm for e in edges) / 1e6
        yield Coated(name="banded edges", m2=m2)


def _enclosed_l(measured: Shape) -> float:
    """Drawers less 1/8 in of height; a space that does not pull out counts half."""
    drawers = sum(w * d * (h - 25.4 / 8) for w, d, h in measured.drawer_boxes_mm)
    closed = sum(w * d * h for w, d, h in measured.closed_mm)
    return (drawers + closed / 2) / 1e6


def _one_sided(piece: Piece, measured: Shape) -> Iterator[str]:
    veneered = piece.veneer.veneered
    for surface in measured.surfaces:
        other = _OTHER_FACE.get(surface.group)
        if surface.loose and surface.group in veneered and other not in veneered:
            yield surface.name
