"""Which of the figures that go in move the cost of a piece most."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from pricebook.cost.inputs import Input, inputs_of
from pricebook.cost.lines import CostSheet
from pricebook.cost.price_moves import PriceMove, price_change, price_changes
from pricebook.cost.sheet import cost_sheet
from pricebook.cost.shop import Shop
from pricebook.errors import PricebookError, SpecError, nearest
from pricebook.money import exact
from pricebook.piece import Piece

__all__ = [
    "CASH",
    "FULL_COST",
    "TOTALS",
    "Driver",
    "Drivers",
    "PriceMove",
    "costed",
    "price_change",
    "price_changes",
    "total_of",
    "what_drives",
]

FULL_COST = "full cost"
CASH = "cash to buy"
TOTALS = (FULL_COST, CASH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """How far a total moves when one figure goes from low to high.

    Parameters
    ----------
    name, unit : str
        The figure and its unit; "cents" for money.
    base, low, high : float
        The figure as it stands, and the two ends of its range. [unit]
    at_low, at_high : int
        The total at each end, all else as it was. [cents]
    """

    name: str
    unit: str
    base: float
    low: float
    high: float
    at_low: int
    at_high: int

    @property
    def swing(self) -> int:
        """Width of the move. [cents]."""
        return abs(self.at_high - self.at_low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drivers:
    """What drives the cost of a piece.

    Parameters
    ----------
    piece : str
        The piece's name.
    share : float
        By how much each figure was moved, down and up. [-]
    full_cost_cents, cash_to_buy_cents : int
        The totals as they stand. [cents]
    full_cost, cash_to_buy : tuple of Driver
        The figures that move each total, widest swing first.
    idle : tuple of str
        Figures that move neither total.
    refused : tuple of str
        Figures at one end of whose range the piece cannot be made, and why.
    """

    piece: str
    share: float
    full_cost_cents: int
    cash_to_buy_cents: int
    full_cost: tuple[Driver, ...]
    cash_to_buy: tuple[Driver, ...]
    idle: tuple[str, ...]
    refused: tuple[str, ...] = ()


def what_drives(
    piece: Piece,
    shop: Shop,
    on: date,
    *,
    share: float = 0.10,
    stages: int | None = None,
) -> Drivers:
    """Rank the figures behind a cost by how far each alone moves its totals.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    share : float
        By how much each figure is moved down and up, above 0 and below 1. [-]
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.

    Returns
    -------
    Drivers
        Swings of the full cost and of the cash to buy.

    Raises
    ------
    SpecError
        If the share is out of range.

    Notes
    -----
    One figure moves at a time, and the piece is costed anew: sheets are laid out
    and packs chosen again wherever the figure can change them. A count moves by
    one at the least. A share of 1 is the end of a figure that is a share itself.
    Method: one-way sensitivity, common practice, no source.
    """
    if isinstance(share, bool) or not 0 < share < 1:
        raise SpecError(
            f"the share to move figures by is {share!r}; it must be above 0, below 1."
        )
    base = cost_sheet(piece, shop, on, stages=stages)
    found: dict[str, list[Driver]] = {total: [] for total in TOTALS}
    refused: list[str] = []
    names = []
    for one in inputs_of(piece, base, shop):
        ends = _ends(one, share)
        names.append(one.name)
        try:
            sheets = [costed(piece, shop, on, {one: x}, stages) for x in ends]
        except PricebookError as error:
            refused += [f"{one.name}: {fault}" for fault in error.faults]
            continue
        for total in TOTALS:
            driver = _driver(one, ends, [total_of(sheet, total) for sheet in sheets])
            if driver.swing:
                found[total].append(driver)
    moving = {driver.name for drivers in found.values() for driver in drivers}
    return Drivers(
        piece=piece.name,
        share=share,
        full_cost_cents=base.full_cost_cents,
        cash_to_buy_cents=base.cash_to_buy_cents,
        full_cost=_ranked(found[FULL_COST]),
        cash_to_buy=_ranked(found[CASH]),
        idle=tuple(name for name in names if name not in moving),
        refused=tuple(refused),
    )


def _ranked(drivers: Sequence[Driver]) -> tuple[Driver, ...]:
    return tuple(sorted(drivers, key=lambda driver: -driver.swing))


def _ends(one: Input, share: float) -> tuple[float, float]:
    middle = exact(one.value)
    step = middle * exact(share)
    if one.whole:
        step = Fraction(max(1, round(step)))
    low, high = max(one.least, float(middle - step)), float(middle + step)
    return low, min(1.0, high) if one.unit == "share" else high


def _driver(one: Input, ends: tuple[float, float], totals: Sequence[int]) -> Driver:
    return Driver(
        name=one.name,
        unit=one.unit,
        base=one.value,
        low=ends[0],
        high=ends[1],
        at_low=totals[0],
        at_high=totals[1],
    )


def total_of(sheet: CostSheet, total: str) -> int:
    """Return one total of a cost sheet by its name.

    Parameters
    ----------
    sheet : CostSheet
        The cost sheet.
    total : str
        One of `TOTALS`.

    Returns
    -------
    int
        The total. [cents]

    Raises
    ------
    SpecError
        If there is no such total.
    """
    if total == FULL_COST:
        return sheet.full_cost_cents
    if total == CASH:
        return sheet.cash_to_buy_cents
    raise SpecError(f'"{total}" is no total of this kind; {nearest(total, TOTALS)}')


def costed(
    piece: Piece,
    shop: Shop,
    on: date,
    values: Mapping[Input, float],
    stages: int | None = None,
) -> CostSheet:
    """Cost a piece with some figures changed.

    Parameters
    ----------
    piece : Piece
        The piece.
    shop : Shop
        The price book.
    on : date
        The day for which prices are taken.
    values : mapping of Input to float
        The figures to change, and their new values. [their units]
    stages : int or None
        Most cuts in a row on a sheet, 2 or 3; None: any number.

    Returns
    -------
    CostSheet
        The cost sheet.
    """
    for one, value in values.items():
        piece, shop = one.change(piece, shop, value)
    return cost_sheet(piece, shop, on, stages=stages)
