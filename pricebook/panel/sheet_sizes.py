"""Which sizes of sheet a panel may choose from."""

from __future__ import annotations

from dataclasses import replace

from pricebook.cost import Shop
from pricebook.lengths import show as length
from pricebook.money import show as money
from pricebook.piece import Piece
from pricebook.rates import Sheet

ALL = ""
STAGES = [("any number", None), ("3 at most", 3), ("2 at most", 2)]
"""How many cuts in a row a plan of a sheet may need."""


def sizes_offered(shop: Shop, piece: Piece) -> list[tuple[str, str]]:
    """Return the sizes that a piece's wood is sold in, as a drop-down offers them."""
    unit, sign = shop.settings.lengths, shop.settings.currency
    offered = [
        (
            f"{length(s.along_mm, unit)} x {length(s.across_mm, unit)}, "
            f"{money(s.price_cents, sign)}",
            s.key,
        )
        for s in shop.sheets
        if s.to_buy and _fits(s, piece.veneer.species, piece.veneer.form)
    ]
    return [("all in the price book", ALL), *offered]


def with_size(shop: Shop, key: str) -> Shop:
    """Return a price book that sells one size of a wood; what is on hand stays."""
    if key == ALL:
        return shop
    one = next(sheet for sheet in shop.sheets if sheet.key == key)
    kept = tuple(
        s
        for s in shop.sheets
        if s.key == key or not (s.to_buy and _fits(s, one.species, one.form))
    )
    return replace(shop, sheets=kept)


def _fits(sheet: Sheet, species: str, form: str) -> bool:
    return (sheet.veneer, sheet.species, sheet.form) == ("show", species, form)
