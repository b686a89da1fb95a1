"""The catalogue: what guests read before the first bid."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from io import BytesIO

from pricebook.errors import ReportError
from pricebook.event import Event, Lot
from pricebook.event.naming import some_lots
from pricebook.workbook.cells import EMPTY, Cell, money, text
from pricebook.workbook.page import Page
from pricebook.workbook.pictures import picture_fault

HEADS = (
    "Lot",
    "Title",
    "Story",
    "Made by",
    "Fair market value",
    "Estimate from",
    "to",
    "Opening bid",
)
PICTURE = len(HEADS)
PICTURE_WIDTH = 26.0
_PICTURE_POINTS = (132.0, 110.0)
_PIXELS_PER_POINT = 96 / 72


def write_catalogue(page: Page, event: Event, pictures: Mapping[str, bytes]) -> None:
    """Write the catalogue, a row a lot.

    Parameters
    ----------
    page : Page
        An empty page.
    event : Event
        The event.
    pictures : mapping of str to bytes
        PNG or JPEG pictures by the number of the lot.

    Raises
    ------
    ReportError
        If a picture is none that a workbook can show.
    """
    page.title(event.name, _when(event))
    heads = (*HEADS, "Picture") if pictures else HEADS
    page.heads(heads, (4, 5, 6, 7))
    for lot in event.lots:
        picture = pictures.get(lot.key)
        points = _PICTURE_POINTS[1] + 6 if picture else 0
        row = page.line(_cells(lot), points=points)
        if picture:
            _insert(page, row, lot, picture)
    page.skip()
    for note in _notes(event):
        page.note(note)
    page.done(f"{event.name}: catalogue")


def _when(event: Event) -> str:
    place = f", {event.place}" if event.place else ""
    opens = f"{event.bidding_opens:%Y-%m-%d %H:%M}"
    return f"For {event.charity}, {event.on}{place}. Bidding opens {opens}."


def _cells(lot: Lot) -> list[Cell]:
    ends = (lot.estimate_low_cents, lot.estimate_high_cents)
    value = lot.fair_market_value_cents
    return [
        text(lot.key, "bold"),
        text(lot.title, "text bold"),
        text(lot.story),
        text(lot.maker),
        EMPTY if value is None else money(value),
        *(EMPTY if cents is None else money(cents) for cents in ends),
        money(lot.opening_cents, "bold"),
    ]


def _notes(event: Event) -> Sequence[str]:
    """Return what guests are told once, below the lots."""
    notes = []
    reserved = [lot.key for lot in event.lots if lot.reserve_cents is not None]
    if reserved:
        notes.append(
            f"Sold subject to a reserve, which is never above the low estimate: "
            f"{some_lots(reserved)}."
        )
    notes.append(
        "A fair market value is what a piece would fetch in an open market, as a named "
        "person states it; the estimate is what it may fetch here. Only what is paid "
        "above the fair market value can be a gift, and a tax adviser decides."
    )
    bare = [lot.key for lot in event.lots if lot.value is None]
    if bare:
        notes.append(f"No fair market value is stated for lots {some_lots(bare)}.")
    if event.tax_note:
        notes.append(f"Sales tax: {event.tax_note}")
    return notes


def _insert(page: Page, row: int, lot: Lot, picture: bytes) -> None:
    from xlsxwriter.exceptions import XlsxWriterException
    from xlsxwriter.image import Image

    fault = picture_fault(picture)
    try:
        image = Image(BytesIO(b"" if fault else picture))
    except (XlsxWriterException, OSError, ValueError, LookupError) as error:
        raise ReportError(
            f"the picture of lot {lot.key} cannot be shown, it "
            f"{fault or type(error).__name__}; give a whole PNG or JPEG file."
        ) from None
    wide = image.width * 72 / image.x_dpi
    high = image.height * 72 / image.y_dpi
    scale = min(_PICTURE_POINTS[0] / wide, _PICTURE_POINTS[1] / high)
    page.sheet.insert_image(
        row,
        PICTURE,
        f"lot-{lot.key}",
        {
            "image_data": BytesIO(picture),
            "x_scale": scale,
            "y_scale": scale,
            "x_offset": 3 * _PIXELS_PER_POINT,
            "y_offset": 3 * _PIXELS_PER_POINT,
            "object_position": 1,
            "description": f"Picture of lot {lot.key}, {lot.title}"[:250],
        },
    )
