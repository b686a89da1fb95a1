"""What the reader of a cost sheet should know about its figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from pricebook.cost.job import Job
from pricebook.cost.lines import CostLine
from pricebook.cost.shop import Shop
from pricebook.cost.sources import source_notes
from pricebook.lengths import show
from pricebook.piece import Piece
from pricebook.rates import Row
from pricebook.takeoff import TakeOff

SMALLEST_SAID_MM = 25.4 / 16
"""What a tape shows; less is not told."""


def cost_notes(
    job: Job, lines: Sequence[CostLine], shop: Shop, on: date
) -> Iterator[str]:
    """Yield what the reader of a cost sheet should know about its figures.

    Parameters
    ----------
    job : Job
        The piece, planned.
    lines : sequence of CostLine
        Its lines.
    shop : Shop
        The price book.
    on : date
        The day of the cost sheet.

    Yields
    ------
    str
        A sentence each: on the measures, on dates, on the bench, on sources.
    """
    keys = [line.key for line in lines]
    yield from _measure_notes(job.measured, shop.settings.lengths)
    yield from _later_notes(job.piece, shop.later_rows(keys, on), on)
    yield from job.bench.notes
    yield from source_notes(lines, shop)


def _measure_notes(measured: TakeOff, lengths: str) -> Iterator[str]:
    """Say what the measures leave open and no maker may have meant."""
    if measured.open_front_mm > SMALLEST_SAID_MM:
        yield (
            f"The drawer fronts listed leave {show(measured.open_front_mm, lengths)} "
            "of the front open, reveals and gaps aside; check their heights, or state "
            "it as drawers.open_below."
        )


def _later_notes(piece: Piece, rows: Iterable[Row], on: date) -> Iterator[str]:
    """Say what is dated after the day of a cost sheet."""
    day = f"after this cost sheet's day of {on.isoformat()}; check the date."
    if piece.made_on and piece.made_on > on:
        yield f"made_on is {piece.made_on.isoformat()}, {day}"
    for row in rows:
        yield f"The price of {row.key} is dated {row.dated.isoformat()}, {day}"
