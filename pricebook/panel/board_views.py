"""What the panel of the board's report can show, one question at a time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from pricebook.commands.learning import Learnt
from pricebook.commands.settle_papers import papers_text
from pricebook.commands.settling import Settled
from pricebook.money import Number, exact, half_up, show
from pricebook.panel.answers import Answer
from pricebook.panel.report_tables import board_tables, outcomes, table_of
from pricebook.records import EventTotals, Usage

if TYPE_CHECKING:
    from pricebook.frames import Table

ESTIMATES, PAGE, YEARS = "estimates", "page", "years"
PAPERS, RECORDS = "papers", "records"
VIEWS = [
    ("Estimate against hammer", ESTIMATES),
    ("The board's page", PAGE),
    ("Receipts and payouts", PAPERS),
    ("Records for next time", RECORDS),
    ("Year by year", YEARS),
]


def board_answer(
    view: str, found: Settled, years: Sequence[EventTotals], *, whole: bool
) -> Answer:
    """Return what a view shows of a settled event.

    Parameters
    ----------
    view : str
        One of the values in `VIEWS`.
    found : Settled
        The settlement and the report.
    years : sequence of EventTotals
        This event and those settled before, earliest first.
    whole : bool
        Whether money is shown in whole units, each rounded once from its cents.

    Returns
    -------
    Answer
        Pictures, sentences and tables.
    """
    if view == YEARS:
        return _years(found, years)
    if view == PAGE:
        return _page(found, whole=whole)
    return _MAKERS[view](found)


def _years(found: Settled, years: Sequence[EventTotals]) -> Answer:
    from pricebook import charts, frames

    sign, same = found.shop.settings.currency, tuple(years)
    return Answer(
        pictures=((same, partial(charts.year_by_year, same, sign)),),
        sentences=(frames.years_sentence(same, sign),),
        tables=(frames.shown(frames.years_frame(same), currency=sign),),
    )


def _page(found: Settled, *, whole: bool) -> Answer:
    from pricebook import charts

    report, paper = found.report, found.shop.settings.paper
    sign = found.shop.settings.currency
    draw = partial(charts.board_page, report, year=found.year, paper=paper)
    return Answer(
        pictures=((("page", report), draw),),
        sentences=(*report.unpaid, *report.unsold, *report.refunds, *report.cautions),
        tables=tuple(board_tables(report, sign, whole=whole).values()),
    )


def _estimates(found: Settled) -> Answer:
    from pricebook import charts, frames

    lots, sign = outcomes(found.report), found.shop.settings.currency
    draw = partial(charts.estimate_against_hammer, lots, sign)
    return Answer(
        pictures=((("estimates", lots), draw),),
        sentences=(frames.estimates_sentence(lots),),
        tables=(
            frames.shown(frames.estimates_frame(lots), currency=sign),
            board_tables(found.report, sign)["pieces"],
        ),
    )


def _papers(found: Settled) -> Answer:
    done, sign = found.done, found.shop.settings.currency
    receipts = [
        (
            str(one.number),
            one.paddle,
            ", ".join(lot.key for lot in one.lots),
            show(one.paid_cents),
            "not known" if one.gift_cents is None else show(one.gift_cents),
        )
        for one in done.receipts
    ]
    payouts = [
        (one.payee, show(one.due_cents), show(one.pending_cents), ", ".join(one.lots))
        for one in done.payouts
    ]
    paid = (f"paid ({sign})", f"of it a gift ({sign})")
    due = (f"due ({sign})", f"once it is paid ({sign})")
    parts = tuple(part for part in papers_text(done).split("\n") if part.strip(" -"))
    return Answer(
        sentences=(
            f"{len(done.receipts)} receipts and {len(done.payouts)} payouts come of "
            "the lots that are paid.",
        ),
        tables=(
            table_of("Receipts", ("", "paddle", "lots", *paid), receipts, (3, 4)),
            table_of("Payouts", ("payee", *due, "lots"), payouts, (1, 2)),
        ),
        folded=(("The papers, to be read before one is signed", parts),),
    )


def _records(found: Settled) -> Answer:
    learnt, sign = found.learnt, found.shop.settings.currency
    said = [learnt.hits.sentence]
    if not learnt.pieces:
        said.append(
            "What the pieces really took is not noted; choose the file that says so."
        )
    rows = [
        (new.key, new.row.form, new.row.species, show(new.row.price_cents),
         "sold" if new.row.sold else "unsold")
        for new in learnt.comparables
    ]  # fmt: skip
    heads = ("comparable", "form", "wood", f"price ({sign})", "")
    tables = [table_of("Comparables for next time", heads, rows, (3,))]
    if learnt.pieces:
        tables = [_used(learnt, sign), _minutes(learnt), *tables]
    left = tuple(f"Lot {lot}: {why}." for lot, why in learnt.left_out)
    return Answer(
        sentences=tuple(said),
        tables=tuple(tables),
        folded=(("Lots that make no comparable", left),),
    )


def _used(learnt: Learnt, sign: str) -> Table:
    whole = learnt.variances
    rows = [_usage(piece.lot, row) for piece in learnt.pieces for row in piece.rows]
    sums = [
        _marked(whole.rate_cents, whole.rate_mark),
        _marked(whole.quantity_cents, whole.quantity_mark),
        _marked(whole.total_cents, whole.total_mark),
    ]
    heads = ("lot", "", "unit", "planned", "used", f"planned rate ({sign})",
             f"rate paid ({sign})", f"by rate ({sign})", f"by quantity ({sign})",
             f"in all ({sign})")  # fmt: skip
    return table_of(
        "Planned against used",
        heads,
        rows,
        range(3, 10),
        note="F: favourable, less than planned; U: unfavourable.",
        total=("in all", *[""] * 6, *sums),
    )


def _usage(lot: str, row: Usage) -> tuple[str, ...]:
    found = row.variances
    return (
        lot,
        row.name,
        row.unit,
        f"{float(row.standard_quantity):.4g}",
        f"{float(row.actual_quantity):.4g}",
        _rate(row.standard_rate_cents),
        _rate(row.actual_rate_cents),
        _marked(found.rate_cents, found.rate_mark),
        _marked(found.quantity_cents, found.quantity_mark),
        _marked(found.total_cents, found.total_mark),
    )


def _minutes(learnt: Learnt) -> Table:
    rows = [
        (
            row.operation,
            f"{row.standard_min:.2f}",
            "none" if row.observed_min is None else f"{row.observed_min:.2f}",
            f"{row.suggested_min:.2f}",
            str(row.observations),
        )
        for row in learnt.minutes
    ]
    heads = ("minutes a unit of", "planned", "observed", "next time", "observations")
    return table_of("Minutes for next time", heads, rows, range(1, 5))


def _rate(cents: Number) -> str:
    return show(half_up(exact(cents)))


def _marked(cents: int, mark: str) -> str:
    return f"{show(abs(cents))} {mark}".strip()


_MAKERS: dict[str, Callable[[Settled], Answer]] = {
    ESTIMATES: _estimates,
    PAPERS: _papers,
    RECORDS: _records,
}
