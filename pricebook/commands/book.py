"""`pricebook book EVENT`: the fundraiser's workbook, ready to fill in."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Sequence
from functools import partial
from pathlib import Path

from pricebook.commands.common import Bar, all_of, day_of, print_json
from pricebook.commands.events import event_of
from pricebook.errors import TableError
from pricebook.event import Event, Lot
from pricebook.event.naming import some_lots
from pricebook.files import read_shop
from pricebook.files.places import shop_folder
from pricebook.files.writing import free_path

MOST_PICTURE_BYTES = 20_000_000
_MOST_NAMED = 12
"""More lots than this are counted, not named."""


def run(given: argparse.Namespace) -> None:
    """Write the workbook, under a name that nothing stands at."""
    path = Path(given.event)
    bar = Bar()
    bar(1, 4, "reading the event and its pieces")
    event = event_of(path, given.shop, day_of(given.on))
    bar(2, 4, "reading pictures")
    pictures = pictures_of(event.lots, path.parent)
    settings = read_shop(shop_folder(given.shop, path)).settings
    bar(3, 4, f"writing {len(event.lots):,} lots")
    from pricebook import workbook

    written = workbook.write_book(
        free_book_path(event, Path(given.out)),
        event,
        pictures=pictures,
        currency=settings.currency,
        paper=settings.paper,
    )
    bar.close()
    if given.json:
        lots = len(event.lots)
        print_json({"event": event.name, "lots": lots, "path": str(written)})
    else:
        print(book_text(event, written))
    print(f"written: {written}", file=sys.stderr)


def free_book_path(event: Event, folder: Path) -> Path:
    """Return where the workbook of an event goes, past any that stands there.

    Parameters
    ----------
    event : Event
        The event.
    folder : Path
        The folder.

    Returns
    -------
    Path
        `<key> book.xlsx`, or with -2, -3 ... before its ending.
    """
    stem = event.key.strip().lower().replace(" ", "-")
    return free_path(folder / f"{stem} book.xlsx")


def book_text(event: Event, written: Path) -> str:
    """Say where the workbook is and what to do with it."""
    lines = [
        f"{event.name}, {event.on.isoformat()}: {_lots(len(event.lots))}",
        f"  The workbook is {written}. Fill in its results sheet, then:",
        f'  pricebook settle EVENT "{written}"',
    ]
    if event.sales_tax is None or not event.sales_tax.is_set:
        lines.append(
            "  The sales tax is not set, so nothing is totalled and the event cannot "
            "be settled; write [sales_tax] in the event file."
        )
    late = [lot.key for lot in event.lots if not event.is_published(lot)]
    if late:
        lines.append(
            "  No fair market value is published before bidding opens for "
            f"{_named(late, len(event.lots))}: receipts will state no deductible part."
        )
    if not written.stem.endswith(" book"):
        lines.append(
            "  An earlier workbook stands there already and stays as it is; give the "
            "fundraiser one of them only."
        )
    return "\n".join(lines)


def _named(keys: Sequence[str], of: int) -> str:
    """Name some lots, or say that it is all of them."""
    if len(keys) == of:
        return "any lot"
    return f"{'lot' if len(keys) == 1 else 'lots'} {some_lots(keys, _MOST_NAMED)}"


def _lots(count: int) -> str:
    return "1 lot" if count == 1 else f"{count:,} lots"


def pictures_of(lots: Iterable[Lot], folder: Path) -> dict[str, bytes]:
    """Read the pictures that lots name.

    Parameters
    ----------
    lots : iterable of Lot
        The lots.
    folder : Path
        The event file's folder.

    Returns
    -------
    dict of str to bytes
        The pictures by the number of the lot.

    Raises
    ------
    TableError
        With a sentence for each picture that cannot be read.
    """
    named = [lot for lot in lots if lot.picture]
    found = all_of(partial(_picture, lot, folder / lot.picture) for lot in named)
    return {lot.key: picture for lot, picture in zip(named, found, strict=True)}


def _picture(lot: Lot, path: Path) -> bytes:
    from pricebook.workbook.pictures import picture_fault

    where = f"lot {lot.key}: picture {path}"
    if not path.is_file():
        raise TableError(f"{where} is not there; correct its name or leave it out.")
    try:
        if path.stat().st_size > MOST_PICTURE_BYTES:
            raise TableError(f"{where} is larger than 20 MB; make it smaller.")
        picture = path.read_bytes()
    except OSError as error:
        raise TableError(f"{where} cannot be opened: {error.strerror}.") from None
    fault = picture_fault(picture)
    if fault:
        raise TableError(f"{where} {fault}; give a whole PNG or JPEG file.")
    return picture
