"""Mark-up on cost and margin in the price, and the way from one to the other."""

from __future__ import annotations

from fractions import Fraction

from pricebook.bidding.arguments import cents_faults, number_faults
from pricebook.errors import MoneyError, raise_all
from pricebook.money import Number, exact, half_up


def margin_from_markup(markup: Number) -> float:
    """Return the margin in the price that a mark-up on cost makes.

    Parameters
    ----------
    markup : number
        (price - cost)/cost, 0 or more; 25 % is 0.25. [-]

    Returns
    -------
    float
        (price - cost)/price, from 0 up to but not reaching 1. [-]

    Raises
    ------
    MoneyError
        If it is no number, or below 0.

    Notes
    -----
    g = m/(1 + m). A mark-up of 25 % is a margin of 20 %, never of 25 %.

    Examples
    --------
    >>> margin_from_markup(0.25)
    0.2
    """
    raise_all(MoneyError, number_faults("markup", markup, least=0))
    return float(exact(markup) / (1 + exact(markup)))


def markup_from_margin(margin: Number) -> float:
    """Return the mark-up on cost that makes a margin in the price.

    Parameters
    ----------
    margin : number
        (price - cost)/price, 0 or more and below 1. [-]

    Returns
    -------
    float
        (price - cost)/cost. [-]

    Raises
    ------
    MoneyError
        If it is no number, below 0, or 1 or more: no price has that margin.

    Examples
    --------
    >>> markup_from_margin(0.2)
    0.25
    """
    raise_all(MoneyError, number_faults("margin", margin, least=0, below=1))
    return float(exact(margin) / (1 - exact(margin)))


def price_from_markup_cents(cost_cents: int, markup: Number) -> int:
    """Return the price that puts a mark-up on a cost.

    Parameters
    ----------
    cost_cents : int
        The cost, 0 or more. [cents]
    markup : number
        Share of the cost, 0 or more. [-]

    Returns
    -------
    int
        The price, rounded half up. [cents]

    Raises
    ------
    MoneyError
        If a number cannot be; one sentence each.

    Examples
    --------
    >>> price_from_markup_cents(6200, 0.15)
    7130
    """
    faults = cents_faults("cost_cents", cost_cents)
    raise_all(MoneyError, faults + number_faults("markup", markup, least=0))
    return half_up(cost_cents * (1 + exact(markup)))


def price_from_margin_cents(cost_cents: int, margin: Number) -> int:
    """Return the price that leaves a margin over a cost.

    Parameters
    ----------
    cost_cents : int
        The cost, 0 or more. [cents]
    margin : number
        Share of the price, 0 or more and below 1. [-]

    Returns
    -------
    int
        The price, rounded half up. [cents]

    Raises
    ------
    MoneyError
        If a number cannot be; one sentence each.

    Examples
    --------
    >>> price_from_margin_cents(6000, 0.25)
    8000
    """
    faults = cents_faults("cost_cents", cost_cents)
    raise_all(MoneyError, faults + number_faults("margin", margin, least=0, below=1))
    return half_up(cost_cents / (1 - exact(margin)))


def cost_from_markup_cents(price_cents: int, markup: Number) -> int:
    """Return the cost behind a price, when its mark-up is known.

    Parameters
    ----------
    price_cents : int
        The price, 0 or more. [cents]
    markup : number
        Share of the cost, 0 or more. [-]

    Returns
    -------
    int
        The cost, rounded half up. [cents]

    Raises
    ------
    MoneyError
        If a number cannot be; one sentence each.

    Examples
    --------
    >>> cost_from_markup_cents(2655, 1.25)
    1180
    """
    faults = cents_faults("price_cents", price_cents)
    raise_all(MoneyError, faults + number_faults("markup", markup, least=0))
    return half_up(price_cents / (1 + exact(markup)))


def markup_of(cost_cents: int, price_cents: int) -> float:
    """Return the mark-up on cost that a price carries.

    Parameters
    ----------
    cost_cents : int
        The cost, above 0. [cents]
    price_cents : int
        The price, 0 or more. [cents]

    Returns
    -------
    float
        (price - cost)/cost; below 0 when the price is below the cost. [-]

    Raises
    ------
    MoneyError
        If an amount cannot be, or the cost is 0.

    Examples
    --------
    >>> markup_of(9000, 10350)
    0.15
    """
    faults = number_faults("cost_cents", cost_cents, above=0, whole=True)
    raise_all(MoneyError, faults + cents_faults("price_cents", price_cents))
    return float(Fraction(int(price_cents - cost_cents), int(cost_cents)))


def margin_of(cost_cents: int, price_cents: int) -> float:
    """Return the margin that a price leaves over a cost.

    Parameters
    ----------
    cost_cents : int
        The cost, 0 or more. [cents]
    price_cents : int
        The price, above 0. [cents]

    Returns
    -------
    float
        (price - cost)/price; below 0 when the price is below the cost. [-]

    Raises
    ------
    MoneyError
        If an amount cannot be, or the price is 0.

    Examples
    --------
    >>> margin_of(9000, 12000)
    0.25
    """
    faults = number_faults("price_cents", price_cents, above=0, whole=True)
    raise_all(MoneyError, cents_faults("cost_cents", cost_cents) + faults)
    return float(Fraction(int(price_cents - cost_cents), int(price_cents)))
