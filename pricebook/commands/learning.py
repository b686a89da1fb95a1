"""Records for next time: what a settled event teaches about prices and minutes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from pricebook.commands.advising import features_of
from pricebook.commands.common import all_of
from pricebook.commands.planned_used import PlannedUsed, planned_used, suggestions
from pricebook.cost import Shop, cost_sheet
from pricebook.event import Event, SettledLot, Settlement
from pricebook.files import read_piece
from pricebook.files.learning import NewComparable, counts_as
from pricebook.files.market import Market
from pricebook.files.used import PieceUsed
from pricebook.records import (
    HitRate,
    LotOutcome,
    LotRecord,
    PinballScores,
    Ratios,
    SuggestedMinutes,
    Variances,
    comparables,
    hammer_ratios,
    hit_rate,
    pinball_scores,
    total_variances,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """What a settled event teaches.

    Parameters
    ----------
    hits : HitRate
        Hammer prices inside their estimates.
    pinball : PinballScores or None
        How far off the ends of the estimates were; None when no lot with an
        estimate sold. [cents]
    ratios : Ratios
        Hammer prices over estimates and over fair market values.
    comparables : tuple of NewComparable
        Rows for the list of comparables.
    left_out : tuple of (str, str)
        Lots that make none, and why.
    pieces : tuple of PlannedUsed
        Pieces as planned and as used; empty when nothing was noted.
    minutes : tuple of SuggestedMinutes
        New minutes, each with its observations.
    """

    hits: HitRate
    pinball: PinballScores | None
    ratios: Ratios
    comparables: tuple[NewComparable, ...]
    left_out: tuple[tuple[str, str], ...]
    pieces: tuple[PlannedUsed, ...] = ()
    minutes: tuple[SuggestedMinutes, ...] = ()

    @property
    def variances(self) -> Variances:
        """Rate and quantity variances of all rows together."""
        return total_variances(row for piece in self.pieces for row in piece.rows)


def learn(
    done: Settlement,
    event_file: Path,
    shop: Shop,
    market: Market,
    used: Sequence[PieceUsed] = (),
) -> Learnt:
    """Work out what a settled event teaches; nothing is written.

    Parameters
    ----------
    done : Settlement
        The settlement.
    event_file : Path
        The event file; pieces are named relative to it.
    shop : Shop
        The price book.
    market : Market
        Which share of hammer prices an estimate is meant to hold.
    used : sequence of PieceUsed
        What pieces really took.

    Returns
    -------
    Learnt
        Scores, rows for the list of comparables, variances, suggested minutes.

    Raises
    ------
    PricebookError
        With a sentence for each piece that cannot be read or priced, and each key
        of `used` that is unknown.
    """
    low, high = (market.assumptions[key] for key in ("low_share", "high_share"))
    outcomes = [row for lot in done.lots for row in _outcome(lot)]
    scored = [
        (row.hammer_cents, {low: row.estimate_low_cents, high: row.estimate_high_cents})
        for row in outcomes
        if row.hammer_cents is not None
    ]
    rows, left_out = _comparables(done, event_file)
    pieces = tuple(
        all_of(partial(_planned, done.event, event_file, shop, one) for one in used)
    )
    return Learnt(
        hits=hit_rate(outcomes, high - low),
        pinball=pinball_scores(scored) if scored else None,
        ratios=hammer_ratios(outcomes),
        comparables=rows,
        left_out=left_out,
        pieces=pieces,
        minutes=suggestions(pieces, shop, counts_as),
    )


def _outcome(settled: SettledLot) -> list[LotOutcome]:
    lot = settled.lot
    low, high = lot.estimate_low_cents, lot.estimate_high_cents
    if low is None or not high:
        return []
    return [
        LotOutcome(
            lot=lot.key,
            estimate_low_cents=low,
            estimate_high_cents=high,
            hammer_cents=settled.hammer_cents if settled.is_sold else None,
            fair_market_value_cents=lot.fair_market_value_cents or None,
        )
    ]


def _planned(event: Event, path: Path, shop: Shop, used: PieceUsed) -> PlannedUsed:
    lot = event.lot(used.lot)
    assert lot is not None  # the reader of the file has refused it otherwise
    sheet = cost_sheet(read_piece(path.parent / lot.piece), shop, event.on)
    return planned_used(sheet, shop, used)


def _comparables(
    done: Settlement, path: Path
) -> tuple[tuple[NewComparable, ...], tuple[tuple[str, str], ...]]:
    """Turn the lots with a piece file into rows; name the others."""
    event = done.event
    named = [settled for settled in done.lots if settled.lot.piece]
    pieces = all_of(partial(read_piece, path.parent / one.lot.piece) for one in named)
    left_out = [
        (one.key, "no piece file says its form and its veneer")
        for one in done.lots
        if not one.lot.piece
    ]
    rows: list[NewComparable] = []
    for settled, piece in zip(named, pieces, strict=True):
        lot = settled.lot
        record = LotRecord(
            lot=lot.key,
            form=piece.form,
            species=piece.veneer.species,
            outcome=settled.result.state,
            hammer_cents=settled.hammer_cents or None,
            least_cents=max(lot.opening_cents, lot.reserve_cents or 0),
        )
        found = comparables([record], on=event.on, source=_source(event, lot.key))
        left_out += found.left_out
        key = f"{event.key}-lot-{lot.key}".lower().replace(" ", "-")
        rows += [
            NewComparable(key=key, row=r, note=lot.title, features=features_of(piece))
            for r in found.rows
        ]
    return tuple(rows), tuple(left_out)


def _source(event: Event, lot: str) -> str:
    return f"own records: {event.name}, lot {lot}"
