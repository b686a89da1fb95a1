"""Control totals: each figure found by two ways, PASS when both agree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pricebook.workbook.cells import Cell, a1, money_formula, text
from pricebook.workbook.event_costs_page import CostCells
from pricebook.workbook.event_values import BookValues
from pricebook.workbook.page import Page
from pricebook.workbook.results_page import ResultCells
from pricebook.workbook.split_columns import STATE, UNSET, SplitCells
from pricebook.workbook.split_page import column_sums

LEFT, RIGHT, VERDICT = 2, 4, 5


@dataclass(frozen=True, slots=True, kw_only=True)
class BookControl:
    """One figure found by two ways, as formulas and as the values they come to.

    Parameters
    ----------
    name : str
        What must hold.
    left_words, right_words : str
        How each side was found.
    left_formula, right_formula : str
        Each side as a formula.
    left, right : int or None
        The two sides; None for one that is not known yet. [cents, or a count]
    is_money : bool
        Whether they are cents.
    """

    name: str
    left_words: str
    left_formula: str
    left: int
    right_words: str
    right_formula: str
    right: int | None
    is_money: bool = True

    @property
    def verdict(self) -> str:
        """PASS or FAIL, or that one side was not counted."""
        if self.right is None:
            return "not counted"
        return "PASS" if self.left == self.right else "FAIL"


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where everything stands that the controls compare."""

    results: ResultCells
    split: SplitCells
    costs: CostCells
    counted: Mapping[str, str]


def write_controls(page: Page, values: BookValues, places: Places) -> None:
    """Write the control totals, and the net of the evening.

    Parameters
    ----------
    page : Page
        An empty page.
    values : BookValues
        The lots, and what is known of them.
    places : Places
        Where it all stands.
    """
    event = values.event
    page.title("Control totals", f"{event.name}, {event.on}.")
    page.note(
        "Each figure is found by two ways. While one line says FAIL, the report to the "
        "board has no clean bill."
    )
    page.skip()
    page.heads(
        ("What must hold", "One way", "", "Another way", "", "Verdict"), (LEFT, RIGHT)
    )
    found = [*_lot_controls(values, places)]
    if values.can_total:
        found += [*_money_controls(values, places), *_counted(values, places)]
    for control in found:
        _line(page, control)
    page.skip()
    if values.can_total:
        _net(page, values, places)
    else:
        page.note(UNSET, "bold text")
    page.sheet.protect("", {"format_columns": True, "format_rows": True})
    page.done(f"{event.name}: control totals")


def _line(page: Page, control: BookControl) -> None:
    look = "money" if control.is_money else "whole"
    per = 100 if control.is_money else 1
    left, right = a1(page.row, LEFT), a1(page.row, RIGHT)
    other = "" if control.right is None else control.right / per
    same = f'IF(ROUND({left}-{right},2)=0,"PASS","FAIL")'
    page.line(
        [
            text(control.name),
            text(control.left_words),
            Cell(control.left / per, look, f"={control.left_formula}"),
            text(control.right_words),
            Cell(other, look, f"={control.right_formula}"),
            Cell(control.verdict, "check", f'=IF({right}="","not counted",{same})'),
        ]
    )


def _lot_controls(values: BookValues, places: Places) -> Iterator[BookControl]:
    split, lots = places.split, len(values.lots)
    done = sum(one.result is not None for one in values.lots)
    yield BookControl(
        name="every lot has a result, whole and possible",
        left_words="lots in the catalogue",
        left_formula=f"ROWS({split.whole(0)})",
        left=lots,
        right_words="rows of the results that say ok",
        right_formula=f'COUNTIF({places.results.checks},"ok")',
        right=done,
        is_money=False,
    )
    yield BookControl(
        name="no lot of the catalogue is lost from the results",
        left_words="lots in the catalogue",
        left_formula=f"ROWS({split.whole(0)})",
        left=lots,
        right_words="found among the results",
        right_formula=f"COUNT({split.whole(split.columns.row)})",
        right=lots,
        is_money=False,
    )


