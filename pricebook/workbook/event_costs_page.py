"""What the lots and the evening cost, and what came in beside the lots."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pricebook.event import Event
from pricebook.workbook.cells import (
    EMPTY,
    Cell,
    a1,
    money,
    money_formula,
    number,
    span,
    text,
)
from pricebook.workbook.page import Page

CASH, USED, GIFTS, TIME, FULL, HOURS, REPAY = range(2, 9)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostCells:
    """Where the costs stand, as other sheets refer to them.

    Parameters
    ----------
    documented : callable
        Address of a lot's documented cost, by its place from 1.
    costs, tickets, money_gifts : str
        Address of each sum of the evening.
    """

    documented: Callable[[int], str]
    costs: str
    tickets: str
    money_gifts: str


def write_event_costs(page: Page, event: Event) -> CostCells:
    """Write the costs of the lots and of the evening, tickets and gifts.

    Parameters
    ----------
    page : Page
        An empty page.
    event : Event
        The event.

    Returns
    -------
    CostCells
        Where the sums stand.
    """
    page.title(
        "Costs",
        "Cash, gifts in kind and time given stand apart; hours are never deductible.",
    )
    first = _lots(page, event)
    page.skip()
    costs = _costs(page, event)
    page.skip()
    tickets = _tickets(page, event)
    page.skip()
    gifts = _gifts(page, event)
    page.done(f"{event.name}: costs", one=True)
    own = page.own
    return CostCells(
        documented=lambda place: f"{own}!{a1(first + place - 1, REPAY, fixed=True)}",
        costs=f"{own}!{costs}",
        tickets=f"{own}!{tickets}",
        money_gifts=f"{own}!{gifts}",
    )


def _lots(page: Page, event: Event) -> int:
    """Write a line a lot, and return the row of the first."""
    heads = ("Lot", "Title", "Cash spent", "Used up", "Gifts in kind", "Time given")
    more = ("Full cost", "Hours", "Documented, to repay")
    page.heads((*heads, *more), range(CASH, REPAY + 1))
    first = page.row
    sums = dict.fromkeys((CASH, USED, GIFTS, TIME, FULL, REPAY), 0)
    for lot in event.lots:
        row, cost = page.row, lot.cost
        cells = [text(lot.key, "bold"), text(lot.title)]
        if cost is None:
            cells += [EMPTY] * (REPAY - CASH)
        else:
            parts = (cost.cash_spent_cents, cost.used_up_cents, cost.gifts_cents)
            three = f"SUM({a1(row, USED)}:{a1(row, TIME)})"
            cells += [*(money(cents) for cents in parts), money(cost.time_cents)]
            cells += [money_formula(three, cost.full_cents), Cell(cost.hours, "number")]
            whole = (*parts, cost.time_cents, cost.full_cents)
            for column, cents in zip(range(CASH, HOURS), whole, strict=True):
                sums[column] += cents
        sums[REPAY] += lot.repay_cents
        page.line([*cells, money(lot.repay_cents)])
    total: list[Cell] = [EMPTY, text("All lots", ""), *[EMPTY] * (REPAY - 1)]
    for column, cents in sums.items():
        total[column] = money_formula(
            f"SUM({span(first, page.row - 1, column)})", cents
        )
    page.line(total, "result")
    return first


def _sum(page: Page, words: str, first: int, cents: int) -> str:
    """Write the sum of the rows above, and return where it stands."""
    rows = page.row - first
    formula = f"SUM({span(first, page.row - 1, CASH)})" if rows else "0"
    row = page.line([EMPTY, text(words, ""), money_formula(formula, cents)], "total")
    return a1(row, CASH, fixed=True)


def _costs(page: Page, event: Event) -> str:
    page.subheads(("Lot", "Cost of the evening, paid", "Amount", "Line"), (CASH,))
    first = page.row
    for cost in event.costs:
        line = text(cost.line)
        page.line([text(cost.lot), text(cost.item), money(cost.amount_cents), line])
    return _sum(page, "All costs", first, sum(c.amount_cents for c in event.costs))


def _tickets(page: Page, event: Event) -> str:
    heads = ("", "Tickets", "Paid", "Price", "Worth to a guest", "Guests")
    page.subheads(heads, range(CASH, 6))
    first = page.row
    for ticket in event.tickets:
        row = page.row
        paid = f"{a1(row, CASH + 1)}*{a1(row, CASH + 3)}"
        page.line(
            [
                EMPTY,
                text(ticket.item),
                money_formula(paid, ticket.cash_cents),
                money(ticket.price_cents),
                money(ticket.value_cents),
                number(ticket.count),
            ]
        )
    return _sum(page, "All tickets", first, sum(t.cash_cents for t in event.tickets))


def _gifts(page: Page, event: Event) -> str:
    """Write gifts of money with their sum, then gifts in kind with theirs."""
    at = ""
    for kind, words in (("in kind", "Gift in kind, stated value"), ("cash", "Gift")):
        page.subheads(("", words, "Amount", "Given by"), (CASH,))
        first = page.row
        some = [gift for gift in event.gifts if gift.kind == kind]
        for gift in some:
            page.line([EMPTY, text(gift.item), money(gift.value_cents), text(gift.by)])
        name = "All gifts in kind" if kind == "in kind" else "All gifts of money"
        at = _sum(page, name, first, sum(gift.value_cents for gift in some))
    return at
