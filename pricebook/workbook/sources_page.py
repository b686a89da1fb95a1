"""Where every figure is from: prices, minutes, allowances, cautions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from pricebook.cautions.notes import CUSTOM
from pricebook.cost.lines import CostLine, CostSheet
from pricebook.cost.shop import Shop
from pricebook.lengths import show
from pricebook.rates import Leaves, Material, Roll, Row, Sheet
from pricebook.workbook.cells import EMPTY, Cell, day, money, number, text
from pricebook.workbook.page import Page


def write_sources(page: Page, sheets: Sequence[CostSheet], shop: Shop | None) -> None:
    """Write the row of the price book behind every line, with its price and day.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.
    shop : Shop or None
        The price book; without it only sheets, rolls and the lines' own words.
    """
    settings, on = sheets[0].settings, sheets[0].on
    page.title(
        "Sources",
        f"Prices as of {on}; one older than {settings.price_age_days} days is named.",
    )
    heads = (
        "Row of the price book",
        "What it is",
        "Pack",
        "Price",
        "Dated",
        "Days old",
    )
    page.heads((*heads, "Source"), right=(3, 5))
    lines = [line for sheet in sheets for line in sheet.lines]
    rows = _rows(sheets, shop)
    old = {row.key for sheet in sheets for row in sheet.old_rows}
    for key, line in _keyed(lines).items():
        _price(page, key, line, rows.get(key, ()), on, old)
    if shop is not None:
        _figures(page, shop, lines)
    _published(page, sheets)
    page.done(", ".join(sheet.piece for sheet in sheets) + ": sources")


def _keyed(lines: Iterable[CostLine]) -> dict[str, CostLine]:
    """Return the first line of each row of the price book, and those without one."""
    found: dict[str, CostLine] = {}
    for line in lines:
        if line.group != "labour":
            found.setdefault(line.key or f"({line.item})", line)
    return found


def _rows(sheets: Sequence[CostSheet], shop: Shop | None) -> dict[str, tuple[Row, ...]]:
    found: dict[str, tuple[Row, ...]] = {}
    for sheet in sheets:
        for plan in sheet.layout.sheets:
            found[plan.sheet.key] = (plan.sheet,)
        for roll in sheet.banding.rolls if sheet.banding else ():
            found[roll.roll.key] = (roll.roll,)
    if shop is not None:
        rows: list[Row] = [*shop.materials, *shop.flitches]
        for row in rows:
            found.setdefault(row.key, (row,))
    return found


def _price(
    page: Page,
    key: str,
    line: CostLine,
    rows: Sequence[Row],
    on: date,
    old: set[str],
) -> None:
    """Write a row of the price book, a line a pack."""
    if not rows:
        page.line([text(key), text(line.item), *[EMPTY] * 4, text(line.source)])
    for row in rows:
        for pack, cents in _packs(row):
            late = "PAST THE AGE LIMIT; " if key in old else ""
            page.line(
                [
                    text(key),
                    text(line.item),
                    text(pack),
                    money(cents),
                    day(row.dated),
                    number(row.age_days(on)),
                    text(f"{late}{row.source}"),
                ]
            )


def _packs(row: Row) -> Iterator[tuple[str, int]]:
    if isinstance(row, Sheet):
        rack = row.on_hand and not row.to_buy
        yield "sheet", row.value_cents if rack else row.price_cents
    elif isinstance(row, Roll):
        yield "roll", row.price_cents if row.to_buy else row.value_cents
    elif isinstance(row, Leaves):
        words = "leaf" if row.bundle == 1 else f"bundle of {row.bundle} leaves"
        yield words, row.price_cents
    elif isinstance(row, Material):
        for pack in row.packs:
            least = f", from {pack.from_packs}" if pack.from_packs > 1 else ""
            yield f"{pack.quantity:g} {row.unit}{least}", pack.price_cents


def _figures(page: Page, shop: Shop, lines: Iterable[CostLine]) -> None:
    """Write the minutes that were used, and the shop's allowances."""
    page.skip()
    heads = ("Minutes", "What it is", "Set-up, and for each", "Minutes", "Dated", "")
    page.subheads((*heads, "Source"), right=(3,))
    used = {line.key for line in lines if line.group == "labour"}
    for row in shop.minutes:
        if row.key in used:
            each = f"{row.setup_min:g} min, and for each {row.unit}"
            cells = [text(row.key), text(row.name), text(each), number(row.rate_min)]
            page.line([*cells, day(row.dated), EMPTY, text(row.source)])
    page.skip()
    page.subheads(
        ("Allowance", "What it is", "Counted in", "Figure", "Dated", "", "Source"),
        right=(3,),
    )
    for allowance in shop.allowances:
        figure = _figure(allowance.value, allowance.unit, shop.settings.lengths)
        cells = [text(allowance.key), text(allowance.note), *figure]
        page.line([*cells, day(allowance.dated), EMPTY, text(allowance.source)])


def _figure(value: float, unit: str, lengths: str) -> list[Cell]:
    """Return a figure's unit and number; a length in the reader's own."""
    if unit == "mm":
        return [text("length"), text(show(value, lengths), "right")]
    return [text(unit), number(value)]


def _published(page: Page, sheets: Sequence[CostSheet]) -> None:
    """Write which published sources the cautions and the finish rest on."""
    keys = {caution.source for sheet in sheets for caution in sheet.cautions}
    page.skip()
    page.subheads(("Published source", "Row of SOURCES.csv behind"))
    for key in sorted(keys - {CUSTOM}):
        page.line([text(key), text("a caution")])
    systems = {s.finish.system.key: s.finish.system for s in sheets if s.finish}
    for key, system in systems.items():
        cells = [text(key), text(f"the finish: {system.name}"), EMPTY, EMPTY]
        page.line([*cells, day(system.dated), EMPTY, text(system.source)])
