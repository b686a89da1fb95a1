"""An event with the figures of the pieces behind its lots and candidates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from pricebook.commands.advising import advise
from pricebook.commands.common import all_of, in_files
from pricebook.cost import CostSheet, Shop, cost_sheet
from pricebook.event import (
    Candidate,
    Demand,
    Event,
    LotAdvice,
    LotCost,
    with_advice,
    with_candidates,
    with_costs,
)
from pricebook.files import read_piece, read_shop
from pricebook.files.events import read_event
from pricebook.files.market import Market, read_market
from pricebook.files.places import shop_folder
from pricebook.piece import Piece
from pricebook.price import Advice


def event_of(path: Path, shop_named: str | None, on: date) -> Event:
    """Read an event and fill in what its pieces say.

    Parameters
    ----------
    path : Path
        The event file; pieces are named relative to it.
    shop_named : str or None
        The folder of the price book; None: the one beside the event.
    on : date
        The day of the prices.

    Returns
    -------
    Event
        What is stated stays; costs, estimates and demand that are left open come
        from the pieces.

    Raises
    ------
    PricebookError
        With every fault of the event and of the pieces it names.
    """
    event = read_event(path)
    lots = [lot for lot in event.lots if lot.piece]
    candidates = [one for one in event.candidates if one.piece and one.missing]
    if not lots and not candidates:
        return event
    folder = shop_folder(shop_named, path)
    shop, market = read_shop(folder), read_market(folder)
    names = dict.fromkeys([*(x.piece for x in lots), *(x.piece for x in candidates)])
    found = dict(
        zip(
            names,
            all_of(
                partial(_priced, path.parent / name, shop, market, on) for name in names
            ),
            strict=True,
        )
    )
    costs = {lot.key: _cost(found[lot.piece][1]) for lot in lots}
    advices = {
        lot.key: _advice(piece, advice, market)
        for lot in lots
        for piece, _, advice in [found[lot.piece]]
        if advice is not None
    }
    event = with_advice(with_costs(event, costs), advices)
    return with_candidates(
        event, [_candidate(one, *found[one.piece]) for one in candidates]
    )


def _priced(
    path: Path, shop: Shop, market: Market, on: date
) -> tuple[Piece, CostSheet, Advice | None]:
    piece = read_piece(path)
    sheet = cost_sheet(piece, shop, on)
    with in_files([(piece.name, path)]):
        return piece, sheet, advise(piece, sheet, market, on)


def _cost(sheet: CostSheet) -> LotCost:
    return LotCost(
        cash_spent_cents=sheet.cash_to_buy_cents,
        used_up_cents=sheet.used_up_cents,
        gifts_cents=sheet.gifts_in_kind_cents,
        time_cents=sheet.time_given_cents,
        hours=sheet.hours,
    )


def _advice(piece: Piece, advice: Advice, market: Market) -> LotAdvice:
    return LotAdvice(
        estimate_low_cents=advice.estimate_low.cents,
        estimate_high_cents=advice.estimate_high.cents,
        demand=Demand(
            median_cents=advice.median_value_cents,
            sigma=market.assumptions["sigma"],
            bidders=piece.price.likely_bidders or 0,
            crowd=market.assumptions["crowd"],
        ),
    )


def _candidate(
    stated: Candidate, piece: Piece, sheet: CostSheet, advice: Advice | None
) -> Candidate:
    sheets = sum(plan.sheet.veneer == "show" for plan in sheet.layout.sheets)
    return replace(
        stated,
        as_is_cents=piece.price.unsold_value_cents,
        finished_cents=advice.expected_hammer.cents if advice else None,
        cost_cents=sheet.cash_to_buy_cents,
        needs=(("hours", sheet.hours), ("sheets", sheets)),
    )
