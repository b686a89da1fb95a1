"""What the board is told: frozen rows, each with how it was found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pricebook.event.board_rows import (
    against_forecast,
    gifts_and_hours,
    money_rows,
    net_pays_for,
    piece_rows,
    rate_rows,
    return_rows,
)
from pricebook.event.board_values import (
    Amount,
    Compared,
    PaysFor,
    PieceRow,
    ReturnRow,
)
from pricebook.event.control import Control
from pricebook.event.naming import some_lots
from pricebook.event.papers import LedgerRow, PaddleReceipt, Payout, say_unpaid
from pricebook.event.return_lines import missing_values
from pricebook.event.settled import SettledLot
from pricebook.event.settlement import Settlement
from pricebook.forecast import Evening
from pricebook.money import show
from pricebook.receipts import PRACTITIONER, triggers

_SCHEDULES = (
    "the return's schedule of events",
    "a column of its own in that schedule",
    "the return's schedule of gifts in kind",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardReport:
    """What the board is told of an evening.

    Parameters
    ----------
    title, charity, held_on : str
        Of which event.
    verdict : str
        Whether every control total passes; if not, which do not.
    is_clean : bool
        The same as a yes or no.
    money : tuple of Amount
        Cash raised, cash spent, net, and what they are made of.
    rates : tuple of Compared
        Cost to raise a dollar, with its denominator.
    gifts_and_hours : tuple of Amount
        Gifts in kind and hours at stated value: never in the cash figures.
    pieces : tuple of PieceRow
        Each piece against its cost and its estimate.
    net_pays_for : tuple of PaysFor
        What the net pays for, at the charity's own stated and dated cost.
    forecast : tuple of Compared
        Forecast against actual; empty without a forecast.
    controls : tuple of Control
        Control totals.
    return_lines : tuple of ReturnRow
        The event lines, for the accountant; empty while a value is missing.
    unpaid, unsold, refunds : tuple of str
        A sentence each.
    cautions : tuple of str
        What the reader must know before using a figure.
    sign_off : tuple of str
        Who signs.
    lots, ledger, payouts, receipts : tuple
        The settled lots and the papers that follow, as in `Settlement`.
    """

    title: str
    charity: str
    held_on: str
    verdict: str
    is_clean: bool
    money: tuple[Amount, ...]
    rates: tuple[Compared, ...]
    gifts_and_hours: tuple[Amount, ...]
    pieces: tuple[PieceRow, ...]
    net_pays_for: tuple[PaysFor, ...]
    forecast: tuple[Compared, ...]
    controls: tuple[Control, ...]
    return_lines: tuple[ReturnRow, ...]
    unpaid: tuple[str, ...]
    unsold: tuple[str, ...]
    refunds: tuple[str, ...]
    cautions: tuple[str, ...]
    sign_off: tuple[str, ...]
    lots: tuple[SettledLot, ...] = ()
    ledger: tuple[LedgerRow, ...] = ()
    payouts: tuple[Payout, ...] = ()
    receipts: tuple[PaddleReceipt, ...] = ()


def board_report(done: Settlement, forecast: Evening | None = None) -> BoardReport:
    """Make the board's report of a settlement.

    Parameters
    ----------
    done : Settlement
        The settlement.
    forecast : Evening, optional
        What was forecast of the hammer prices.

    Returns
    -------
    BoardReport
        Rows to print; every amount in cents, whole units rounded once, half up.

    Examples
    --------
    >>> from datetime import date, datetime
    >>> from pricebook.event import Event, Lot, Result, settle
    >>> from pricebook.proceeds import Rest, SalesTax
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     sales_tax=SalesTax("nobody", base="none"),
    ...     deductions=(Rest("the Share"),),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ... )
    >>> report = board_report(settle(spring, [Result(
    ...     lot="1", state="sold", hammer_cents=12050, paddle="4", paid=True,
    ...     method="cash")]))
    >>> report.verdict
    'Every control total passes.'
    >>> report.money[0].label, report.money[0].cents, report.money[0].whole
    ('Cash raised', 12050, 121)
    """
    event = done.event
    return BoardReport(
        title=event.name,
        charity=event.charity,
        held_on=event.on.isoformat(),
        verdict=_verdict(done),
        is_clean=done.is_clean,
        money=money_rows(done),
        rates=rate_rows(done),
        gifts_and_hours=gifts_and_hours(done),
        pieces=piece_rows(done),
        net_pays_for=net_pays_for(done),
        forecast=against_forecast(done, forecast),
        controls=done.controls,
        return_lines=return_rows(done),
        unpaid=tuple(say_unpaid(lot) for lot in done.unpaid),
        unsold=tuple(
            f"Lot {x.key}, {x.lot.title}: {x.result.state}; {x.becomes}."
            for x in done.unsold
        ),
        refunds=tuple(
            f"Lot {x.key}: paddle {x.result.paddle} gets back "
            f"{show(x.refund_cents)}, if it was not yet given back."
            for x in done.refunds
        ),
        cautions=_cautions(done),
        sign_off=event.sign_off,
        lots=done.lots,
        ledger=done.ledger,
        payouts=done.payouts,
        receipts=done.receipts,
    )


def _verdict(done: Settlement) -> str:
    failed = [control.name for control in done.controls if not control.passes]
    if not failed:
        return "Every control total passes."
    return (
        f"NOT CLEAN: {len(failed)} of {len(done.controls)} control totals fail: "
        f"{'; '.join(failed)}. Find why before this report is used."
    )


def _cautions(done: Settlement) -> tuple[str, ...]:
    said = [
        "The event lines are a worksheet for the charity's accountant, not the return.",
        "Hours are shown at their stated value for the story only: they are neither "
        "deductible nor on the public return.",
    ]
    counted = done.counted
    if counted.cash_cents is None and counted.cheque_cents is None:
        said.append(
            "Cash and cheques were not counted apart from the bids; let two people "
            "count and sign."
        )
    if done.card_fees_cents != done.card_fees_by_rule_cents:
        said.append(
            f"Card fees are those charged, {show(done.card_fees_cents)}; the rule "
            f"alone would have reckoned {show(done.card_fees_by_rule_cents)}."
        )
    missing = missing_values(done.lots)
    if missing:
        said.append(
            f"No event lines are made: lots {some_lots(missing)} state no fair market "
            "value, or none when they were given."
        )
    late = [x.key for x in done.lots if not done.event.is_published(x.lot)]
    if late:
        said.append(
            f"Lots {some_lots(late)} published no fair market value before bidding: "
            "their receipts state no deductible part."
        )
    if done.deposits_cents:
        said.append("Part payments are held for lots unpaid; they are no cash raised.")
    return (PRACTITIONER, *said, *_schedules(done))


def _schedules(done: Settlement) -> list[str]:
    """Say which schedules of the return this event calls for by itself."""
    if done.lines is None:
        return []
    papers = triggers(
        done.lines, noncash_cents=_pieces_kept(done), as_of=done.event.on.year
    )
    called = (papers.event_schedule, papers.event_listed, papers.noncash_schedule)
    return [
        f"By this event alone {name} {'is' if is_called else 'is not'} called for; "
        f"{word}"
        for name, is_called, word in zip(_SCHEDULES, called, papers.words, strict=False)
    ]


def _pieces_kept(done: Settlement) -> int:
    """Pieces given and not returned, at their value when received [cents]."""
    return sum(x.lot.gift_in_kind_cents or 0 for x in done.lots if not x.is_returned)


def to_totals(done: Settlement) -> dict[str, Any]:
    """Return the totals that a year is added up from.

    Parameters
    ----------
    done : Settlement
        The settlement.

    Returns
    -------
    dict
        The fields of `records.EventTotals`: `EventTotals(**to_totals(done))`.

    Examples
    --------
    >>> from datetime import date, datetime
    >>> from pricebook.event import Event, Lot, Result, settle
    >>> from pricebook.proceeds import Rest, SalesTax
    >>> spring = Event(
    ...     key="spring", name="Spring sale", charity="the Share",
    ...     on=date(2027, 4, 17), bidding_opens=datetime(2027, 4, 17, 18),
    ...     sales_tax=SalesTax("nobody", base="none"),
    ...     deductions=(Rest("the Share"),),
    ...     lots=(Lot(key="1", title="Bookcase", opening_cents=10000),),
    ... )
    >>> to_totals(settle(spring, [Result(lot="1", state="passed")]))["lots_passed"]
    1
    """
    return {
        "name": done.event.name,
        "on": done.event.on,
        "raised_cents": done.raised_cents,
        "cost_cents": done.spent_cents,
        "lots_sold": done.count("sold"),
        "lots_passed": done.count("passed"),
        "lots_withdrawn": done.count("withdrawn"),
        "lots_void": done.count("void"),
        "gifts_in_kind_cents": done.gifts_in_kind_cents,
        "time_given_cents": done.time_given_cents,
        "unpaid_cents": done.unpaid_cents,
    }
