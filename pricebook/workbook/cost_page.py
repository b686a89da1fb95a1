"""The cost sheet of one piece: lines by group, totals by basis, what to know."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from pricebook.cost.lines import GIFT, PAID, TIME, CostLine, CostSheet
from pricebook.cost.printing import in_readers_unit
from pricebook.workbook.cells import (
    EMPTY,
    Cell,
    a1,
    added,
    money,
    money_formula,
    money_or_blank,
    number,
    span,
    text,
)
from pricebook.workbook.labour_page import LabourCells
from pricebook.workbook.live import BUY, USED, Live
from pricebook.workbook.page import Page

HEADS = (
    "Item",
    "Quantity",
    "Unit",
    "Packs to buy",
    "To buy",
    "Used up",
    "Basis",
    "Left over",
    "Worth",
    "How it was worked out",
    "Source of the price",
)
BASIS, WORTH = 6, 8
_RIGHT = (1, BUY, USED, WORTH)


@dataclass(frozen=True, slots=True)
class Totals:
    """Where the totals of a cost sheet stand, as other sheets refer to them.

    Parameters
    ----------
    sheet : str
        Name of the sheet.
    cells : dict of str to str
        Address of each total, by its key of the totals.
    """

    sheet: str
    cells: dict[str, str]


def write_cost(page: Page, sheet: CostSheet, hours: LabourCells) -> Totals:
    """Write one cost sheet.

    Parameters
    ----------
    page : Page
        An empty page.
    sheet : CostSheet
        What to write.
    hours : LabourCells
        Where its hours stand.

    Returns
    -------
    Totals
        Where its totals stand.
    """
    page.title(sheet.piece, _under(sheet))
    page.heads(HEADS, _RIGHT)
    first = page.row
    live = Live(sheet, hours)
    heads: dict[str, int] = {}
    for name, lines in groupby(sheet.lines, key=lambda line: line.group):
        heads[name] = page.row
        _group(page, name, tuple(lines), live)
        live.heads = heads
    last = max(first, page.row - 1)
    page.skip()
    cells = _totals(page, sheet, list(heads.values()), first, last)
    _remarks(page, sheet)
    page.done(f"{sheet.piece}: cost")
    return Totals(page.name, cells)


def _under(sheet: CostSheet) -> str:
    shop = sheet.settings.shop
    words = f"Cost sheet of {shop}, prices as of {sheet.on}."
    words += f" {sheet.hours:.1f} hours at the bench."
    if sheet.mass_kg:
        pounds = f" ({sheet.mass_kg / _KG:.0f} lb)"
        shown = pounds if sheet.settings.lengths == "in" else ""
        words += f" Panels weigh {sheet.mass_kg:.0f} kg{shown}."
    return words


_KG = 0.45359237
"""Kilograms in a pound, exact by definition."""


def _group(page: Page, name: str, lines: Sequence[CostLine], live: Live) -> None:
    """Write a heading with the sums of its lines, and the lines."""
    first, last = page.row + 1, page.row + len(lines)
    sums = {
        BUY: sum(line.bought_cents for line in lines),
        USED: sum(line.used_cents for line in lines),
        WORTH: sum(line.left_cents for line in lines),
    }
    cells = [text(name.capitalize())] + [EMPTY] * (len(HEADS) - 1)
    for column, cents in sums.items():
        cells[column] = money_formula(f"SUM({span(first, last, column)})", cents)
    page.line(cells, "group")
    for line in lines:
        formula = live.formula(line, page.row)
        page.line(_cells(line, formula, live.sheet.settings.lengths))


def _cells(line: CostLine, formula: str, lengths: str) -> list[Cell]:
    quantity, unit = in_readers_unit(line.quantity, line.unit, lengths)
    bought, used = money_or_blank(line.bought_cents), money(line.used_cents)
    if formula:
        used = money_formula(formula, line.used_cents)
        if line.bought_cents:
            bought = money_formula(formula, line.bought_cents)
    return [
        text(line.item),
        number(quantity),
        text(unit),
        text(line.packs),
        bought,
        used,
        text(line.basis),
        text(line.left),
        money_or_blank(line.left_cents),
        text(line.how, "text inset"),
        text(line.source),
    ]


_BASES = (
    ("used_up", "Used up", PAID, "paid for, pro rata"),
    ("gifts_in_kind", "Gifts in kind", GIFT, "at the values stated by those who gave"),
    (
        "time_given",
        "Time given",
        TIME,
        "for the board's story only: never deductible, never on the public return",
    ),
)


def _totals(
    page: Page, sheet: CostSheet, heads: Sequence[int], first: int, last: int
) -> dict[str, str]:
    """Write the totals by basis, each a formula, and the check that they foot."""
    at: dict[str, str] = {}

    def total(key: str, words: str, formula: str, why: str, look: str = "") -> None:
        cents = getattr(sheet, f"{key}_cents")
        cells = [text(words), *[EMPTY] * 4, money_formula(formula, cents), EMPTY]
        row = page.line([*cells, text(why, "")], look)
        at[key] = a1(row, USED)

    page.line([text("Totals")], "head")
    whole_packs = "whole packs, less what is on hand"
    total("cash_to_buy", "Cash to buy", added(heads, BUY), whole_packs)
    beyond = "worth of what the packs hold beyond this piece"
    total("left", "Left over as stock", added(heads, WORTH), beyond)
    used, basis = span(first, last, USED), span(first, last, BASIS)
    for key, words, name, why in _BASES:
        total(key, words, f'SUMIF({basis},"{name}",{used})', why)
    three = "+".join(at[key] for key, *_ in _BASES)
    of_what = "used up, gifts in kind and time given"
    total("full_cost", "Full cost", three, of_what, "result")
    _foots(page, added(heads, USED), at["full_cost"], sheet)
    return at


def _foots(page: Page, lines: str, full: str, sheet: CostSheet) -> None:
    whole = sum(line.used_cents for line in sheet.lines)
    verdict = "PASS" if whole == sheet.full_cost_cents else "FAIL"
    formula = f'=IF(ROUND({lines}-{full},2)=0,"PASS","FAIL")'
    cells = [text("The lines foot"), *[EMPTY] * 4, Cell(verdict, "check", formula)]
    words = text("all lines together are the full cost", "")
    page.line([*cells, EMPTY, words], "level", points=21)


def _remarks(page: Page, sheet: CostSheet) -> None:
    remarks = [*sheet.notes]
    for row in sheet.old_rows:
        remarks.append(
            f"The price of {row.key} is of {row.dated}, {row.age_days(sheet.on)} days "
            f"old, past the shop's limit of {sheet.settings.price_age_days} days; "
            "check it before buying."
        )
    if not remarks:
        return
    page.skip()
    page.line([text("To know")], "head")
    for remark in remarks:
        page.note(remark)
