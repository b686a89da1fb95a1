"""The take-off: faces, edges, holes, fittings and areas, to check with a pencil."""

from __future__ import annotations

from collections.abc import Sequence

from pricebook.cost.lines import CostSheet
from pricebook.finish.words import M2_PER_SQ_FT
from pricebook.lengths import show
from pricebook.takeoff import Edge, Face, TakeOff
from pricebook.workbook.cells import EMPTY, Cell, number, span, text
from pricebook.workbook.page import Page

NET, CUT = 6, 7


def write_takeoff(page: Page, sheets: Sequence[CostSheet]) -> None:
    """Write what was measured of every piece.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.
    """
    unit = sheets[0].settings.lengths
    page.title("Take-off", "Along and across are along and across the grain.")
    area = "sq ft" if unit == "in" else "m2"
    page.heads(
        (
            "Face",
            "Count",
            "Along",
            "Across",
            "Cut along",
            "Cut across",
            f"Net, {area}",
            f"To cut, {area}",
            "Veneer",
            "To mind",
        ),
        right=(1, NET, CUT),
    )
    for sheet in sheets:
        if len(sheets) > 1:
            page.line([text(sheet.piece, "large")], "group")
        _piece(page, sheet.take_off, unit)
    page.done(", ".join(sheet.piece for sheet in sheets) + ": take-off")


def _piece(page: Page, measured: TakeOff, unit: str) -> None:
    _faces(page, measured, unit)
    if measured.edges:
        page.subheads(
            ("Edge", "Count", "Length", "Panel", "Cut length", "", "", "", "Banding"),
            right=(1,),
        )
        for edge in measured.edges:
            page.line(_edge(edge, unit))
    if measured.holes:
        page.subheads(("Holes to fill", "Count", "Diameter", "Depth"), right=(1,))
        for holes in measured.holes:
            cells = [text(holes.name), number(holes.count)]
            sizes = (holes.diameter_mm, holes.depth_mm)
            page.line([*cells, *(text(show(size, unit)) for size in sizes)])
    if measured.hardware:
        page.subheads(("Hardware", "Count"), right=(1,))
        for fitting in measured.hardware:
            page.line([text(fitting.item), number(fitting.count)])
    _coated(page, measured, unit)
    page.skip()


def _area(m2: float, unit: str) -> float:
    return m2 / M2_PER_SQ_FT if unit == "in" else m2


def _style(unit: str) -> str:
    return "tenth" if unit == "in" else "number"


def _faces(page: Page, measured: TakeOff, unit: str) -> None:
    if not measured.faces:
        return
    first = page.row
    for face in measured.faces:
        page.line(_face(face, unit))
    cells = [text("All faces")] + [EMPTY] * 5
    cells += [
        _sum(first, page.row - 1, NET, _area(measured.veneered_m2, unit), unit),
        _sum(first, page.row - 1, CUT, _area(measured.cut_m2, unit), unit),
    ]
    page.line(cells, "total")
    page.skip()


def _sum(first: int, last: int, column: int, value: float, unit: str) -> Cell:
    return Cell(value, _style(unit), f"=SUM({span(first, last, column)})")


def _face(face: Face, unit: str) -> list[Cell]:
    sizes = (face.along_mm, face.across_mm, face.cut_along_mm, face.cut_across_mm)
    return [
        text(face.name),
        number(face.count),
        *(text(show(size, unit)) for size in sizes),
        Cell(_area(face.net_m2, unit), _style(unit)),
        Cell(_area(face.cut_m2, unit), _style(unit)),
        text(f"{face.species}, {face.veneer}"),
        text(_to_mind(face)),
    ]


def _to_mind(face: Face) -> str:
    words = []
    if face.run:
        words.append(f"matched run {face.run}, {face.run_direction}")
    if face.centred:
        words.append("figure centred")
    if face.free_grain:
        words.append("may be turned")
    return "; ".join(words)


def _edge(edge: Edge, unit: str) -> list[Cell]:
    sizes = (edge.length_mm, edge.width_mm, edge.cut_mm)
    return [
        text(edge.name),
        number(edge.count),
        *(text(show(size, unit)) for size in sizes),
        *[EMPTY] * 3,
        text(edge.species),
    ]


def _coated(page: Page, measured: TakeOff, unit: str) -> None:
    if not measured.coated:
        return
    page.subheads(("Surface that gets the finish", *[""] * 5, "Net"), right=(NET,))
    first = page.row
    for row in measured.coated:
        area = Cell(_area(row.m2, unit), _style(unit))
        page.line([text(row.name), *[EMPTY] * 5, area])
    whole = _sum(first, page.row - 1, NET, _area(measured.coated_m2, unit), unit)
    page.line([text("All surfaces"), *[EMPTY] * 5, whole], "total")
