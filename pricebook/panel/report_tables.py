"""What the board is told, as tables to look at."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from pricebook.event import Amount, BoardReport, Compared
from pricebook.money import show
from pricebook.records import LotOutcome

if TYPE_CHECKING:
    from pricebook.frames import Table

_LINE = (
    "Estimates for discussion; the charity's accountant and a licensed tax "
    "practitioner decide."
)


def board_sentence(report: BoardReport, sign: str) -> str:
    """Return what an evening raised, in one sentence, and whether every figure foots.

    Parameters
    ----------
    report : BoardReport
        The report.
    sign : str
        The currency sign.

    Returns
    -------
    str
        Event, day, cash raised, net, and the verdict.
    """
    raised, _, net = (show(amount.cents, sign) for amount in report.money[:3])
    return (
        f"{report.title}, {report.held_on}: {raised} raised, {net} net. "
        f"{report.verdict}"
    )


def board_tables(
    report: BoardReport, sign: str = "", *, whole: bool = False
) -> dict[str, Table]:
    """Return the tables of a board's report.

    Parameters
    ----------
    report : BoardReport
        The report.
    sign : str
        The currency sign, for the heads of columns of money.
    whole : bool
        Whether money is shown in whole units, each rounded once from its cents.

    Returns
    -------
    dict of str to Table
        "cash", "rates", "given", "pieces", "pays for", "forecast", "controls" and
        "return lines"; one without rows is left out.
    """
    controls = [
        (row.verdict, row.name, row.words.removeprefix(f"{row.verdict}: {row.name}: "))
        for row in report.controls
    ]
    pays = [(row.unit, str(row.count), row.words) for row in report.net_pays_for]
    lines = [
        (row.line, row.label, _money(row.cents, row.whole, whole=whole))
        for row in report.return_lines
    ]
    money = f" ({sign})" if sign else ""
    amount = ("", f"amount{money}", "made of")
    made = {
        "cash": table_of("Cash", amount, _amounts(report.money, whole), right=(1,)),
        "rates": table_of("Rates", _FIGURE, _compared(report.rates), right=(1,)),
        "given": table_of(
            "Given, at stated value: never in the cash figures",
            amount,
            _amounts(report.gifts_and_hours, whole),
            right=(1,),
        ),
        "pieces": _pieces(report, money),
        "pays for": table_of(
            "What the net pays for", ("", "how many", "how"), pays, right=(1,)
        ),
        "forecast": table_of(
            "Forecast against what came",
            _FIGURE,
            _compared(report.forecast),
            right=(1,),
        ),
        "controls": table_of("Control totals", ("", "control", "how"), controls),
        "return lines": table_of(
            "Event lines of the public return: a worksheet for the accountant",
            ("line", "", f"amount{money}"),
            lines,
            right=(2,),
            note=_LINE,
        ),
    }
    return {name: table for name, table in made.items() if table.rows}


_FIGURE = ("", "figure", "of")


def outcomes(report: BoardReport) -> tuple[LotOutcome, ...]:
    """Return estimate and hammer price of every lot that was offered with one.

    Parameters
    ----------
    report : BoardReport
        The report.

    Returns
    -------
    tuple of LotOutcome
        For the picture of estimates against hammer prices.
    """
    return tuple(
        LotOutcome(
            lot=f"{row.lot} {row.title}",
            estimate_low_cents=row.estimate_low_cents,
            estimate_high_cents=row.estimate_high_cents,
            hammer_cents=row.hammer_cents,
            fair_market_value_cents=row.fair_market_value_cents,
        )
        for row in report.pieces
        if row.state in ("sold", "passed")
        and row.estimate_low_cents is not None
        and row.estimate_high_cents is not None
    )


def _pieces(report: BoardReport, money: str) -> Table:
    rows = [
        (
            row.lot,
            row.title,
            row.state if row.is_paid or row.state != "sold" else "sold, unpaid",
            *map(_perhaps, (row.hammer_cents, row.charity_cents, row.used_up_cents)),
            *map(_perhaps, (row.over_used_up_cents, row.full_cents)),
            row.against_estimate,
        )
        for row in report.pieces
    ]
    sums = ("hammer", "to charity", "used up", "less used up", "full cost")
    heads = ("lot", "title", "state", *(f"{x}{money}" for x in sums), "estimate")
    return table_of("Piece by piece", heads, rows, right=range(3, 8))


def _amounts(rows: Iterable[Amount], whole: bool) -> list[tuple[str, ...]]:
    return [
        (row.label, _money(row.cents, row.whole, whole=whole), row.how) for row in rows
    ]


def _compared(rows: Iterable[Compared]) -> list[tuple[str, ...]]:
    return [(row.label, row.figure or "none", row.how) for row in rows]


def _money(cents: int, units: int, *, whole: bool) -> str:
    return f"{units:,}" if whole else show(cents)


def _perhaps(cents: int | None) -> str:
    return "" if cents is None else show(cents)


def table_of(
    title: str,
    heads: Sequence[str],
    rows: Iterable[tuple[str, ...]],
    right: Iterable[int] = (),
    *,
    note: str = "",
    total: tuple[str, ...] = (),
) -> Table:
    """Return a table of rows that are words already.

    Parameters
    ----------
    title : str
        What it shows.
    heads : sequence of str
        The heads of its columns.
    rows : iterable of tuple of str
        The rows.
    right : iterable of int
        Numbers of the columns of figures, from 0.
    note : str
        Where the figures are from.
    total : tuple of str
        A row that closes the table.

    Returns
    -------
    Table
        Escaped when it is shown; it says so when there is nothing to show.
    """
    from pricebook.frames import Head, Row, Table

    figures, found = set(right), [Row(cells) for cells in rows]
    if not found:
        found = [Row(("nothing to show", *[""] * (len(heads) - 1)))]
    return Table(
        title=title,
        heads=tuple(Head(text, n in figures) for n, text in enumerate(heads)),
        rows=(*found, *([Row(total, "total")] if total else [])),
        note=note,
    )
