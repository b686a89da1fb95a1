"""The figures that go into a cost, each with a way to change it alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial
from typing import Any, TypeVar

from pricebook.cost.lines import CostSheet
from pricebook.cost.shop import Shop
from pricebook.errors import TableError, nearest
from pricebook.money import exact, half_up
from pricebook.piece import Piece
from pricebook.rates import Leaves, Material, Roll, Row, Sheet

Changed = tuple[Piece, Shop]
Priced = Sheet | Roll | Material | Leaves
_R = TypeVar("_R", Sheet, Roll)


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One figure that goes into the cost of a piece.

    Parameters
    ----------
    name : str
        What it is, such as "price of walnut-4x8" or "overhang".
    value : float
        The figure as it stands. [unit]
    unit : str
        Its unit; "cents" for money.
    whole : bool
        Whether it counts things, so that it moves by one at the least.
    least : float
        Below this it makes no sense. [unit]
    change : callable
        Takes piece, shop and a new value, returns the changed piece and shop.
    """

    name: str
    value: float
    unit: str
    whole: bool = False
    least: float = 0.0
    change: Callable[[Piece, Shop, float], Changed]


def inputs_of(piece: Piece, sheet: CostSheet, shop: Shop) -> tuple[Input, ...]:
    """List the figures behind a cost sheet.

    Parameters
    ----------
    piece : Piece
        The piece.
    sheet : CostSheet
        Its cost sheet.
    shop : Shop
        The price book.

    Returns
    -------
    tuple of Input
        Prices of the rows that are used, rates of an hour, minutes of each
        operation and of all together, overhang and end allowance, coats, and the
        shop's allowances.
    """
    used = {line.key for line in sheet.lines}
    return (
        *(_price(row) for row in price_rows(shop) if row.key in used),
        *_rates(shop),
        *_minutes(sheet, shop),
        *_wishes(piece, sheet),
        *_allowances(shop),
    )


def price_rows(shop: Shop) -> tuple[Priced, ...]:
    """Return every row of the price book that has a price.

    Parameters
    ----------
    shop : Shop
        The price book.

    Returns
    -------
    tuple of Sheet, Roll, Material or Leaves
        The rows.
    """
    return (*shop.sheets, *shop.rolls, *shop.materials, *shop.flitches)


def price_of(row: Row) -> int:
    """Return the price of a row: of a sheet, a roll, a bundle, or the usual pack.

    Parameters
    ----------
    row : Row
        A sheet, a roll, a flitch or a material.

    Returns
    -------
    int
        The price; the value of one in the rack where it cannot be bought. [cents]
    """
    if isinstance(row, Material):
        return row.packs[0].price_cents
    if isinstance(row, Leaves):
        return row.price_cents
    if isinstance(row, Sheet | Roll):
        return row.price_cents if row.to_buy else row.value_cents
    raise TableError(f'"{row.key}" is a row without a price; name a sheet, a roll or '
                     "an item.")  # fmt: skip


def with_price(shop: Shop, key: str, price_cents: int) -> Shop:
    """Return the price book with another price for one row.

    Parameters
    ----------
    shop : Shop
        The price book.
    key : str
        The row.
    price_cents : int
        The new price of one sheet or roll, of a bundle of leaves, or of the usual
        pack; other packs, and the value of stock in the rack, move by the same
        share. [cents]

    Returns
    -------
    Shop
        The price book changed.

    Raises
    ------
    TableError
        If no row has this key, or the price makes no sense.
    """
    rows = price_rows(shop)
    if not any(row.key == key for row in rows):
        known = [row.key for row in rows]
        raise TableError(f'"{key}" is no row with a price; {nearest(key, known)}')

    def moved(row: _R) -> _R:
        return _moved(row, price_cents) if row.key == key else row

    return replace(
        shop,
        sheets=tuple(moved(row) for row in shop.sheets),
        rolls=tuple(moved(row) for row in shop.rolls),
        materials=tuple(
            _repacked(row, price_cents) if row.key == key else row
            for row in shop.materials
        ),
        flitches=tuple(
            replace(row, price_cents=price_cents) if row.key == key else row
            for row in shop.flitches
        ),
    )


def _moved(row: _R, price_cents: int) -> _R:
    old = price_of(row)
    share = Fraction(price_cents, old) if old else Fraction(1)
    price = price_cents if row.to_buy else row.price_cents
    return replace(row, price_cents=price, value_cents=half_up(row.value_cents * share))


