"""The same sales booked two ways: with fixed cost in the stock, and without."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import half_up


@dataclass(frozen=True, slots=True, kw_only=True)
class BothWays:
    """Income and stock with absorbed and with marginal cost, side by side.

    Parameters
    ----------
    absorbed_unit_cents, marginal_unit_cents : Fraction
        Cost of a piece with and without its share of fixed cost. [cents]
    absorbed_income_cents, marginal_income_cents : int
        Income booked each way. [cents]
    absorbed_stock_cents, marginal_stock_cents : int
        Value of the unsold pieces each way. [cents]
    """

    absorbed_unit_cents: Fraction
    marginal_unit_cents: Fraction
    absorbed_income_cents: int
    marginal_income_cents: int
    absorbed_stock_cents: int
    marginal_stock_cents: int


def absorbed_and_marginal(
    *, price_cents: int, variable_cents: int, fixed_cents: int, made: int, sold: int
) -> BothWays:
    """Book sales with absorbed cost and with marginal cost.

    Parameters
    ----------
    price_cents : int
        Price of a piece. [cents]
    variable_cents : int
        What one more piece costs. [cents]
    fixed_cents : int
        Fixed cost of making, over the period. [cents]
    made, sold : int
        Pieces made, above 0, and sold of these. [-]

    Returns
    -------
    BothWays
        Both incomes and both values of the stock.

    Raises
    ------
    MoneyError
        If a number cannot be, or more is sold than made.

    Notes
    -----
    Absorbing puts fixed cost/made into each piece, so unsold pieces carry part of
    it into the next period; the two incomes differ by just that. For taking on a
    piece, or letting it go at a price, only the marginal cost counts.

    Examples
    --------
    >>> books = absorbed_and_marginal(
    ...     price_cents=3_300, variable_cents=2_500, fixed_cents=1_200_000,
    ...     made=10_000, sold=8_000,
    ... )
    >>> books.absorbed_income_cents, books.marginal_income_cents
    (5440000, 5200000)
    """
    faults = [
        *cents_faults("price_cents", price_cents),
        *cents_faults("variable_cents", variable_cents),
        *cents_faults("fixed_cents", fixed_cents),
        *number_faults("made", made, least=1, whole=True),
        *number_faults("sold", sold, least=0, whole=True),
    ]
    raise_all(MoneyError, faults)
    if sold > made:
        raise MoneyError(f"sold is {sold}, made is {made}; sell no more than is made.")
    unit = variable_cents + Fraction(int(fixed_cents), int(made))
    left = int(made - sold)
    return BothWays(
        absorbed_unit_cents=unit,
        marginal_unit_cents=Fraction(int(variable_cents)),
        absorbed_income_cents=half_up((price_cents - unit) * sold),
        marginal_income_cents=(price_cents - variable_cents) * sold - fixed_cents,
        absorbed_stock_cents=half_up(unit * left),
        marginal_stock_cents=variable_cents * left,
    )
