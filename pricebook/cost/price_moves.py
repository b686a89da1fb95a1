"""How the cost of each piece moves when prices change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from pricebook.cost.inputs import price_rows, with_price
from pricebook.cost.sheet import cost_sheets
from pricebook.cost.shop import Shop
from pricebook.errors import TableError, nearest, raise_all
from pricebook.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceMove:
    """What changed prices do to one piece.

    Parameters
    ----------
    piece : str
        The piece's name.
    cash_before_cents, cash_after_cents : int
        Cash to buy. [cents]
    used_before_cents, used_after_cents : int
        Used up. [cents]
    """

    piece: str
    cash_before_cents: int
    cash_after_cents: int
    used_before_cents: int
    used_after_cents: int

    @property
    def cash_difference_cents(self) -> int:
        """After less before. [cents]."""
        return self.cash_after_cents - self.cash_before_cents

    @property
    def used_difference_cents(self) -> int:
        """After less before. [cents]."""
        return self.used_after_cents - self.used_before_cents


def price_changes(
    pieces: Sequence[Piece],
    shop: Shop,
    prices: Mapping[str, int],
    on: date,
    *,
    stages: int | None = None,
) -> tuple[PriceMove, ...]:
    """Show how each piece's cost moves when prices change.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces, which share what they buy.
    shop : Shop
        The price book.
    prices : mapping of str to int
        New price by key: of one sheet or roll, or of the usual pack; other packs
        move by the same share. [cents]
    on : date
        The day for which prices are taken.
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.

    Returns
    -------
    tuple of PriceMove
        One a piece; sheets are laid out and packs chosen anew at the new prices.

    Raises
    ------
    TableError
        If a key is not in the price book or a price is not above 0; one sentence
        for each.
    """
    known = {row.key: row for row in price_rows(shop)}
    faults = [
        f'"{key}" is no row with a price; {nearest(key, known)}'
        for key in prices
        if key not in known
    ]
    faults += [
        f'the new price of "{key}" is {cents!r} cents; it must be a whole number '
        "above 0."
        for key, cents in prices.items()
        if isinstance(cents, bool) or not isinstance(cents, int) or cents <= 0
    ]
    raise_all(TableError, faults)
    changed = shop
    for key, cents in prices.items():
        changed = with_price(changed, key, cents)
    before = cost_sheets(pieces, shop, on, stages=stages)
    after = cost_sheets(pieces, changed, on, stages=stages)
    return tuple(
        PriceMove(
            piece=old.piece,
            cash_before_cents=old.cash_to_buy_cents,
            cash_after_cents=new.cash_to_buy_cents,
            used_before_cents=old.used_up_cents,
            used_after_cents=new.used_up_cents,
        )
        for old, new in zip(before, after, strict=True)
    )


def price_change(
    pieces: Sequence[Piece], shop: Shop, key: str, new_price_cents: int, on: date
) -> tuple[PriceMove, ...]:
    """Show how each piece's cost moves when one price changes; see `price_changes`.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces, which share what they buy.
    shop : Shop
        The price book.
    key : str
        The row.
    new_price_cents : int
        Its new price. [cents]
    on : date
        The day for which prices are taken.

    Returns
    -------
    tuple of PriceMove
        One a piece.
    """
    return price_changes(pieces, shop, {key: new_price_cents}, on)
