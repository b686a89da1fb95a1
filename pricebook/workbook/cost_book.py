"""The workbook of `price`: what pieces cost, how they are cut, what to ask."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pricebook.cost.lines import CostSheet
from pricebook.cost.shop import Shop
from pricebook.errors import ReportError
from pricebook.price import Advice
from pricebook.veneer.layout import Layout
from pricebook.veneer.leaf_match import LeafPlan
from pricebook.workbook.advice_pages import write_cautions, write_prices
from pricebook.workbook.book import Book, foot, workbook_path
from pricebook.workbook.cost_page import write_cost
from pricebook.workbook.finish_page import write_finish
from pricebook.workbook.labour_page import write_labour
from pricebook.workbook.layout_page import write_layouts
from pricebook.workbook.page import Page
from pricebook.workbook.sources_page import write_sources
from pricebook.workbook.styles import WIDTHS
from pricebook.workbook.summary_page import write_summary
from pricebook.workbook.takeoff_page import write_takeoff


def write_workbook(
    path: Path | str,
    sheets: CostSheet | Sequence[CostSheet],
    *,
    advice: Advice | Sequence[Advice | None] = (),
    pictures: Sequence[bytes] = (),
    shop: Shop | None = None,
    version: str | None = None,
) -> Path:
    """Write the cost workbook of a piece, or of a batch.

    Parameters
    ----------
    path : Path or str
        Where it shall stand; what stands there is replaced.
    sheets : CostSheet or sequence of CostSheet
        One a piece.
    advice : Advice or sequence of Advice or None
        One a piece, or none at all.
    pictures : sequence of bytes
        PNG pictures of the layout: one a sheet of veneer, one for all, or none.
    shop : Shop or None
        The price book, for prices, packs and days on the sheet of sources.
    version : str, optional
        The package's version at the foot of every page; its own if left out.

    Returns
    -------
    Path
        The path.

    Raises
    ------
    ReportError
        If there is nothing to write, advice or pictures are of another number, a
        text cannot stand in a cell, or the file cannot be written.

    Notes
    -----
    Every formula carries the value that the package computed, so that a program
    that does not recalculate shows it too. Text that a person typed is never a
    formula. The same values make the same file, byte for byte.

    Examples
    --------
    >>> write_workbook("cost.xlsx", [])
    Traceback (most recent call last):
        ...
    pricebook.errors.ReportError: no cost sheet is given; price at least one piece.
    """
    sheets = (sheets,) if isinstance(sheets, CostSheet) else tuple(sheets)
    given = (advice,) if isinstance(advice, Advice) else tuple(advice)
    file = workbook_path(path)
    _refuse(sheets, given)
    names = [sheet.piece for sheet in sheets]
    book = Book(
        f"Cost of {', '.join(names)}",
        currency=sheets[0].settings.currency,
        paper=sheets[0].settings.paper,
        on=sheets[0].on,
        foot=_foot(sheets[0], version),
    )
    batch = len(sheets) > 1
    summary = [book.page("Summary", WIDTHS["Summary"])] if batch else []
    costs = _cost_pages(book, names)
    layout, takeoff, labour = (
        book.page(name, WIDTHS[name]) for name in ("Layout", "Take-off", "Labour")
    )
    hours = write_labour(labour, sheets)
    totals = [
        write_cost(page, sheet, cells)
        for page, sheet, cells in zip(costs, sheets, hours, strict=True)
    ]
    for page in summary:
        write_summary(page, sheets, totals)
    settings, leaves = sheets[0].settings, _leaves(sheets)
    write_layouts(layout, _layouts(sheets), pictures, settings, leaves)
    write_takeoff(takeoff, sheets)
    if any(sheet.finish for sheet in sheets):
        write_finish(book.page("Finish", WIDTHS["Finish"]), sheets)
    if given:
        write_prices(book.page("Price", WIDTHS["Price"]), sheets, given)
    write_cautions(book.page("Cautions", WIDTHS["Cautions"]), sheets)
    write_sources(book.page("Sources", WIDTHS["Sources"]), sheets, shop)
    return book.save(file)


def _refuse(sheets: Sequence[CostSheet], advice: Sequence[Advice | None]) -> None:
    if not sheets:
        raise ReportError("no cost sheet is given; price at least one piece.")
    strange = [one for one in sheets if not isinstance(one, CostSheet)]
    if strange:
        raise ReportError(f"{strange[0]!r} is no cost sheet; price the piece first.")
    if advice and len(advice) != len(sheets):
        raise ReportError(
            f"{len(advice)} advices are given for {len(sheets)} pieces; give one a "
            "piece, or none."
        )


def _foot(sheet: CostSheet, version: str | None) -> str:
    return f"{foot(sheet.settings.shop, version)}, prices as of {sheet.on}"


def _cost_pages(book: Book, names: Sequence[str]) -> list[Page]:
    if len(names) == 1:
        return [book.page("Cost", WIDTHS["Cost"])]
    return [book.page(f"Cost {name}", WIDTHS["Cost"]) for name in names]


def _leaves(sheets: Sequence[CostSheet]) -> list[LeafPlan]:
    """Return each plan of raw leaves once."""
    found: list[LeafPlan] = []
    for sheet in sheets:
        found += [plan for plan in sheet.leaves if plan not in found]
    return found


def _layouts(sheets: Sequence[CostSheet]) -> list[tuple[str, Layout]]:
    """Return each layout once, with the pieces that share it."""
    found: list[tuple[str, Layout]] = []
    for sheet in sheets:
        for place, (whose, layout) in enumerate(found):
            if layout is sheet.layout or layout == sheet.layout:
                found[place] = (f"{whose}, {sheet.piece}", layout)
                break
        else:
            found.append((sheet.piece, sheet.layout))
    return found