def _repacked(row: Material, price_cents: int) -> Material:
    share = Fraction(price_cents, price_of(row))
    first, *others = row.packs
    packs = (
        replace(first, price_cents=price_cents),
        *(replace(p, price_cents=half_up(p.price_cents * share)) for p in others),
    )
    return replace(row, packs=packs)


def _price(row: Priced) -> Input:
    def change(piece: Piece, shop: Shop, cents: float) -> Changed:
        return piece, with_price(shop, row.key, half_up(exact(cents)))

    return Input(
        name=f"price of {row.key}",
        value=price_of(row),
        unit="cents",
        least=1,
        change=change,
    )


def _rates(shop: Shop) -> Iterator[Input]:
    for name, field in (
        ("an hour that is paid", "paid_cents_per_hour"),
        ("an hour that is given", "given_cents_per_hour"),
        ("overhead of an hour", "overhead_cents_per_hour"),
    ):
        yield Input(
            name=name,
            value=getattr(shop.settings, field),
            unit="cents",
            change=partial(_with_rate, field),
        )


def _with_rate(field: str, piece: Piece, shop: Shop, cents: float) -> Changed:
    changed: dict[str, Any] = {field: half_up(exact(cents))}
    return piece, replace(shop, settings=replace(shop.settings, **changed))


def _minutes(sheet: CostSheet, shop: Shop) -> Iterator[Input]:
    used = list(dict.fromkeys(line.operation for line in sheet.labour.lines))
    rows = {row.key: row for row in shop.minutes}
    for key in used:
        if key in rows:
            field = "rate_min" if rows[key].rate_min else "setup_min"
            yield Input(
                name=f"minutes to {rows[key].name}",
                value=getattr(rows[key], field),
                unit=f"min/{rows[key].unit}" if field == "rate_min" else "min",
                change=partial(_with_minutes, (key,), getattr(rows[key], field)),
            )
    if used:
        change = partial(_with_minutes, tuple(used), sheet.hours)
        yield Input(name="all hours", value=sheet.hours, unit="h", change=change)


def _with_minutes(
    keys: Sequence[str], old: float, piece: Piece, shop: Shop, new: float
) -> Changed:
    """Scale set-up and rate of some operations alike."""
    share = new / old if old else 1.0
    rows = tuple(
        replace(row, setup_min=row.setup_min * share, rate_min=row.rate_min * share)
        if row.key in keys
        else row
        for row in shop.minutes
    )
    return piece, replace(shop, minutes=rows)


def _wishes(piece: Piece, sheet: CostSheet) -> Iterator[Input]:
    if sheet.take_off.faces:
        mm = piece.veneer.overhang_mm
        yield Input(name="overhang", value=mm, unit="mm", change=_with_overhang)
    if piece.banding is not None and sheet.take_off.edges:
        mm = piece.banding.end_allowance_mm
        yield Input(name="end allowance", value=mm, unit="mm", change=_with_ends)
    if sheet.finish is not None:
        coats = sheet.finish.rows[-1].coat.times
        yield Input(
            name="coats", value=coats, unit="coats", whole=True, least=1,
            change=_with_coats,
        )  # fmt: skip


def _with_overhang(piece: Piece, shop: Shop, mm: float) -> Changed:
    return replace(piece, veneer=replace(piece.veneer, overhang_mm=mm)), shop


def _with_ends(piece: Piece, shop: Shop, mm: float) -> Changed:
    if piece.banding is None:
        return piece, shop
    return replace(piece, banding=replace(piece.banding, end_allowance_mm=mm)), shop


def _with_coats(piece: Piece, shop: Shop, coats: float) -> Changed:
    if piece.finish is None:
        return piece, shop
    return replace(piece, finish=replace(piece.finish, coats=round(coats))), shop


def _allowances(shop: Shop) -> Iterator[Input]:
    for row in shop.allowances:
        whole = row.unit in ("each", "pair") and row.value == int(row.value)
        yield Input(
            name=row.key,
            value=row.value,
            unit=row.unit,
            whole=whole,
            least=1 if whole else 0,
            change=partial(_with_allowance, row.key),
        )


def _with_allowance(key: str, piece: Piece, shop: Shop, value: float) -> Changed:
    rows = tuple(
        replace(row, value=value) if row.key == key else row for row in shop.allowances
    )
    return piece, replace(shop, allowances=rows)
