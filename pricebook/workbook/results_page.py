"""The results sheet: what the fundraiser fills in, checked as it is typed."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.event import METHODS, STATES, Result
from pricebook.event.book import COLUMNS, EVENT_KEY_LABEL, HEADS, NO, TOTAL, YES
from pricebook.workbook.cells import EMPTY, Cell, a1, money, span, text
from pricebook.workbook.event_values import BookLot, BookValues
from pricebook.workbook.page import Page
from pricebook.workbook.split_columns import HAMMER, SplitCells

PLACES = {column.name: place for place, column in enumerate(COLUMNS)}
"""Where each column of the contract stands, from the left."""

CHECK, CHARGED = len(COLUMNS), len(COLUMNS) + 1
_MORE = ("Check", "To collect")
_RIGHT = tuple(PLACES[name] for name in ("opening", "reserve", "hammer"))
MOST_UNITS = 9_999_999


@dataclass(frozen=True, slots=True)
class ResultCells:
    """Where the results stand, as other sheets refer to them.

    Parameters
    ----------
    sheet : str
        Name of the sheet as formulas write it.
    first, last : int
        Rows of the first and the last lot, from 0.
    """

    sheet: str
    first: int
    last: int

    def column(self, name: str) -> str:
        """Return a whole column of the results, fixed."""
        return self.at(PLACES[name])

    @property
    def checks(self) -> str:
        """The column of checks."""
        return self.at(CHECK)

    def at(self, place: int) -> str:
        """Return the rows of all lots in a column."""
        ends = (a1(row, place, fixed=True) for row in (self.first, self.last))
        return f"{self.sheet}!{':'.join(ends)}"


def place_results(page: Page, values: BookValues) -> ResultCells:
    """Say where the results will stand, before they are written."""
    first = _FIRST_ROW
    return ResultCells(page.own, first, first + len(values.lots) - 1)


_FIRST_ROW = 8
"""Title, how to fill in, event key, and heads stand above. [rows]"""

_HOW = (
    "Fill in the boxed cells only: state sold, passed, withdrawn or void (a price "
    "alone means sold); the paddle, never a name; paid yes or no, or the part "
    "that was paid. A price below the opening bid or the reserve needs a note. The "
    "column Check says what is still missing."
)


def write_results(page: Page, values: BookValues, split: SplitCells) -> ResultCells:
    """Write the results sheet.

    Parameters
    ----------
    page : Page
        An empty page.
    values : BookValues
        The lots, and what is known of them.
    split : SplitCells
        Where the split stands.

    Returns
    -------
    ResultCells
        Where the results stand.
    """
    event, charged = values.event, ""
    if values.can_total:
        rows = split.whole(split.columns.charged)
        charged = f'IFERROR(INDEX({rows},MATCH({{}},{split.whole(0)},0)),"")'
    page.title("Results", f"{event.name}, {event.on}.")
    page.note(_HOW)
    page.line([text(EVENT_KEY_LABEL, "bold"), text(event.key, "bold")])
    page.skip(_FIRST_ROW - 1 - page.row)
    heads = (*(column.head for column in COLUMNS), *_MORE)
    page.heads(heads, (*_RIGHT, CHARGED))
    assert page.row == _FIRST_ROW
    for one in values.lots:
        page.line(_row(one, page.row, charged), "level", points=20)
    cells = place_results(page, values)
    _total(page, values, split.total(HAMMER), charged)
    _limits(page, values, cells)
    page.sheet.protect("", _ALLOWED)
    page.done(f"{event.name}: results")
    return cells


_ALLOWED = {
    "format_cells": True,
    "format_columns": True,
    "format_rows": True,
    "insert_rows": True,
    "sort": True,
}
"""What a locked sheet still lets people do."""


def _row(one: BookLot, row: int, charged: str) -> list[Cell]:
    lot = one.lot
    cells = [
        text(lot.key, "bold"),
        text(lot.title),
        money(lot.opening_cents),
        EMPTY if lot.reserve_cents is None else money(lot.reserve_cents),
        *_inputs(one.result),
        Cell(_checked(one.result), "check", f"={check_formula(row)}"),
    ]
    if charged:
        due = one.settled.charged_cents if one.settled else 0
        formula = f"={charged.format(a1(row, 0))}"
        cells.append(Cell(due / 100 if one.is_sold else "", "money", formula))
    return cells


def _inputs(result: Result | None) -> list[Cell]:
    """Return the cells to fill in, with what is known already."""
    hammer = result.hammer_cents if result else None
    filled = {
        "state": result.state if result else None,
        "paddle": result.paddle or None if result else None,
        "method": result.method or None if result else None,
        "initials": result.initials or None if result else None,
        "note": result.note or None if result else None,
    }
    cells = {name: Cell(value, "text input") for name, value in filled.items()}
    price = None if hammer is None else hammer / 100
    cells["hammer"] = Cell(price, "money input")
    cells["paid"] = _paid(result)
    on = result.on if result else None
    cells["on"] = Cell(on, "day input")
    return [cells[column.name] for column in COLUMNS if column.is_input]


def _paid(result: Result | None) -> Cell:
    if result is None or not result.is_hammered:
        return Cell(None, "money input")
    if result.amount_cents is not None:
        return money(result.amount_cents, "input")
    return Cell(YES if result.paid else NO, "money input")


def _checked(result: Result | None) -> str:
    """Return what the check of a row says; a result that is known is whole."""
    return "open" if result is None else "ok"


def check_formula(row: int) -> str:
    """Return the check of one row: open, ok, or what is missing.

    Parameters
    ----------
    row : int
        The row, from 0.

    Returns
    -------
    str
        A formula that looks at cells of this row alone, so that rows may be sorted.
    """
    at = {name: a1(row, place) for name, place in PLACES.items()}
    state = f"TRIM({at['state']})"
    known = ",".join(f'{state}="{word}"' for word in STATES)
    rest = f"{at['hammer']}:{at['method']}"
    void = ",".join(f'{at[name]}=""' for name in ("on", "initials", "note"))
    least = f"MAX({at['opening']},{at['reserve']})"
    steps = (
        (f'AND({at["state"]}="",{at["hammer"]}="")', '"open"'),
        (f'AND({at["state"]}<>"",NOT(OR({known})))', '"which state?"'),
        (
            f'OR({state}="passed",{state}="withdrawn")',
            f'IF(COUNTA({rest})=0,"ok","not sold, yet filled in")',
        ),
        (f"NOT(ISNUMBER({at['hammer']}))", '"hammer price?"'),
        (
            f"OR({at['hammer']}<=0,ROUND({at['hammer']},2)<>{at['hammer']})",
            '"hammer price?"',
        ),
        (f'AND({at["hammer"]}<{least},{at["note"]}="")', '"low price: note?"'),
        (f'{at["paddle"]}=""', '"paddle?"'),
        (f'AND({at["method"]}<>"",{at["paid"]}="",{state}<>"void")', '"paid?"'),
        (
            f'AND({at["paid"]}<>"",{at["paid"]}<>"{NO}",{at["method"]}="")',
            '"how paid?"',
        ),
        (f'AND({state}="void",OR({void}))', '"date, initials, reason?"'),
    )
    formula = '"ok"'
    for condition, answer in reversed(steps):
        formula = f"IF({condition},{answer},{formula})"
    return formula


def _total(page: Page, values: BookValues, hammers: str, charged: str) -> None:
    sold = [one for one in values.lots if one.is_sold and one.result]
    whole = sum(one.result.hammer_cents or 0 for one in sold if one.result)
    cells = [text(TOTAL, "bold"), text("hammer prices of lots sold", "")]
    cells += [EMPTY] * (PLACES["hammer"] - 2)
    cells.append(Cell(whole / 100, "money", f"={hammers}"))
    cells += [EMPTY] * (CHECK - PLACES["hammer"])
    if charged:
        due = sum(one.settled.charged_cents for one in values.lots if one.settled)
        rows = span(_FIRST_ROW, _FIRST_ROW + len(values.lots) - 1, CHARGED)
        cells.append(Cell(due / 100, "money", f"=ROUND(SUM({rows}),2)"))
    page.line(cells, "result")


def _limits(page: Page, values: BookValues, cells: ResultCells) -> None:
    """Put drop-downs and limits on the cells to fill in, with a word beside each."""
    hammer = a1(cells.first, PLACES["hammer"])
    rules: dict[str, dict[str, object]] = {
        "state": {"validate": "list", "source": list(STATES)},
        "hammer": {
            "validate": "custom",
            "value": f"=AND(ISNUMBER({hammer}),{hammer}>0,{hammer}<={MOST_UNITS},"
            f"ROUND({hammer},2)={hammer})",
            "error_message": "A price is a number above 0 with at most two decimals.",
        },
        "paddle": {"validate": "length", "criteria": "<=", "value": 12},
        "paid": {
            "validate": "list",
            "source": [YES, NO],
            "error_type": "information",
            "error_message": "Write yes, no, or the part that was paid.",
        },
        "method": {"validate": "list", "source": list(METHODS)},
        "on": {
            "validate": "date",
            "criteria": ">=",
            "value": values.event.bidding_opens.date(),
            "error_message": "The day is not before bidding opened.",
        },
        "initials": {"validate": "length", "criteria": "<=", "value": 12},
    }
    hints = {column.name: column.hint for column in COLUMNS}
    for name, rule in rules.items():
        place = PLACES[name]
        rule |= {"input_title": HEADS[name], "input_message": hints[name].capitalize()}
        page.sheet.data_validation(cells.first, place, cells.last, place, rule)
