"""Planned against used, in money: how much is the price, how much the quantity."""

from __future__ import annotations

from dataclasses import dataclass

from pricebook.bidding.arguments import number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, exact, half_up


@dataclass(frozen=True, slots=True, kw_only=True)
class Variance:
    """By how much a cost differs from its plan; above 0 is dearer than planned.

    Parameters
    ----------
    price_cents : int
        The part that comes of the price or the rate. [cents]
    quantity_cents : int
        The part that comes of the quantity or the time. [cents]

    Examples
    --------
    >>> Variance(price_cents=100, quantity_cents=-30).total_cents
    70
    """

    price_cents: int
    quantity_cents: int

    @property
    def total_cents(self) -> int:
        """Both parts [cents]."""
        return self.price_cents + self.quantity_cents


def variance(
    *,
    planned_quantity: Number,
    planned_price_cents: Number,
    used_quantity: Number,
    paid_price_cents: Number,
) -> Variance:
    """Split the gap between plan and fact into price and quantity.

    Parameters
    ----------
    planned_quantity, used_quantity : number
        How much was to be used and was: metres, litres, hours; 0 or more. [-]
    planned_price_cents, paid_price_cents : number
        Price or hourly rate, planned and paid; 0 or more. [cents]

    Returns
    -------
    Variance
        (paid - planned price) x used quantity, and (used - planned quantity) x
        planned price, each rounded half up.

    Raises
    ------
    MoneyError
        If a number cannot be; one sentence each.

    Examples
    --------
    >>> variance(
    ...     planned_quantity=0.10, planned_price_cents=800,
    ...     used_quantity=0.20, paid_price_cents=950,
    ... )
    Variance(price_cents=30, quantity_cents=80)
    """
    given = {
        "planned_quantity": planned_quantity,
        "planned_price_cents": planned_price_cents,
        "used_quantity": used_quantity,
        "paid_price_cents": paid_price_cents,
    }
    raise_all(
        MoneyError,
        (
            fault
            for name, number in given.items()
            for fault in number_faults(name, number, least=0)
        ),
    )
    plan_q, plan_p, used_q, paid_p = (exact(number) for number in given.values())
    return Variance(
        price_cents=half_up((paid_p - plan_p) * used_q),
        quantity_cents=half_up((used_q - plan_q) * plan_p),
    )
