"""The labour: hours and pay by operation, and every step in bench order."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pricebook.cost.lines import CostSheet
from pricebook.labour import LabourLine
from pricebook.money import exact, times
from pricebook.rates import Settings
from pricebook.workbook.cells import (
    EMPTY,
    Cell,
    a1,
    duration,
    money,
    money_formula,
    number,
    span,
    text,
)
from pricebook.workbook.page import Page

MINUTES, AMOUNT = 2, 6
_PAYS = {"paid": "paid", "given": "time given", "none": "not counted"}


@dataclass(frozen=True, slots=True)
class LabourCells:
    """Where the hours of a piece stand, as its cost sheet refers to them.

    Parameters
    ----------
    amounts : tuple of (str, int, str)
        Operation, money and address of each amount. [-, cents, -]
    overhead : tuple of (int, str)
        The overhead for all hours, and its address. [cents, -]
    """

    amounts: tuple[tuple[str, int, str], ...]
    overhead: tuple[int, str]


def write_labour(page: Page, sheets: Sequence[CostSheet]) -> tuple[LabourCells, ...]:
    """Write the hours of every piece.

    Parameters
    ----------
    page : Page
        An empty page.
    sheets : sequence of CostSheet
        The pieces.

    Returns
    -------
    tuple of LabourCells
        One a piece.
    """
    settings = sheets[0].settings
    page.title("Labour", "Change a rate and every amount that rests on it follows.")
    rates = _rates(page, settings)
    page.skip()
    heads = ("Operation", "Steps", "Minutes", "People", "Drying", "Pay", "Amount")
    page.heads((*heads, "Hours; how it was worked out"), right=(1, 2, 3, 4, AMOUNT))
    found = []
    for sheet in sheets:
        if len(sheets) > 1:
            page.line([text(sheet.piece, "large")], "group")
        found.append(_operations(page, sheet, rates))
        page.skip()
        _steps(page, sheet)
        page.skip()
    page.done(", ".join(sheet.piece for sheet in sheets) + ": labour")
    return tuple(found)


def _rates(page: Page, settings: Settings) -> dict[str, tuple[int, str]]:
    """Write the rates of an hour, and return each with its address."""
    rows = {
        "paid": ("An hour that is paid", settings.paid_cents_per_hour),
        "given": ("An hour that is given, stated value", settings.given_cents_per_hour),
        "overhead": (
            "Rent, light and machines, an hour",
            settings.overhead_cents_per_hour,
        ),
    }
    found = {}
    for key, (words, cents) in rows.items():
        row = page.line([text(words), EMPTY, money(cents, "input")])
        found[key] = (cents, a1(row, MINUTES, fixed=True))
    return found


def by_operation(lines: Sequence[LabourLine]) -> Mapping[tuple[str, str], list[int]]:
    """Return which steps belong to each operation and pay, in bench order."""
    found: dict[tuple[str, str], list[int]] = {}
    for place, line in enumerate(lines):
        found.setdefault((line.operation, line.pay), []).append(place)
    return found


def _operations(
    page: Page, sheet: CostSheet, rates: Mapping[str, tuple[int, str]]
) -> LabourCells:
    """Write a line an operation, its amount a formula of its minutes and rate."""
    lines = sheet.labour.lines
    first, amounts = page.row, []
    for (operation, pay), places in by_operation(lines).items():
        some = [lines[place] for place in places]
        minutes = sum(line.person_min for line in some)
        if not minutes:
            continue
        cents, rate = rates.get(pay, (0, "0"))
        amount = times(cents, exact(minutes) / 60)
        formula = f"{a1(page.row, MINUTES)}*{rate}/60"
        row = page.line(
            [
                text(some[0].name),
                number(len(some)),
                Cell(minutes, "number"),
                number(max(line.people for line in some)),
                duration(math.fsum(line.drying_min for line in some)),
                text(_PAYS[pay]),
                money_formula(formula, amount),
                text(f"{minutes / 60:.2f} hours"),
            ]
        )
        amounts.append((operation, amount, _at(page, row, AMOUNT)))
    return LabourCells(tuple(amounts), _totals(page, sheet, first, rates))


def _at(page: Page, row: int, column: int) -> str:
    return f"{page.own}!{a1(row, column)}"


def _totals(
    page: Page, sheet: CostSheet, first: int, rates: Mapping[str, tuple[int, str]]
) -> tuple[int, str]:
    """Write all minutes, all money of the hours, and the overhead for them."""
    last = page.row - 1
    minutes = sheet.labour.person_min
    money_of = [line.used_cents for line in sheet.lines if line.group == "labour"]
    whole = f"SUM({span(first, last, AMOUNT)})" if money_of else "0"
    all_minutes = f"=SUM({span(first, last, MINUTES)})" if money_of else "=0"
    row = page.line(
        [
            text("All operations"),
            EMPTY,
            Cell(minutes, "number", all_minutes),
            *[EMPTY] * 3,
            money_formula(whole, sum(money_of)),
            text(f"{minutes / 60:.2f} hours of everybody together"),
        ],
        "total",
    )
    cents, rate = rates["overhead"]
    overhead = times(cents, exact(minutes) / 60)
    formula = f"{a1(row, MINUTES)}*{rate}/60"
    cells = [text("Rent, light and machines"), *[EMPTY] * 5]
    below = page.line([*cells, money_formula(formula, overhead)])
    return overhead, _at(page, below, AMOUNT)


def _steps(page: Page, sheet: CostSheet) -> None:
    heads = ("Step, in bench order", "No.", "Minutes", "People", "Drying", "Pay")
    page.subheads((*heads, "", "How it was worked out"), right=(1, 2, 3, 4))
    for place, line in enumerate(sheet.labour.lines, 1):
        page.line(
            [
                text(line.name),
                number(place),
                Cell(line.person_min, "number"),
                number(line.people),
                duration(line.drying_min),
                text(_PAYS[line.pay]),
                EMPTY,
                text(line.how),
            ]
        )
