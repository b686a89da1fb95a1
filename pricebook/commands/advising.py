"""From a piece, its cost and the market to advice and the split of a price."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial

from pricebook.bidding import Ladder
from pricebook.commands.common import all_of
from pricebook.cost import CostSheet
from pricebook.files.market import Market
from pricebook.piece import Piece
from pricebook.price import Advice, PricePolicy, advise_price
from pricebook.proceeds import Repay, Split, net_to_charity, split


def advise(
    piece: Piece,
    sheet: CostSheet,
    market: Market,
    on: date,
    *,
    opening_bid_cents: int | None = None,
    reserve_cents: int | None = None,
) -> Advice | None:
    """Advise what to ask for a piece, or nothing when nobody said who may bid.

    Parameters
    ----------
    piece : Piece
        The piece, with what is known about its market.
    sheet : CostSheet
        Its cost.
    market : Market
        What the shop knows and assumes.
    on : date
        The day of the advice.
    opening_bid_cents, reserve_cents : int, optional
        Chosen in place of the advised ones; without them, what the piece file has
        chosen. [cents]

    Returns
    -------
    Advice or None
        Each figure with its reason; None without a number of likely bidders,
        which is asked and never inferred.

    Raises
    ------
    PricebookError
        If a comparable is not in the list, an opening bid or a reserve of the piece
        file is not on the ladder, or a figure cannot be.
    """
    wishes = piece.price
    if wishes.likely_bidders is None:
        return None
    policy = PricePolicy(
        bidders=wishes.likely_bidders,
        unsold_value_cents=wishes.unsold_value_cents,
        wanted_net_cents=wishes.wanted_net_cents,
        **market.assumptions,
    )
    chosen = partial(_chosen, ladder=market.assumptions["ladder"])
    opening_bid_cents, reserve_cents = all_of(
        (
            partial(chosen, opening_bid_cents, "opening_bid", wishes.opening_bid_cents),
            partial(chosen, reserve_cents, "reserve", wishes.reserve_cents),
        )
    )
    return advise_price(
        sheet,
        policy,
        on=on,
        by=wishes.appraised_by,
        valued_on=wishes.appraised_on,
        comparables=[market.comparable(key) for key in wishes.comparables],
        listed=market.comparables.values(),
        features=features_of(piece),
        retail_cents=wishes.retail_new_cents,
        net_of=net_to_charity(market.rules, costs_cents=documented(sheet, market)),
        left_of=left_for_the_work(sheet, market),
        opening_bid_cents=opening_bid_cents,
        reserve_cents=reserve_cents,
    )


def _chosen(
    given: int | None, key: str, own: int | None, *, ladder: Ladder
) -> int | None:
    """Return what the caller chose, or else what the piece file has under a key."""
    if given is not None or own is None:
        return given
    ladder.check_rung(f"price.{key}", own)
    return own


def features_of(piece: Piece) -> dict[str, float]:
    """Return what the list of comparables may note of a piece.

    Parameters
    ----------
    piece : Piece
        The piece.

    Returns
    -------
    dict of str to float
        Outer sizes and number of drawers; none for a plain list of faces. [mm, -]
    """
    size, drawers = piece.size, piece.drawers
    if size is None:
        return {}
    return {
        "width": size.width_mm,
        "height": size.height_mm,
        "depth": size.depth_mm,
        "drawers": float(drawers.rows * drawers.columns) if drawers else 0.0,
    }


def left_for_the_work(sheet: CostSheet, market: Market) -> Callable[[int], int]:
    """Return what a hammer price leaves to charity and maker together.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet, for what is repaid.
    market : Market
        What the shop knows and assumes.

    Returns
    -------
    callable
        The price less what everybody else takes of it: fees, tax, shares of a guild
        or a venue. It pays the costs of the work, whoever bore them. [cents to cents]
    """
    rules, costs = market.rules, documented(sheet, market)
    own = {rule.payee for rule in rules.deductions if isinstance(rule, Repay)}
    own.add(rules.final.payee)

    def left(hammer_cents: int) -> int:
        lines = split(hammer_cents, rules, costs_cents=costs).lines
        return sum(line.amount_cents for line in lines if line.payee in own)

    return left


def documented(sheet: CostSheet, market: Market) -> dict[str, int]:
    """Return what the maker can document for each rule that repays a cost.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet; what is repaid is what is used up of materials paid for.
    market : Market
        What the shop knows and assumes.

    Returns
    -------
    dict of str to int
        Cost by label of the rule. [cents]
    """
    groups = ("labour", "overhead", "spoilage", "gifts")
    spent = sum(line.used_cents for line in sheet.lines if line.group not in groups)
    return {
        rule.label or rule.payee: spent
        for rule in market.rules.deductions
        if isinstance(rule, Repay) and rule.cost_cents is None
    }


def split_of(hammer_cents: int, sheet: CostSheet, market: Market) -> Split:
    """Split a hammer price by the shop's own rules.

    Parameters
    ----------
    hammer_cents : int
        The hammer price. [cents]
    sheet : CostSheet
        The cost sheet, for what is repaid.
    market : Market
        What the shop knows and assumes.

    Returns
    -------
    Split
        To the cent.
    """
    return split(hammer_cents, market.rules, costs_cents=documented(sheet, market))


def middle_hammer_cents(advice: Advice) -> int:
    """Return a hammer price to show a split of: the middle of those that sell.

    Parameters
    ----------
    advice : Advice
        The advice.

    Returns
    -------
    int
        A rung of the ladder. [cents]
    """
    return advice.outlook.quantile(0.5)
