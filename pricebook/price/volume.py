"""How many pieces, at what price, until an event or a workshop pays for itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, exact, half_up, show


def _contribution(price_cents: int, variable_cents: int, fixed_cents: int) -> int:
    """Return what one piece brings over its own cost, or refuse."""
    faults = [
        *cents_faults("price_cents", price_cents),
        *cents_faults("variable_cents", variable_cents),
        *cents_faults("fixed_cents", fixed_cents),
    ]
    raise_all(MoneyError, faults)
    price_cents, variable_cents = int(price_cents), int(variable_cents)
    if price_cents <= variable_cents:
        raise MoneyError(
            f"a price of {show(price_cents)} does not exceed the variable cost of "
            f"{show(variable_cents)}, so no number of pieces breaks even; raise the "
            "price or lower the cost."
        )
    return price_cents - variable_cents


def break_even_units(price_cents: int, variable_cents: int, fixed_cents: int) -> float:
    """Return how many pieces must sell before fixed costs are met.

    Parameters
    ----------
    price_cents : int
        Price of a piece. [cents]
    variable_cents : int
        What one more piece costs. [cents]
    fixed_cents : int
        What is spent whatever sells. [cents]

    Returns
    -------
    float
        Fixed cost/(price - variable cost); round up to whole pieces. [-]

    Raises
    ------
    MoneyError
        If an amount cannot be, or the price does not exceed the variable cost.

    Examples
    --------
    >>> break_even_units(10_000, 2_000, 1_800_000)
    225.0
    """
    piece = _contribution(price_cents, variable_cents, fixed_cents)
    return _pieces(Fraction(int(fixed_cents), piece))


def break_even_sales_cents(
    price_cents: int, variable_cents: int, fixed_cents: int
) -> int:
    """Return the sales at which fixed costs are met.

    Parameters
    ----------
    price_cents, variable_cents, fixed_cents
        As for `break_even_units`.

    Returns
    -------
    int
        Fixed cost/(contribution/price), rounded half up. [cents]

    Raises
    ------
    MoneyError
        If an amount cannot be, or the price does not exceed the variable cost.

    Examples
    --------
    >>> break_even_sales_cents(10_000, 2_000, 1_800_000)
    2250000
    """
    piece = _contribution(price_cents, variable_cents, fixed_cents)
    return half_up(Fraction(int(fixed_cents) * int(price_cents), piece))


def units_for_profit(
    price_cents: int,
    variable_cents: int,
    fixed_cents: int,
    profit_cents: int,
    tax_share: Number = 0,
) -> float:
    """Return how many pieces bring a wanted profit.

    Parameters
    ----------
    price_cents, variable_cents, fixed_cents
        As for `break_even_units`.
    profit_cents : int
        The profit wanted, after tax if there is a tax share. [cents]
    tax_share : number
        Tax on the profit, 0 or more and below 1; 0 for a charity. [-]

    Returns
    -------
    float
        (F + T/(1 - t))/(P - v); round up to whole pieces. [-]

    Raises
    ------
    MoneyError
        If an amount or the share cannot be.

    Examples
    --------
    >>> units_for_profit(10_000, 2_000, 1_800_000, 1_600_000)
    425.0
    >>> units_for_profit(10_000, 2_000, 1_800_000, 2_400_000, 0.4)
    725.0
    """
    piece = _contribution(price_cents, variable_cents, fixed_cents)
    faults = cents_faults("profit_cents", profit_cents)
    faults += number_faults("tax_share", tax_share, least=0, below=1)
    raise_all(MoneyError, faults)
    before_tax = int(profit_cents) / (1 - exact(tax_share))
    return _pieces((int(fixed_cents) + before_tax) / piece)


def break_even_mix(
    rows: Sequence[tuple[int, int, Number]], fixed_cents: int
) -> tuple[float, ...]:
    """Return how many of each kind must sell when kinds sell in a steady mix.

    Parameters
    ----------
    rows : sequence of (price_cents, variable_cents, parts)
        One a kind; parts is its share of the mix, such as 5 of 5 : 3 : 2.
    fixed_cents : int
        What is spent whatever sells. [cents]

    Returns
    -------
    tuple of float
        Pieces of each kind, in the order of the rows. [-]

    Raises
    ------
    MoneyError
        If there is no row, a number cannot be, or the mix brings nothing.

    Examples
    --------
    >>> mix = [(625, 325, 5), (775, 450, 3), (925, 625, 2)]
    >>> [round(pieces) for pieces in break_even_mix(mix, 14_500_000)]
    [23577, 14146, 9431]
    """
    listed = _mix_rows(rows)
    faults = cents_faults("fixed_cents", fixed_cents)
    for i, (price, variable, parts) in enumerate(listed, 1):
        faults += cents_faults(f"row {i}: price_cents", price)
        faults += cents_faults(f"row {i}: variable_cents", variable)
        faults += number_faults(f"row {i}: parts", parts, above=0)
    raise_all(MoneyError, faults)
    bundle = sum(
        (
            (int(price) - int(variable)) * exact(parts)
            for price, variable, parts in listed
        ),
        Fraction(0),
    )
    if bundle <= 0:
        raise MoneyError(
            "the mix brings no more than its variable cost, so it never breaks even; "
            "raise a price or change the mix."
        )
    fixed = int(fixed_cents)
    return tuple(_pieces(exact(parts) * fixed / bundle) for _, _, parts in listed)


def _mix_rows(rows: object) -> list[tuple[int, int, Number]]:
    """Return the rows of a mix, each of three cells, or refuse."""
    listed = list(rows) if isinstance(rows, Iterable) else []
    if not listed or isinstance(rows, str):
        raise MoneyError("the mix has no rows; give (price, variable cost, parts).")
    cells = [tuple(row) if isinstance(row, Iterable) else () for row in listed]
    raise_all(
        MoneyError,
        (
            f"row {i} of the mix is {row!r:.60}; give (price, variable cost, parts)."
            for i, (row, found) in enumerate(zip(listed, cells, strict=True), 1)
            if len(found) != 3
        ),
    )
    return cast("list[tuple[int, int, Number]]", cells)


def _pieces(number: Fraction) -> float:
    """Return a number of pieces as a float, or refuse one that no float holds."""
    try:
        return float(number)
    except OverflowError:
        raise MoneyError(
            "so many pieces would have to sell that no number holds it; look at the "
            "amounts again."
        ) from None


@dataclass(frozen=True, slots=True, kw_only=True)
class Volume:
    """Sales of like pieces, and how far they stand from breaking even.

    Parameters
    ----------
    price_cents, variable_cents, fixed_cents
        As for `break_even_units`. [cents]
    units : int
        Pieces sold. [-]

    Raises
    ------
    MoneyError
        If a number cannot be, or the price does not exceed the variable cost.

    Examples
    --------
    >>> year = Volume(
    ...     price_cents=9_000, variable_cents=4_000, fixed_cents=8_500_000, units=2_500
    ... )
    >>> year.margin_of_safety_cents, year.income_cents
    (7200000, 4000000)
    """

    price_cents: int
    variable_cents: int
    fixed_cents: int
    units: int

    def __post_init__(self) -> None:
        _contribution(self.price_cents, self.variable_cents, self.fixed_cents)
        raise_all(MoneyError, number_faults("units", self.units, least=0, whole=True))

    @property
    def contribution_cents(self) -> int:
        """What the pieces bring over their own cost [cents]."""
        return (self.price_cents - self.variable_cents) * self.units

    @property
    def income_cents(self) -> int:
        """What is left after fixed costs; below 0 for a loss [cents]."""
        return self.contribution_cents - self.fixed_cents

    @property
    def margin_of_safety_cents(self) -> int:
        """How far sales may fall before there is a loss [cents]."""
        return self.price_cents * self.units - break_even_sales_cents(
            self.price_cents, self.variable_cents, self.fixed_cents
        )


def operating_leverage(contribution_cents: int, income_cents: int) -> float:
    """Return by how many per cent income moves when sales move one per cent.

    Parameters
    ----------
    contribution_cents : int
        Sales less variable costs. [cents]
    income_cents : int
        What is left after fixed costs, above 0. [cents]

    Returns
    -------
    float
        Contribution/income. [-]

    Raises
    ------
    MoneyError
        If an amount cannot be, or there is no income.

    Examples
    --------
    >>> round(operating_leverage(14_800_000, 8_500_000), 2)
    1.74
    """
    faults = cents_faults("contribution_cents", contribution_cents)
    faults += number_faults("income_cents", income_cents, above=0, whole=True)
    raise_all(MoneyError, faults)
    return float(Fraction(int(contribution_cents), int(income_cents)))
