"""What is known of a piece's market, as controls; and a slider of rungs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from pricebook.bidding import Ladder
from pricebook.panel.boxes import money_box, number_box
from pricebook.panel.controls import Control, Track
from pricebook.piece import Piece

_TOP_OF_SLIDER_CENTS = 200_000


def market_controls(piece: Piece, ladder: Ladder, sign: str) -> dict[str, Control]:
    """Return the controls of a piece's market, each with what its file says.

    Parameters
    ----------
    piece : Piece
        The piece.
    ladder : Ladder
        The ladder of bids, for the opening bid's slider.
    sign : str
        The currency sign.

    Returns
    -------
    dict of str to Control
        Bidders, unsold value, wanted net, opening bid, reserve and margin.
    """
    held = market_values(piece)
    half = Track(
        low=1, high=40, value_at=lambda n: n / 2, position_of=lambda v: round(2 * v)
    )
    units = Track(
        low=0, high=100, value_at=lambda n: 500 * n, position_of=lambda c: c // 500
    )
    share = Track(low=0, high=90, value_at=float, position_of=round)
    rungs = rung_track(ladder)
    return {
        "bidders": number_box(
            "Likely bidders",
            held["bidders"],
            most=10_000,
            above_zero=True,
            track=half,
        ),
        "unsold": money_box("Worth to us unsold", held["unsold"], sign, track=units),
        "wanted": money_box("Net we want", held["wanted"], sign, empty="none"),
        "opening": money_box(
            "Opening bid", held["opening"], sign, empty="as advised", track=rungs
        ),
        "reserve": money_box("Reserve", held["reserve"], sign, empty="none advised"),
        "margin": number_box(
            "Margin over used up (%)", 30.0, unit="%", most=99, track=share
        ),
    }


def market_values(piece: Piece) -> dict[str, Any]:
    """Return what a piece's file says of its market, by name of the control."""
    wishes = piece.price
    return {
        "bidders": wishes.likely_bidders,
        "unsold": wishes.unsold_value_cents,
        "wanted": wishes.wanted_net_cents,
        "opening": wishes.opening_bid_cents,
        "reserve": wishes.reserve_cents,
        "hammer": None,
    }


def with_market(piece: Piece, held: Mapping[str, Any]) -> Piece:
    """Return a piece with what the controls say of its market."""
    wishes = replace(
        piece.price,
        likely_bidders=held["bidders"],
        unsold_value_cents=held["unsold"],
        wanted_net_cents=held["wanted"],
        opening_bid_cents=held["opening"],
        reserve_cents=held["reserve"],
    )
    return replace(piece, price=wishes)


def rung_track(ladder: Ladder) -> Track:
    """Return a slider's positions, one a rung of the ladder up to 2,000.00."""
    rungs = ladder.rungs(ladder.at_or_above(1), _TOP_OF_SLIDER_CENTS)
    return Track(
        low=0,
        high=len(rungs) - 1,
        value_at=lambda n: rungs[n],
        position_of=lambda cents: sum(rung <= cents for rung in rungs) - 1,
    )