def _money_controls(values: BookValues, places: Places) -> Iterator[BookControl]:
    split, columns = places.split, places.split.columns
    sold = sum(one.is_sold for one in values.lots)
    yield BookControl(
        name="every lot's split foots",
        left_words="lots sold",
        left_formula=f'COUNTIF({split.whole(STATE)},"sold")',
        left=sold,
        right_words="whose parts make what was charged",
        right_formula=f'COUNTIF({split.whole(columns.foots)},"PASS")',
        right=sold,
        is_money=False,
    )
    sums = column_sums(values, columns, paid=False)
    charged = sums[columns.charged]
    claims = [columns.tax, *columns.claims.values()]
    yield BookControl(
        name="the parts make what was charged",
        left_words="charged for lots sold",
        left_formula=split.total(columns.charged),
        left=charged,
        right_words="sales tax and every payee",
        right_formula=f"ROUND({'+'.join(split.total(c) for c in claims)},2)",
        right=sum(sums[column] for column in claims),
    )
    got = _received(values)
    by_method = "+".join(_of_method(split, method) for method in got)
    yield BookControl(
        name="charged is paid or owed",
        left_words="charged for lots sold",
        left_formula=split.total(columns.charged),
        left=charged,
        right_words="cash, cheques, cards and owed",
        right_formula=f"ROUND({by_method}+{split.total(columns.owed)},2)",
        right=sum(got.values()) + sums[columns.owed],
    )


def _received(values: BookValues) -> dict[str, int]:
    got = {"cash": 0, "cheque": 0, "card": 0}
    for one in values.lots:
        if one.settled and one.settled.received_cents:
            got[one.settled.result.method] += one.settled.received_cents
    return got


def _of_method(split: SplitCells, method: str) -> str:
    columns = split.columns
    methods, received = split.whole(columns.method), split.whole(columns.received)
    return f'SUMIF({methods},"{method}",{received})'


def _counted(values: BookValues, places: Places) -> Iterator[BookControl]:
    """Compare what the lots say with what was counted; empty is not counted."""
    got, counted, at = _received(values), values.counted, places.counted
    for word, method, field in (
        ("cash", "cash", "cash_cents"),
        ("cheques", "cheque", "cheque_cents"),
    ):
        cell = at[field]
        yield BookControl(
            name=f"{word} by the lots and as counted",
            left_words="by the lots",
            left_formula=f"ROUND({_of_method(places.split, method)},2)",
            left=got[method],
            right_words="counted apart from them",
            right_formula=f'IF({cell}="","",{cell})',
            right=getattr(counted, field),
        )
    deposit, fees = at["card_deposit_cents"], at["card_fees_cents"]
    sides = (counted.card_deposit_cents, counted.card_fees_cents)
    whole = None if None in sides else sum(side or 0 for side in sides)
    yield BookControl(
        name="cards by the lots and at the bank",
        left_words="by the lots",
        left_formula=f"ROUND({_of_method(places.split, 'card')},2)",
        left=got["card"],
        right_words="deposited, and kept back as fees",
        right_formula=f'IF(OR({deposit}="",{fees}=""),"",ROUND({deposit}+{fees},2))',
        right=whole,
    )


def _net(page: Page, values: BookValues, places: Places) -> None:
    """Write cash raised, cash spent and the net, of lots paid in full."""
    event, costs, columns = values.event, places.costs, places.split.columns
    sums = column_sums(values, columns, paid=True)
    mine, others = sums[columns.mine], sums[columns.others]
    to_us, to_others = (
        places.split.paid(columns.mine),
        places.split.paid(columns.others),
    )
    tickets = sum(ticket.cash_cents for ticket in event.tickets)
    gifts = sum(gift.value_cents for gift in event.gifts if gift.kind == "cash")
    spent = sum(cost.amount_cents for cost in event.costs)
    rows = (
        (
            "Cash raised",
            "paid lots without sales tax and others' premium, tickets, gifts of money",
            f"{to_us}+{to_others}+{costs.tickets}+{costs.money_gifts}",
            mine + others + tickets + gifts,
        ),
        (
            "Cash spent",
            "paid out of the lots, and the costs of the evening",
            f"{to_others}+{costs.costs}",
            others + spent,
        ),
        (
            "Net of the evening",
            "the charity's part of paid lots, tickets and gifts, less costs",
            f"{to_us}+{costs.tickets}+{costs.money_gifts}-{costs.costs}",
            mine + tickets + gifts - spent,
        ),
    )
    page.line([text("So far")], "head")
    for words, why, formula, cents in rows:
        page.line([text(words, "bold"), text(why), money_formula(formula, cents)])
    page.note(
        "Card fees are reckoned a payment a lot; those that were charged take their "
        "place, to the cent, when the evening is settled."
    )
