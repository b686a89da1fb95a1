"""Form and sizes to surfaces, rims and boards, as one measures the piece.

Rules of measure (common practice, no source): overall sizes include top and
base; sides reach the floor beside a plinth and stop at the legs; overlay fronts
cover the carcase, inset ones stand between its sides and above its bottom panel.
"""

from __future__ import annotations

from collections.abc import Callable

from pricebook.forms.making import board, four_edges, joined, rim, surface
from pricebook.forms.rows import Rim, Shape, Surface
from pricebook.piece import Piece, Size, Top


def shape(piece: Piece) -> Shape:
    """Measure a piece by the rules of its form.

    Parameters
    ----------
    piece : Piece
        The piece; a plain list has no shape of its own.

    Returns
    -------
    Shape
        Its surfaces, rims and boards.
    """
    if piece.form == "list":
        return Shape()
    size, top = piece.size, piece.top
    assert size is not None  # a piece of any other form is measured
    assert top is not None
    return _SHAPES[piece.form](piece, size, top)


def _top(piece: Piece, size: Size, top: Top, word: str = "top") -> Shape:
    width, depth, thick = size.width_mm, size.depth_mm, top.thickness_mm
    loose = piece.form in ("side table", "blanket chest")
    return Shape(
        surfaces=(
            Surface(
                name=word, group=word, width_mm=width, height_mm=depth, loose=loose
            ),
        ),
        rims=(
            rim(f"{word}, front edge", f"{word} front", width, thick),
            rim(f"{word}, left edge", f"{word} sides", depth, thick),
            rim(f"{word}, right edge", f"{word} sides", depth, thick),
            rim(f"{word}, back edge", f"{word} back", width, thick),
        ),
        boards=(board(word, width, depth, thick),),
    )


def _carcase(piece: Piece, size: Size, top: Top) -> Shape:
    width, depth = piece.carcase_width_mm, piece.carcase_depth_mm
    inner, side = width - 2 * size.panel_mm, piece.side_height_mm
    surfaces = [
        surface("left side", "sides", depth, side),
        surface("right side", "sides", depth, side),
        surface("back", "back", width, side),
    ]
    boards = [
        board("side", depth, side, size.panel_mm, 2),
        board("bottom", inner, depth, size.panel_mm),
    ]
    if piece.base and piece.base.kind == "plinth":
        surfaces.append(surface("plinth", "plinth", inner, piece.base.height_mm))
        boards.append(board("plinth", inner, piece.base.height_mm, size.panel_mm))
    rims = (
        rim("left side, front edge", "side fronts", side, size.panel_mm),
        rim("right side, front edge", "side fronts", side, size.panel_mm),
        rim("bottom, front edge", "bottom front", inner, size.panel_mm),
    )
    own = Shape(surfaces=tuple(surfaces), rims=rims, boards=tuple(boards))
    return joined(_top(piece, size, top), own)


def _inside(piece: Piece, size: Size) -> Shape:
    inner = piece.carcase_width_mm - 2 * size.panel_mm
    depth, clear = piece.carcase_depth_mm, piece.opening_height_mm - size.panel_mm
    surfaces = [
        surface("left side, inside", "inside sides", depth, clear),
        surface("right side, inside", "inside sides", depth, clear),
        surface("bottom, upper face", "bottom", inner, depth),
        surface("back, inside", "inside back", inner, clear),
    ]
    own = Shape(surfaces=tuple(surfaces))
    return joined(own, _shelves(piece, inner, depth, size.panel_mm))


def _shelves(piece: Piece, width_mm: float, depth_mm: float, thick: float) -> Shape:
    if piece.shelves is None:
        return Shape()
    depth = depth_mm - piece.shelves.setback_mm
    loose = piece.shelves.loose
    surfaces: list[Surface] = []
    rims: list[Rim] = []
    for number in range(1, piece.shelves.count + 1):
        name = f"shelf {number}"
        surfaces.append(surface(name, "shelves", width_mm, depth, loose=loose))
        surfaces.append(
            surface(
                f"{name}, underside", "shelf undersides", width_mm, depth, loose=loose
            )
        )
        rims.append(rim(f"{name}, front edge", "shelf fronts", width_mm, thick))
    boards = (board("shelf", width_mm, depth, thick, piece.shelves.count),)
    return Shape(surfaces=tuple(surfaces), rims=tuple(rims), boards=boards)


def _fronts(piece: Piece, size: Size) -> Shape:
    drawers = piece.drawers
    assert drawers is not None  # the form asks for them
    room_width, room_height = piece.front_room_mm(drawers.fit)
    across = room_width - 2 * drawers.reveal_mm
    width = (across - (drawers.columns - 1) * drawers.gap_mm) / drawers.columns
    gaps = 2 * drawers.reveal_mm + (drawers.rows - 1) * drawers.gap_mm
    left = room_height - drawers.open_below_mm - gaps
    heights = drawers.heights_mm or (left / drawers.rows,) * drawers.rows
    surfaces, rims, boxes, boards = [], [], [], []
    for column in range(drawers.columns):
        for row, height in enumerate(heights):
            name = f"drawer front {row * drawers.columns + column + 1}"
            run = "drawer fronts"
            run += f", column {column + 1}" if drawers.columns > 1 else ""
            surfaces.append(surface(name, "fronts", width, height, run=run))
            rims += list(four_edges(name, "fronts", width, height, size.panel_mm))
            boards.append(board(name, width, height, size.panel_mm))
            boxes.append((width, piece.carcase_depth_mm, height))
    return Shape(
        surfaces=tuple(surfaces),
        rims=tuple(rims),
        boards=tuple(boards),
        drawer_boxes_mm=tuple(boxes),
        open_front_mm=max(left - sum(heights), 0.0) if drawers.heights_mm else 0.0,
    )


