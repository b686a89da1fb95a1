"""Notes for makers and volunteers: who owned the piece, what of its cost may count."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from pricebook.commands.settle_text import plain
from pricebook.errors import PricebookError
from pricebook.event import SettledLot, Settlement
from pricebook.money import show
from pricebook.proceeds import Repay
from pricebook.receipts import MakerBasis, expense_statement, maker_basis

_PLACEHOLDER = date(1, 1, 1)
_OPEN_DAYS = "From ____________ (first day) to ____________ (last day)"


def maker_notes(done: Settlement) -> Iterator[str]:
    """Write a note a lot on the cost that its maker bore, and statements called for.

    Parameters
    ----------
    done : Settlement
        The settlement.

    Yields
    ------
    str
        A note for each lot whose maker is named and which does not go back; after
        it the charity's statement of services, where unrepaid costs call for one.
    """
    for settled in done.lots:
        if settled.lot.paid_as_maker and not settled.is_returned:
            yield from _papers(done, settled)


def _papers(done: Settlement, settled: SettledLot) -> Iterator[str]:
    lot = settled.lot
    repaid, received = paid_to_maker(settled)
    try:
        basis = maker_basis(
            lot.owner,
            materials_cents=lot.repay_cents,
            repaid_cents=repaid,
            received_cents=received,
            fair_market_value_cents=lot.fair_market_value_cents,
            as_of=done.event.on.year,
        )
        words = _words(settled, basis, repaid)
    except PricebookError as error:
        yield "\n".join((*_head(settled), *error.faults))
        return
    yield "\n".join((*_head(settled), *words))
    if lot.owner == "charity" and basis.statement_needed and lot.repay_cents:
        yield _statement(done, settled, repaid)


def paid_to_maker(settled: SettledLot) -> tuple[int, int]:
    """Return what the maker of a lot was repaid, and paid beside that.

    Parameters
    ----------
    settled : SettledLot
        The lot.

    Returns
    -------
    (int, int)
        Both 0 until the lot is paid. [cents]
    """
    if settled.split is None or not settled.is_paid:
        return 0, 0
    mine = [
        line for line in settled.split.lines if line.payee == settled.lot.paid_as_maker
    ]
    repaid = sum(x.amount_cents for x in mine if isinstance(x.rule, Repay))
    return repaid, sum(x.amount_cents for x in mine) - repaid


def _head(settled: SettledLot) -> tuple[str, ...]:
    lot = settled.lot
    return (
        f"Note on the cost of lot {lot.key}, {plain(lot.title)}, for "
        f"{plain(lot.paid_as_maker)}",
        "Not a part of any letter or receipt.",
        "",
        f"While it was worked on, the piece belonged to the {lot.owner}.",
    )


def _words(settled: SettledLot, basis: MakerBasis, repaid: int) -> Iterator[str]:
    lot = settled.lot
    if not lot.repay_cents:
        yield "No cost of materials is documented, so no amount is stated here."
        yield basis.words[0]
        yield basis.words[-1]
        return
    yield (
        f"Materials documented {show(lot.repay_cents)}, repaid {show(repaid)}"
        + (", more when the lot is paid." if settled.unpaid_cents else ".")
    )
    if lot.owner == "maker":
        yield "What the maker paid for the plain piece, if documented, comes on top."
    yield from basis.words


def _statement(done: Settlement, settled: SettledLot, repaid: int) -> str:
    lot = settled.lot
    text = expense_statement(
        charity=plain(done.event.charity),
        volunteer=plain(lot.paid_as_maker),
        services=f"work on our piece that became {plain(lot.title)}",
        first_day=_PLACEHOLDER,
        last_day=_PLACEHOLDER,
        repaid_cents=repaid,
    )
    return text.replace("From 1 January 1 to 1 January 1", _OPEN_DAYS, 1)
