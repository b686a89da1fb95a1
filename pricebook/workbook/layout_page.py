"""The layout: a picture a sheet, cuts in bench order, faces by place, offcuts."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from io import BytesIO
from itertools import zip_longest

from pricebook.errors import ReportError
from pricebook.lengths import show
from pricebook.money import show as show_money
from pricebook.rates import Settings
from pricebook.veneer.layout import Layout, PlacedFace, Rest, SheetCut, SheetPlan
from pricebook.veneer.leaf_match import LeafPlan
from pricebook.workbook.cells import EMPTY, Cell, number, text
from pricebook.workbook.page import LINE_POINTS, MOST_POINTS, Page

CUT_HEADS = ("Cut", "Grain", "At", "From", "To", "")
FACE_HEADS = ("Face or rest", "Along", "Across", "Starts along", "Starts across")
_POINTS_PER_CHARACTER = 5.25
_PIXELS_PER_POINT = 96 / 72


def write_layouts(
    page: Page,
    layouts: Sequence[tuple[str, Layout]],
    pictures: Sequence[bytes],
    settings: Settings,
    leaves: Sequence[LeafPlan] = (),
) -> None:
    """Write the layouts of a batch.

    Parameters
    ----------
    page : Page
        An empty page.
    layouts : sequence of (str, Layout)
        Whose layout, and the layout.
    pictures : sequence of bytes
        PNG pictures, one a sheet in order, one for all, or none.
    settings : Settings
        For the reader's units and the currency.
    leaves : sequence of LeafPlan
        Raw leaves that are laid.

    Raises
    ------
    ReportError
        If the number of pictures fits neither, or one is no PNG.
    """
    plans = [(whose, plan) for whose, one in layouts for plan in one.sheets]
    of_sheets = _checked(pictures, len(plans))
    page.title("Layout", "Every cut goes from edge to edge of what lies on the bench.")
    for whose, one in layouts:
        if one.sheets or not leaves:
            page.note(f"{whose}: {_verdict(one, settings)}", "bold text")
    if len(of_sheets) != len(plans):
        for png in pictures:
            _picture(page, png, "All sheets", _alt_all(layouts, settings))
    shown: Sequence[bytes | None] = [None] * len(plans)
    if len(of_sheets) == len(plans):
        shown = of_sheets
    pieces = {placed.face.piece for _, plan in plans for placed in plan.placed}
    for (whose, plan), picture in zip(plans, shown, strict=True):
        whom = whose if len(layouts) > 1 else ""
        _sheet(page, whom, plan, picture, settings, named=len(pieces) > 1)
    for flitch in leaves:
        _leaves(page, flitch, settings.lengths)
    page.done(", ".join(whose for whose, _ in layouts) + ": layout")


def _leaves(page: Page, plan: LeafPlan, unit: str) -> None:
    """Write which leaf of a flitch goes where, and the waste in words."""
    page.skip()
    page.note(
        f"Raw leaves of {plan.flitch.key}, {plan.match} match: "
        f"{plan.leaves_to_buy} to buy, {len(plan.leaves_used)} cut",
        "large text",
    )
    for words in (plan.waste, *plan.words(unit)):
        page.note(words)


def _checked(pictures: Sequence[bytes], sheets: int) -> Sequence[bytes]:
    if len(pictures) not in {0, 1, sheets}:
        raise ReportError(
            f"{len(pictures)} pictures are given for {sheets} sheets of veneer; give "
            "one a sheet, one for all, or none."
        )
    for number_of, png in enumerate(pictures, 1):
        png_size(png, f"picture {number_of}")
    return pictures


def png_size(png: bytes, what: str) -> tuple[int, int]:
    """Return width and height of a PNG picture, or refuse what is none.

    Parameters
    ----------
    png : bytes
        The picture.
    what : str
        What to call it in a refusal.

    Returns
    -------
    (int, int)
        Width and height. [pixels]

    Raises
    ------
    ReportError
        If it is not a PNG picture.
    """
    if not isinstance(png, bytes) or png[:8] != b"\x89PNG\r\n\x1a\n" or len(png) < 24:
        raise ReportError(f"{what} is no PNG picture; draw it as PNG.")
    width, height = struct.unpack(">II", png[16:24])
    return width, height


def _verdict(layout: Layout, settings: Settings) -> str:
    sheets = len(layout.sheets)
    cash = show_money(layout.cash_cents, settings.currency)
    count = f"{sheets} sheet" if sheets == 1 else f"{sheets} sheets"
    return f"{count}, {cash} to pay for sheets; {layout.verdict}."


def _alt_all(layouts: Sequence[tuple[str, Layout]], settings: Settings) -> str:
    return " ".join(f"{w}: {_verdict(one, settings)}" for w, one in layouts)


def _sheet(
    page: Page,
    whose: str,
    plan: SheetPlan,
    png: bytes | None,
    settings: Settings,
    *,
    named: bool,
) -> None:
    """Write one sheet: heading and picture, cuts beside faces and offcuts."""
    heading = _heading(plan, settings)
    if whose:
        heading = f"{whose}. {heading}"
    page.skip()
    if png is None:
        page.merged(heading, "large text", 20)
    else:
        _picture(page, png, heading, _alt(plan, settings.lengths))
    page.subheads((*CUT_HEADS, *FACE_HEADS), right=(0,))
    unit = settings.lengths
    cuts = [_cut(place, cut, unit) for place, cut in enumerate(plan.cuts, 1)]
    parts = [_face(placed, unit, named=named) for placed in plan.placed]
    parts += [_rest(rest, unit) for rest in plan.rests]
    for cut, part in zip_longest(cuts, parts):
        page.line([*(cut or [EMPTY] * len(CUT_HEADS)), *(part or [])])


def _heading(plan: SheetPlan, settings: Settings) -> str:
    sheet, unit = plan.sheet, settings.lengths
    size = f"{show(sheet.along_mm, unit)} x {show(sheet.across_mm, unit)}"
    where = "in the rack, worth" if plan.from_rack else "to buy at"
    worth = show_money(plan.worth_cents, settings.currency)
    return (
        f"Sheet {plan.number}: {sheet.species}, {sheet.veneer} veneer, {sheet.form}, "
        f"{size}, {where} {worth}"
    )


def _alt(plan: SheetPlan, unit: str) -> str:
    """Return in words what the picture of a sheet shows."""
    size = f"{show(plan.sheet.along_mm, unit)} by {show(plan.sheet.across_mm, unit)}"
    faces = "; ".join(
        f"{placed.name} {show(placed.along_mm, unit)} by "
        f"{show(placed.across_mm, unit)} at {show(placed.along_at_mm, unit)}, "
        f"{show(placed.across_at_mm, unit)}"
        for placed in plan.placed
    )
    words = f"Sheet {plan.number}, {plan.sheet.species}, {size}, with {faces}."
    return words if len(words) <= 1000 else words[:999] + "…"


def _picture(page: Page, png: bytes, heading: str, description: str) -> None:
    """Put a picture under its heading in one tall row, which no page divides."""
    wide, high = png_size(png, "a picture")
    above = 22.0
    points = sum(page.widths) * _POINTS_PER_CHARACTER * 0.98
    room = min(points / wide, (MOST_POINTS - above - LINE_POINTS) / high)
    scale = room * _PIXELS_PER_POINT
    row = page.row
    page.merged(heading, "large text", above + high * room + LINE_POINTS / 2)
    dots = 96 / _dots_per_inch(png)
    page.sheet.insert_image(
        row,
        0,
        "picture.png",
        {
            "image_data": BytesIO(png),
            "x_scale": scale / dots,
            "y_scale": scale / dots,
            "y_offset": above * _PIXELS_PER_POINT,
            "object_position": 1,
            "description": description,
        },
    )


def _dots_per_inch(png: bytes) -> float:
    """Return the resolution that a PNG states; 96 where it states none."""
    at = png.find(b"pHYs")
    if at < 0 or len(png) < at + 13 or png[at + 12] != 1:
        return 96.0
    per_metre = struct.unpack(">I", png[at + 4 : at + 8])[0]
    return float(per_metre) * 0.0254 or 96.0


def _cut(number_of: int, cut: SheetCut, unit: str) -> list[Cell]:
    return [
        number(number_of),
        text(cut.direction),
        text(show(cut.at_mm, unit)),
        text(show(cut.start_mm, unit)),
        text(show(cut.end_mm, unit)),
        EMPTY,
    ]


def _face(placed: PlacedFace, unit: str, *, named: bool) -> list[Cell]:
    name = f"{placed.face.piece}: {placed.name}" if named else placed.name
    return [
        text(f"{name} (turned)" if placed.turned else name),
        text(show(placed.along_mm, unit)),
        text(show(placed.across_mm, unit)),
        text(show(placed.along_at_mm, unit)),
        text(show(placed.across_at_mm, unit)),
    ]


def _rest(rest: Rest, unit: str) -> list[Cell]:
    kind = "Offcut to keep" if rest.usable else "Waste"
    return [
        text(kind),
        text(show(rest.along_mm, unit)),
        text(show(rest.across_mm, unit)),
        text(show(rest.along_at_mm, unit)),
        text(show(rest.across_at_mm, unit)),
    ]