def _doors(piece: Piece, size: Size) -> Shape:
    doors = piece.doors
    assert doors is not None  # the form asks for them
    room_width, room_height = piece.front_room_mm(doors.fit)
    gaps = 2 * doors.reveal_mm + (doors.count - 1) * doors.gap_mm
    width = (room_width - gaps) / doors.count
    height = room_height - 2 * doors.reveal_mm
    surfaces, rims = [], []
    for number in range(1, doors.count + 1):
        name = f"door {number}"
        surfaces += [
            surface(name, "doors", width, height, run="doors", loose=True),
            surface(f"{name}, back", "door backs", width, height, loose=True),
        ]
        rims += list(four_edges(name, "doors", width, height, size.panel_mm))
    inner = piece.carcase_width_mm - 2 * size.panel_mm
    clear = piece.opening_height_mm - size.panel_mm
    return Shape(
        surfaces=tuple(surfaces),
        rims=tuple(rims),
        boards=(board("door", width, height, size.panel_mm, doors.count),),
        closed_mm=((inner, piece.carcase_depth_mm, clear),),
    )


def _chest_of_drawers(piece: Piece, size: Size, top: Top) -> Shape:
    return joined(_carcase(piece, size, top), _fronts(piece, size))


def _night_stand(piece: Piece, size: Size, top: Top) -> Shape:
    return joined(_chest_of_drawers(piece, size, top), _inside(piece, size))


def _bookcase(piece: Piece, size: Size, top: Top) -> Shape:
    return joined(_carcase(piece, size, top), _inside(piece, size))


def _cupboard(piece: Piece, size: Size, top: Top) -> Shape:
    return joined(_bookcase(piece, size, top), _doors(piece, size))


def _blanket_chest(piece: Piece, size: Size, top: Top) -> Shape:
    width, depth = piece.carcase_width_mm, piece.carcase_depth_mm
    height, thick = piece.opening_height_mm, size.panel_mm
    surfaces = [
        surface(
            "lid underside", "lid underside", size.width_mm, size.depth_mm, loose=True
        ),
        surface("front", "front", width, height),
        surface("back", "back", width, height),
        surface("left end", "ends", depth, height),
        surface("right end", "ends", depth, height),
    ]
    boards = [
        board("front and back", width, height, thick, 2),
        board("end", depth - 2 * thick, height, thick, 2),
        board("bottom", width - 2 * thick, depth - 2 * thick, thick),
    ]
    if piece.base and piece.base.kind == "plinth":
        low = piece.base.height_mm
        surfaces += [
            surface("plinth, front", "plinth", width, low),
            surface("plinth, left", "plinth", depth, low),
            surface("plinth, right", "plinth", depth, low),
        ]
        boards.append(board("plinth", 2 * (width + depth), low, thick))
    rims = (
        rim("rim, front", "rim", width, thick),
        rim("rim, left", "rim", depth - 2 * thick, thick),
        rim("rim, right", "rim", depth - 2 * thick, thick),
    )
    own = Shape(surfaces=tuple(surfaces), rims=rims, boards=tuple(boards))
    return joined(_top(piece, size, top, "lid"), own)


def _side_table(piece: Piece, size: Size, top: Top) -> Shape:
    frame = piece.underframe
    assert frame is not None  # the form asks for it
    leg, apron = frame.leg_mm, frame.apron_mm
    wide, deep = piece.carcase_width_mm - 2 * leg, piece.carcase_depth_mm - 2 * leg
    tall = size.height_mm - top.thickness_mm
    surfaces = [
        surface(f"{side} apron", "aprons", width, apron)
        for side, width in (
            ("front", wide), ("back", wide), ("left", deep), ("right", deep),
        )
    ]  # fmt: skip
    surfaces += [
        surface(f"leg {number}, face {face}", "legs", leg, tall)
        for number in range(1, 5)
        for face in range(1, 5)
    ]
    under = "top underside"
    surfaces.append(surface(under, under, size.width_mm, size.depth_mm, loose=True))
    boards = (
        board("long apron", wide, apron, size.panel_mm, 2),
        board("short apron", deep, apron, size.panel_mm, 2),
        board("leg", tall, leg, leg, 4),
    )
    own = Shape(surfaces=tuple(surfaces), boards=boards)
    return joined(_top(piece, size, top), own, _low_shelves(piece, size, wide, deep))


def _low_shelves(piece: Piece, size: Size, wide: float, deep: float) -> Shape:
    """Return the shelves of a table: all four edges of each can be banded."""
    shelf = _shelves(piece, wide, deep, size.panel_mm)
    rims = tuple(
        rim
        for one in shelf.surfaces
        if one.group == "shelves"
        for rim in four_edges(
            one.name, "shelf edges", one.width_mm, one.height_mm, size.panel_mm
        )
    )
    return Shape(surfaces=shelf.surfaces, rims=rims, boards=shelf.boards)


_SHAPES: dict[str, Callable[[Piece, Size, Top], Shape]] = {
    "chest of drawers": _chest_of_drawers,
    "night stand": _night_stand,
    "bookcase": _bookcase,
    "blanket chest": _blanket_chest,
    "cupboard": _cupboard,
    "side table": _side_table,
}
