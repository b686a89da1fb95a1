"""What the panel of woods can show: the woods compared, and what a price moves."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial

from pricebook.cost import Shop
from pricebook.cost.drivers_text import all_of_them, signed
from pricebook.cost.options import Comparison, SpeciesOption
from pricebook.cost.price_moves import PriceMove, price_changes
from pricebook.errors import SpecError
from pricebook.money import exact, show, times
from pricebook.panel.answers import Answer
from pricebook.panel.species_rows import species_table, trade_limits
from pricebook.piece import Piece

COMPARED, MOVED = "compared", "moved"
VIEWS = [("Woods compared", COMPARED), ("What the changed price moves", MOVED)]
_ROWS_DRAWN = 20


def compared(found: Comparison, shown: tuple[SpeciesOption, ...]) -> Answer:
    """Return woods compared: picture, what was found, ranked table.

    Parameters
    ----------
    found : Comparison
        Every row.
    shown : tuple of SpeciesOption
        The rows that are asked for, in their rank.

    Returns
    -------
    Answer
        Ready to show.
    """
    from pricebook import charts

    drawn = shown[:_ROWS_DRAWN]
    left = found.left_out
    return Answer(
        pictures=(((found, drawn), partial(charts.species_compared, found, drawn)),),
        sentences=(*found.sentences, *trade_limits(shown)),
        tables=(species_table(found, shown),),
        folded=((f"{len(left)} choices could not be compared", left),),
    )


def prices_then(shop: Shop, wood: str, percent: float) -> dict[str, int]:
    """Return the prices of a wood's sheets when they cost another share.

    Parameters
    ----------
    shop : Shop
        The price book.
    wood : str
        The wood.
    percent : float
        What its sheets cost then, of their price now. [%]

    Returns
    -------
    dict of str to int
        By key of the sheet. [cents]
    """
    share = exact(percent) / 100
    return {
        sheet.key: times(sheet.price_cents, share)
        for sheet in shop.sheets
        if sheet.species == wood and sheet.veneer == "show" and sheet.to_buy
    }


def moved(
    pieces: Sequence[Piece], shop: Shop, on: date, wood: str, percent: float
) -> Answer:
    """Return how far another price of a wood moves the cost of each piece.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces, each bought for on its own.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    wood : str
        The wood.
    percent : float
        What its sheets cost then, of their price now. [%]

    Returns
    -------
    Answer
        A table and a sentence.

    Raises
    ------
    SpecError
        If no wood is named.
    """
    from pricebook.frames import Head, Row, Table

    if not wood:
        raise SpecError("The price of which wood changes? Choose one.")
    prices = prices_then(shop, wood, percent)
    moves = [move for p in pieces for move in price_changes([p], shop, prices, on)]
    whole, sign = all_of_them(moves), shop.settings.currency
    heads = ("to buy now", "then", "moves by", "used up now", "then", "moves by")
    touched = sum(1 for move in moves if move.used_difference_cents)
    return Answer(
        sentences=(
            f"With {wood} sheets at {percent:g} % of their price, {touched} of "
            f"{len(moves)} pieces use up another sum; all together it moves by "
            f"{signed(whole.used_difference_cents)} ({sign}).",
        ),
        tables=(
            Table(
                title=f"What {wood} at {percent:g} % of its price moves",
                heads=(Head(""), *(Head(f"{x} ({sign})", right=True) for x in heads)),
                rows=(
                    *(Row(_cells(move)) for move in moves),
                    Row(("together", *_cells(whole)[1:]), "total"),
                ),
                note="Each piece is bought for on its own and laid out anew.",
            ),
        ),
    )


def _cells(move: PriceMove) -> tuple[str, ...]:
    return (
        move.piece,
        show(move.cash_before_cents),
        show(move.cash_after_cents),
        signed(move.cash_difference_cents),
        show(move.used_before_cents),
        show(move.used_after_cents),
        signed(move.used_difference_cents),
    )
